#include "cli/key_list.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "base/visible_text.hpp"
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

InputError no_such_name(const std::string& name, const std::string& command,
                        const std::vector<KnownName>& known) {
  const std::string one = command.substr(0, command.size() - 1);
  return InputError(Fault{"", "", fmt::format("There is no {} {}", one, firstdrop::quoted(name)),
                          "", did_you_mean(name, known, "firstdrop " + command), 0, 0});
}

}  // namespace firstdrop::cli
