#include "output/content_line.hpp"

#include <cstddef>

#include "base/visible_text.hpp"

namespace firstdrop {
namespace {

constexpr std::string_view line_end = "\r\n";
constexpr std::size_t most_octets = 75;  // without the line end

bool continues_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

std::string escaped_line(std::string_view line) {
  std::string out;
  for (const char c : visible(line)) {
    if (c == '\\' || c == ';' || c == ',') out += '\\';
    out += c;
  }
  return out;
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (;;) {
    const std::size_t end = text.find_first_of(line_end);
    out += escaped_line(text.substr(0, end));
    if (end == std::string_view::npos) return out;
    out += "\\n";
    text.remove_prefix(end + (text.substr(end).starts_with(line_end) ? 2 : 1));
  }
}

std::string content_line(std::string_view name, std::string_view value) {
  std::string unfolded(name);
  unfolded += ':';
  unfolded += value;
  std::string_view rest = unfolded;
  std::string out;
  std::size_t room = most_octets;
  while (rest.size() > room) {
    std::size_t taken = room;
    while (taken > 0 && continues_character(rest[taken])) --taken;
    if (taken == 0) taken = room;  // not UTF-8
    out += rest.substr(0, taken);
    out += line_end;
    out += ' ';
    rest.remove_prefix(taken);
    room = most_octets - 1;
  }
  out += rest;
  out += line_end;
  return out;
}

}  // namespace firstdrop
