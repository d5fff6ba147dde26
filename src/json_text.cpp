#include "json_text.hpp"

#include <fmt/format.h>

namespace firstdrop {

std::string json_text(std::string_view text) {
  std::string out = "\"";
  for (const char byte : text) {
    const auto code = static_cast<unsigned char>(byte);
    if (byte == '"' || byte == '\\') {
      out += '\\';
      out += byte;
    } else if (code < 0x20 || code == 0x7F || byte == '<' || byte == '>' || byte == '&') {
      out += fmt::format("\\u{:04x}", code);
    } else {
      out += byte;
    }
  }
  return out + '"';
}

}  // namespace firstdrop
