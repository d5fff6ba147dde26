// The generated parts of the manual page firstdrop(1), in the language mdoc(7).
#pragma once

#include <map>
#include <string>

#include "cli/command_line.hpp"

namespace firstdrop::generate {

/// "synopsis"; "options" of all commands; and "options of COMMAND" for each command.
std::map<std::string, std::string> man_page_parts(const cli::CommandLine& line);

}  // namespace firstdrop::generate
