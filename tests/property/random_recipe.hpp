// Random recipes as documents, over everything that a recipe may say: the shipped stills and
// plants, and stills and plants that somebody might have written down, odd ones too.
//
// A document and not a struct, so that what counts as valid is what the strict reader takes, and so
// that any case can be kept as a file and replayed.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "firstdrop/plan/plan.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/tables.hpp"
#include "test_random.hpp"

namespace random_recipe {

using Document = nlohmann::json;

/// Most of them are valid; some are not, which only the reader can tell.
Document document(test_random::Random& random, const firstdrop::Tables& tables);

/// What the strict reader makes of it; none when it finds a fault.
std::optional<firstdrop::Recipe> read(const Document& document, const firstdrop::Tables& tables);

/// Its plan; none where the recipe does not hold together, such as water that would boil at its
/// site.
std::optional<firstdrop::Plan> planned(const firstdrop::Recipe& recipe,
                                       const firstdrop::Tables& tables, int samples,
                                       firstdrop::Detail detail = firstdrop::Detail::full);

}  // namespace random_recipe
