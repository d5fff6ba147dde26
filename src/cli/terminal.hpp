// What the terminal can show.
#pragma once

#include <string>

#include "base/text_layout.hpp"

namespace firstdrop::cli {

struct Look {
  bool colour = false;
  int width = 80;
  bool ascii = false;  ///< it shows nothing else, or doesn't say what it shows
};

/// `wish` is auto, always or never. Auto means colour on a terminal that can show it, unless
/// NO_COLOR is set (https://no-color.org).
Look look_of_stdout(const std::string& wish);

/// Whether the locale's encoding is something other than UTF-8. The first of LC_ALL, LC_CTYPE and
/// LANG that is set and not empty decides (POSIX.1-2017, Base Definitions, 8.2); if none is, it is
/// ASCII. A dumb terminal has ASCII only.
bool only_ascii();

/// Weights and colours. None of them carries a meaning of its own.
enum class Style { plain, strong, good, warn, bad, faint };
std::string styled(const std::string& text, Style style, const Look& look);

/// Breaks a text at its blanks so that no line is wider than the terminal; see text_layout.hpp.
std::string wrapped(const std::string& first, const std::string& text, const Look& look);

}  // namespace firstdrop::cli
