// Lays out plain text in lines and columns. Widths count characters, not bytes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace firstdrop {

/// The number of characters (code points) in a UTF-8 text.
int text_width(std::string_view text);
/// The text, filled up with spaces on the right to `width` characters.
std::string padded(std::string_view text, int width);
/// The text, filled up with spaces on the left to `width` characters.
std::string right(std::string_view text, int width);

/// "1 run", "2 runs".
template <class Number>
std::string counted(Number count, const char* one, const char* many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

/// The texts one after another, with `between` between each two.
std::string joined(const std::vector<std::string>& texts, std::string_view between);

/// "a, b and c", with `before_last` as the "and".
std::string in_a_row(const std::vector<std::string>& texts, std::string_view before_last);

/// A key as people say it: "leafy herb" for "leafy-herb".
std::string spaced(std::string key);

/// The text with its first character as a capital, if that is an ASCII letter.
std::string capitalised(std::string text);
/// The text as a sentence: with a capital, and a full stop unless it has an end already.
std::string as_sentence(std::string text);

/// Breaks a text at its spaces so that no line is wider than `width`, except for a single word that
/// is longer. `first` starts the first line, and spaces of the same width start the others. The
/// result ends with a line feed.
std::string wrapped(std::string_view first, std::string_view text, int width);

/// The text with `glue` instead of the spaces inside an amount, so that no line breaks there:
/// "1.1 L", "7 fl oz", "100 %", "1 h 20 min". Underscores, on which a person writes a number, count
/// as a number: "____ mL".
std::string with_glue(std::string_view text, std::string_view glue);

}  // namespace firstdrop
