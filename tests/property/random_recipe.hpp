// Random recipes as documents, over everything that a recipe may say. They have the shipped stills
// and plants, as well as stills and plants that a user might have described, odd ones included.
//
// They are documents rather than structs, so that the strict reader decides what is valid. Any case
// can also be kept as a file and replayed.
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

/// A random document. Most are valid, and only the reader can tell which aren't.
Document document(test_random::Random& random, const firstdrop::Tables& tables);

/// The recipe as the strict reader reads it; none if it finds a fault.
std::optional<firstdrop::Recipe> read(const Document& document, const firstdrop::Tables& tables);

/// The recipe's plan. None if the recipe can't be planned, for example with water that would boil
/// at its site.
std::optional<firstdrop::Plan> planned(const firstdrop::Recipe& recipe,
                                       const firstdrop::Tables& tables, int samples,
                                       firstdrop::Detail detail = firstdrop::Detail::full);

}  // namespace random_recipe
