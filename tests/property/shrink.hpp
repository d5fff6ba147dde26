// Makes a document smaller for as long as it still fails: the way from a random case to one that a
// person can read.
//
// Written for documents rather than taken from a property-testing library: those shrink the draws
// that their own generators made, while here a case also comes from a file that was kept, and what
// is small is a short recipe (a shipped still in place of a made-up one, a figure in place of its
// range), not a small draw. (RapidCheck of Debian 12 was tried: fast enough, 20 us for the 150
// draws of a recipe, but its shrinking knows nothing of the document.)
#pragma once

#include <cstddef>
#include <functional>
#include <nlohmann/json.hpp>

namespace property {

/// What shrinking makes less of: characters that are no zeros, so that a round number counts less.
std::size_t size_of(const nlohmann::json& document);

/// Greedy: takes every smaller document that fails still, until there is none. `fails` must hold
/// for `document`, and is false for what is no valid recipe.
nlohmann::json shrink(nlohmann::json document,
                      const std::function<bool(const nlohmann::json&)>& fails);

}  // namespace property
