// What the terminal is like, decided once.
#pragma once

#include <string>

#include "base/text_layout.hpp"

namespace firstdrop::cli {

struct Look {
  bool colour = false;
  int width = 80;
  bool ascii = false;  ///< the terminal shows nothing else, or does not say what it shows
};

/// `wish` is auto, always or never. Auto means colour on a terminal that can, unless NO_COLOR says
/// otherwise (https://no-color.org).
Look look_of_stdout(const std::string& wish);

/// Whether the locale's characters are other than UTF-8, by LC_ALL, LC_CTYPE and LANG: the first of
/// them that is set and not empty decides (POSIX.1-2017, Base Definitions, 8.2). A dumb terminal
/// has ASCII only.
bool only_ascii();

/// Weights and colours; no meaning rests on them alone.
enum class Style { plain, strong, good, warn, bad, faint };
std::string styled(const std::string& text, Style style, const Look& look);

/// Breaks a text at its blanks so that no line is wider than the terminal; see text_layout.hpp.
std::string wrapped(const std::string& first, const std::string& text, const Look& look);

}  // namespace firstdrop::cli
