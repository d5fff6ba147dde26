// Options that give the value of a recipe's key.
#pragma once

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "firstdrop/base/error.hpp"

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

/// The faults of what options gave, with the options in place of JSON pointers. `option_of` has the
/// option for the path of a key.
template <class OptionOf>
InputError by_options(const InputError& error, OptionOf option_of) {
  std::vector<Fault> faults = error.faults();
  for (Fault& fault : faults) {
    if (!fault.file.empty() || fault.pointer.empty()) continue;
    fault.line = fault.column = 0;  // in a text that nobody has seen
    std::string path = fault.pointer.substr(1);
    std::replace(path.begin(), path.end(), '/', '.');
    fault.pointer = option_of(path);
  }
  return InputError(std::move(faults));
}

}  // namespace firstdrop::cli
