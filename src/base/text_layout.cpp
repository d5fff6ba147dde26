#include "base/text_layout.hpp"

#include <algorithm>
#include <array>

namespace firstdrop {
namespace {

std::string blanks(int count) {
  return std::string(static_cast<std::size_t>(std::max(count, 0)), ' ');
}

// The units in which people are told amounts.
constexpr std::array<std::string_view, 22> units = {
    "mL", "L",  "mL/min", "L/min", "fl", "qt", "gal", "gal/min", "g",  "kg", "oz",
    "lb", "°C", "°F",     "min",   "s",  "h",  "%",   "W",       "kW", "m",  "ft"};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
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

std::string joined(const std::vector<std::string>& texts, std::string_view between) {
  std::string all;
  for (const std::string& text : texts) {
    if (&text != &texts.front()) all += between;
    all += text;
  }
  return all;
}

std::string in_a_row(const std::vector<std::string>& texts, std::string_view before_last) {
  std::string all;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    if (i > 0 && i + 1 == texts.size())
      all.append(" ").append(before_last).append(" ");
    else if (i > 0)
      all += ", ";
    all += texts[i];
  }
  return all;
}

std::string spaced(std::string key) {
  std::replace(key.begin(), key.end(), '-', ' ');
  return key;
}

std::string capitalised(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') {
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  }
  return text;
}

std::string as_sentence(std::string text) {
  if (text.empty()) return text;
  const bool has_end = std::string_view(".?!").find(text.back()) != std::string_view::npos;
  return capitalised(has_end ? std::move(text) : std::move(text) + '.');
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

std::string with_glue(std::string_view text, std::string_view glue) {
  std::string out;
  bool after_fl = false;
  bool after_h = false;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text[at] != ' ') {
      out += text[at];
      continue;
    }
    const std::string_view rest = text.substr(at + 1);
    const std::string_view word = rest.substr(0, rest.find_first_of(" ,;:.()?"));
    const bool figure = at > 0 && (is_digit(text[at - 1]) || text[at - 1] == '_') &&
                        std::find(units.begin(), units.end(), word) != units.end();
    const bool ounce = after_fl && word.starts_with("oz");
    const bool minutes = after_h && !word.empty() && is_digit(word.front());
    out += figure || ounce || minutes ? glue : " ";
    after_fl = figure && word == "fl";
    after_h = figure && word == "h";
  }
  return out;
}

}  // namespace firstdrop
