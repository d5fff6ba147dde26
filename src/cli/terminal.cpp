#include "cli/terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <cstring>

namespace firstdrop::cli {
namespace {

constexpr int narrowest = 60;
constexpr int widest = 100;  // longer lines are hard to read

bool says(const char* variable, const char* value) {
  const char* found = std::getenv(variable);
  return found != nullptr && std::strcmp(found, value) == 0;
}

bool is_set(const char* variable) {
  const char* found = std::getenv(variable);
  return found != nullptr && *found != '\0';
}

// Zero if unknown. COLUMNS is for output that is piped to a pager (POSIX, environment variables).
int columns_of_terminal(bool is_terminal) {
  winsize size{};
  if (is_terminal && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) {
    return size.ws_col;
  }
  return is_set("COLUMNS") ? std::atoi(std::getenv("COLUMNS")) : 0;
}

}  // namespace

Look look_of_stdout(const std::string& wish) {
  Look look;
  const bool terminal = isatty(STDOUT_FILENO) == 1;
  look.colour = wish == "always" ||
                (wish == "auto" && terminal && !is_set("NO_COLOR") && !says("TERM", "dumb"));
  if (const int columns = columns_of_terminal(terminal); columns > 0) {
    look.width = std::clamp(columns, narrowest, widest);
  }
  look.ascii = only_ascii();
  return look;
}

bool only_ascii() {
  if (says("TERM", "dumb")) return true;
  for (const char* variable : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    if (!is_set(variable)) continue;
    // The form is language_TERRITORY.encoding@modifier. UTF-8 may also be spelled utf8 or utf-8.
    std::string locale;
    for (const char* c = std::getenv(variable); *c != '\0'; ++c) {
      if (*c != '-') locale += static_cast<char>(std::tolower(static_cast<unsigned char>(*c)));
    }
    return locale.find("utf8") == std::string::npos;
  }
  return true;
}

std::string styled(const std::string& text, Style style, const Look& look) {
  if (!look.colour || style == Style::plain) return text;
  const char* code = "1";
  switch (style) {
    case Style::good:
      code = "1;32";
      break;
    case Style::warn:
      code = "1;33";
      break;
    case Style::bad:
      code = "1;31";
      break;
    case Style::faint:
      code = "2";
      break;
    case Style::plain:
    case Style::strong:
      break;
  }
  return std::string("\x1b[") + code + "m" + text + "\x1b[0m";
}

std::string wrapped(const std::string& first, const std::string& text, const Look& look) {
  return firstdrop::wrapped(first, text, look.width);
}

}  // namespace firstdrop::cli
