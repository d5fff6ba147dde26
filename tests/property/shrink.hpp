// Shrinks a document for as long as it still fails, which turns a random case into one that a
// person can read.
//
// This works on documents instead of using a property-testing library. Such libraries shrink the
// draws of their own generators, while here a case also comes from a kept file. What counts as
// small is a short recipe, not a small draw: a shipped still instead of a made-up one, a figure
// instead of its range. (RapidCheck of Debian 12 was tried. It was fast enough, at 20 us for the
// 150 draws of a recipe, but its shrinking knows nothing of the document.)
#pragma once

#include <cstddef>
#include <functional>
#include <nlohmann/json.hpp>

namespace property {

/// The size that shrinking reduces: the number of characters that aren't zeros, so that round
/// numbers count less.
std::size_t size_of(const nlohmann::json& document);

/// Takes every smaller document that still fails, greedily, until there is none. `fails` must be
/// true for `document`, and false for anything that isn't a valid recipe.
nlohmann::json shrink(nlohmann::json document,
                      const std::function<bool(const nlohmann::json&)>& fails);

}  // namespace property
