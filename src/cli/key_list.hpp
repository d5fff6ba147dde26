// A list of keys with their descriptions, and the error for an unknown key.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "firstdrop/base/error.hpp"

namespace firstdrop::cli {

/// A key and its description, in a sentence or two.
using KeyAndAbout = std::pair<std::string, std::string>;

/// The entries as lines for the terminal.
std::string key_list(const std::vector<KeyAndAbout>& entries);

/// The error for a key that `firstdrop COMMAND` does not list.
InputError no_such_key(const std::string& key, const std::string& command,
                       const std::vector<std::string>& keys);

}  // namespace firstdrop::cli
