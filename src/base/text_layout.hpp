// Plain text in lines and columns. Widths count characters, not bytes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace firstdrop {

/// Characters in a UTF-8 text.
int text_width(std::string_view text);
/// The text with blanks up to `width` characters after it, or before it.
std::string padded(std::string_view text, int width);
std::string right(std::string_view text, int width);

/// "1 run", "2 runs".
template <class Number>
std::string counted(Number count, const char* one, const char* many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

/// The texts in a row, with `between` between each two of them.
std::string joined(const std::vector<std::string>& texts, std::string_view between);

/// With a capital at the beginning, if a letter of ASCII stands there.
std::string capitalised(std::string text);

/// Breaks a text at its blanks so that no line is wider than `width`, save for one long word.
/// `first` starts the first line, blanks of the same width start the others. Ends with a line feed.
std::string wrapped(std::string_view first, std::string_view text, int width);

/// The text with `glue` in place of each blank between a figure, or the line to write one on, and
/// its unit, where no line shall break: "1.1 L", "7 fl oz", "100 %", "____ mL",
/// "1 h 20 min".
std::string with_glue(std::string_view text, std::string_view glue);

}  // namespace firstdrop
