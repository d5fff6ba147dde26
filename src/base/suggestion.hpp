// The hint that names what was probably meant.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/base/error.hpp"

namespace firstdrop {

/// A hint with the name that is nearest to the word, "did you mean \"fresh\"?", or "" if none is
/// near; see nearest_name().
inline std::string did_you_mean(const std::string& word, const std::vector<std::string>& names) {
  const std::string nearest = nearest_name(word, names);
  return nearest.empty() ? nearest : "did you mean \"" + nearest + "\"?";
}

}  // namespace firstdrop
