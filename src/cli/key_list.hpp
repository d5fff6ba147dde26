// A list of keys with their descriptions, and the error for an unknown name.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/suggestion.hpp"
#include "firstdrop/base/error.hpp"

namespace firstdrop::cli {

/// A key and its description, in a sentence or two.
using KeyAndAbout = std::pair<std::string, std::string>;

/// The entries as lines for the terminal.
std::string key_list(const std::vector<KeyAndAbout>& entries);

/// The error for a name that `firstdrop COMMAND` does not list. The command is the plural of what
/// it lists: "plants".
InputError no_such_name(const std::string& name, const std::string& command,
                        const std::vector<KnownName>& known);

}  // namespace firstdrop::cli
