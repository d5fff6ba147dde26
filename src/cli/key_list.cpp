#include "cli/key_list.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "base/suggestion.hpp"
#include "cli/terminal.hpp"

namespace firstdrop::cli {

std::string key_list(const std::vector<KeyAndAbout>& entries) {
  int key_width = 0;
  for (const auto& [key, about] : entries) key_width = std::max(key_width, text_width(key));
  const Look look = look_of_stdout("never");
  std::string page;
  for (const auto& [key, about] : entries)
    page += wrapped(padded(key, key_width) + "  ", about, look);
  return page;
}

InputError no_such_key(const std::string& key, const std::string& command,
                       const std::vector<std::string>& keys) {
  return InputError(Fault{"", "", fmt::format("\"{}\"", key),
                          fmt::format("a key that `firstdrop {}` lists", command),
                          did_you_mean(key, keys), 0, 0});
}

}  // namespace firstdrop::cli
