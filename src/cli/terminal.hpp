// What the terminal is like, decided once.
#pragma once

#include <string>

namespace firstdrop::cli {

struct Look {
  bool colour = false;
  int width = 80;
};

/// `wish` is auto, always or never. Auto means colour on a terminal that can, unless NO_COLOR says
/// otherwise (https://no-color.org).
Look look_of_stdout(const std::string& wish);

/// Weights and colours; no meaning rests on them alone.
enum class Style { plain, strong, good, warn, bad, faint };
std::string styled(const std::string& text, Style style, const Look& look);

/// Breaks a text at its blanks so that no line is wider than the terminal. `first` starts the first
/// line, blanks of the same width start the others. Widths count characters, not bytes.
std::string wrapped(const std::string& first, const std::string& text, const Look& look);

/// Characters in a UTF-8 text.
int text_width(const std::string& text);
/// The text with blanks up to `width` characters after it, or before it.
std::string padded(const std::string& text, int width);
std::string right(const std::string& text, int width);

}  // namespace firstdrop::cli
