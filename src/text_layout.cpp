#include "text_layout.hpp"

#include <algorithm>

namespace firstdrop {
namespace {

std::string blanks(int count) {
  return std::string(static_cast<std::size_t>(std::max(count, 0)), ' ');
}

}  // namespace

int text_width(std::string_view text) {
  return static_cast<int>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xc0U) != 0x80U;  // not a UTF-8 continuation byte
  }));
}

std::string padded(std::string_view text, int width) {
  return std::string(text) + blanks(width - text_width(text));
}

std::string right(std::string_view text, int width) {
  return blanks(width - text_width(text)) + std::string(text);
}

std::string wrapped(std::string_view first, std::string_view text, int width) {
  const int indent = text_width(first);
  std::string out(first);
  int column = indent;
  bool line_is_empty = true;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string_view word = text.substr(at, end - at);
    at = end + 1;
    if (word.empty()) continue;
    const int word_width = text_width(word);
    if (!line_is_empty && column + 1 + word_width > width) {
      out += "\n" + blanks(indent);
      column = indent;
      line_is_empty = true;
    }
    if (!line_is_empty) {
      out += " ";
      ++column;
    }
    out += word;
    column += word_width;
    line_is_empty = false;
  }
  return out + "\n";
}

}  // namespace firstdrop
