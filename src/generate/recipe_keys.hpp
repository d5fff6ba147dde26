// The keys of recipes and stills, for completions of --set and --vary.
#pragma once

#include <string>
#include <vector>

namespace firstdrop::generate {

struct CompletionKey {
  std::string key;                 ///< "still.heater.kind"
  std::vector<std::string> words;  ///< the value is one of these; empty: anything
  std::string table;               ///< the value can be a key of this table; may be empty
};

/// All keys, those of the recipe's still behind "still.".
std::vector<CompletionKey> recipe_keys();

}  // namespace firstdrop::generate
