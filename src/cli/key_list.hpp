// What is called by its key: the list of all, and what is said of a key that is none.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "firstdrop/base/error.hpp"

namespace firstdrop::cli {

/// A key and what stands behind it, in a sentence or two.
using KeyAndAbout = std::pair<std::string, std::string>;

/// One under the other, for the terminal.
std::string key_list(const std::vector<KeyAndAbout>& entries);

/// For a key that `firstdrop COMMAND` does not list.
InputError no_such_key(const std::string& key, const std::string& command,
                       const std::vector<std::string>& keys);

}  // namespace firstdrop::cli
