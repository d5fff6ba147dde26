// The generated part of each shell's completions: its data. The rest is in src/completions.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "cli/command_line.hpp"
#include "generate/recipe_keys.hpp"

namespace firstdrop::generate {

/// The part "data" of the template.
using Parts = std::map<std::string, std::string>;

Parts bash_parts(const cli::CommandLine& line, const std::vector<CompletionKey>& keys);
Parts zsh_parts(const cli::CommandLine& line, const std::vector<CompletionKey>& keys);
Parts fish_parts(const cli::CommandLine& line, const std::vector<CompletionKey>& keys);

}  // namespace firstdrop::generate
