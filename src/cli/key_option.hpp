// Options that give the value of a recipe's key.
#pragma once

#include <algorithm>
#include <string>

namespace firstdrop::cli {

/// The option for the key with this path: "--oil-share" for "goal.oil_share".
inline std::string option_of_key(const std::string& path) {
  std::string name = path.substr(path.rfind('.') + 1);
  std::replace(name.begin(), name.end(), '_', '-');
  return "--" + name;
}

/// The option for the key of a still with this path: "--pot-volume" for "pot.volume".
inline std::string option_of_still_key(const std::string& path) {
  std::string name = path;
  std::replace(name.begin(), name.end(), '_', '-');
  std::replace(name.begin(), name.end(), '.', '-');
  return "--" + name;
}

}  // namespace firstdrop::cli
