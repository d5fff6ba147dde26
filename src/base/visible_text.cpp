#include "base/visible_text.hpp"

#include <algorithm>
#include <cctype>
#include <cstdint>

namespace firstdrop {

namespace {

struct CodePoint {
  std::uint32_t value = 0;
  std::size_t length = 0;  ///< in bytes; 0 if the text does not start with valid UTF-8
};

unsigned byte(std::string_view text, std::size_t i) {
  return static_cast<unsigned char>(text[i]);
}

/// The first code point of a text that is not empty. Only the byte sequences that the Unicode
/// Standard calls well-formed count: shortest form, no surrogates, nothing above U+10FFFF.
CodePoint first_code_point(std::string_view text) {
  const unsigned lead = byte(text, 0);
  if (lead < 0x80) return {lead, 1};
  const std::size_t length = lead < 0xC2   ? 0
                             : lead < 0xE0 ? 2
                             : lead < 0xF0 ? 3
                             : lead < 0xF5 ? 4
                                           : 0;
  if (length == 0 || text.size() < length) return {};
  std::uint32_t value = lead & (0x7FU >> length);
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(text, i) & 0xC0U) != 0x80U) return {};
    value = (value << 6U) | (byte(text, i) & 0x3FU);
  }
  const bool overlong = (length == 3 && value < 0x800) || (length == 4 && value < 0x10000);
  const bool surrogate = value >= 0xD800 && value <= 0xDFFF;
  if (overlong || surrogate || value > 0x10FFFF) return {};
  return {value, length};
}

/// Whether a code point can be shown as it is. False for controls, for spaces other than the plain
/// one, and for characters without a shape, such as those that change the writing direction.
bool shows(std::uint32_t c) {
  return !(c < 0x20 || (c >= 0x7F && c <= 0xA0) || c == 0xAD || c == 0x61C || c == 0x1680 ||
           c == 0x180E || (c >= 0x2000 && c <= 0x200F) || (c >= 0x2028 && c <= 0x202F) ||
           (c >= 0x205F && c <= 0x206F) || c == 0x3000 || c == 0xFEFF ||
           (c >= 0xFFF9 && c <= 0xFFFB) || (c >= 0xE0000 && c <= 0xE0FFF));
}

std::string hexadecimal(std::uint32_t value, int digits) {
  static constexpr char figures[] = "0123456789abcdef";
  std::string out;
  for (int shift = 4 * (digits - 1); shift >= 0; shift -= 4)
    out += figures[(value >> shift) & 0xFU];
  return out;
}

/// Takes the first character off the text and returns it as it should be shown.
std::string take_visible(std::string_view& text) {
  const CodePoint c = first_code_point(text);
  const std::size_t length = c.length == 0 ? 1 : c.length;
  std::string out;
  if (c.length == 0) {
    out = "\\x" + hexadecimal(byte(text, 0), 2);
  } else if (c.value == '\n') {
    out = "\\n";
  } else if (c.value == '\r') {
    out = "\\r";
  } else if (c.value == '\t') {
    out = "\\t";
  } else if (shows(c.value)) {
    out = text.substr(0, length);
  } else if (c.value > 0xFFFF) {
    out = "\\U" + hexadecimal(c.value, 8);
  } else {
    out = "\\u" + hexadecimal(c.value, 4);
  }
  text.remove_prefix(length);
  return out;
}

std::string with_small_letters(std::string_view text) {
  std::string out(text);
  for (char& c : out) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

}  // namespace

std::string visible(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    // Most of any text is plain ASCII, which is shown as it is.
    const auto* const end =
        std::find_if_not(text.begin(), text.end(), [](char c) { return c >= ' ' && c <= '~'; });
    const auto plain = static_cast<std::size_t>(end - text.begin());
    out += text.substr(0, plain);
    text.remove_prefix(plain);
    if (!text.empty()) out += take_visible(text);
  }
  return out;
}

std::string quoted(std::string_view text, std::size_t most) {
  std::string out = "\"";
  for (std::size_t taken = 0; !text.empty(); ++taken) {
    if (taken == most) {
      out += "…";
      break;
    }
    if (text.front() == '"' || text.front() == '\\') out += '\\';
    out += take_visible(text);
  }
  return out + '"';
}

std::string as_markup(std::string_view text) {
  std::string out;
  for (const char c : visible(text)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += c;
    }
  }
  // XML does not allow U+FFFE and U+FFFF.
  for (const char* none : {"\xEF\xBF\xBE", "\xEF\xBF\xBF"}) {
    for (std::size_t at = out.find(none); at != std::string::npos; at = out.find(none))
      out.replace(at, 3, "?");
  }
  return out;
}

bool has_acting_character(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = [&](std::size_t at) {
      return at < text.size() ? static_cast<unsigned char>(text[at]) : 0U;
    };
    const unsigned first = byte(i);
    const unsigned second = byte(i + 1);
    const unsigned third = byte(i + 2);
    if (first < 0x20 || first == 0x7F) return true;
    if (first == 0xC2 && second < 0xA0) return true;   // C1 controls
    if (first == 0xD8 && second == 0x9C) return true;  // U+061C
    if (first == 0xE2 && second == 0x80 &&             // U+200E, 200F, 2028 to 202E
        (third == 0x8E || third == 0x8F || (third >= 0xA8 && third <= 0xAE)))
      return true;
    if (first == 0xE2 && second == 0x81 && third >= 0xA6 && third <= 0xA9)
      return true;                                                      // U+2066 to 2069
    if (first == 0xEF && second == 0xBB && third == 0xBF) return true;  // U+FEFF
  }
  return false;
}

std::string without_markup(std::string_view json) {
  std::string out;
  out.reserve(json.size());
  for (const char c : json) {
    if (c == '<' || c == '>' || c == '&')
      out += "\\u" + hexadecimal(static_cast<unsigned char>(c), 4);
    else
      out += c;
  }
  return out;
}

void append_json_text(std::string& out, std::string_view text) {
  out += '"';
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (byte < 0x20 || c == '<' || c == '>' || c == '&') {
      out += "\\u" + hexadecimal(byte, 4);
    } else {
      out += c;
    }
  }
  out += '"';
}

std::string json_text(std::string_view text) {
  std::string out;
  append_json_text(out, text);
  return out;
}

std::string as_markdown(const std::string& words) {
  constexpr std::string_view marks = "\\`*_{}[]<>#|~&";
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string_view before = std::string_view(words).substr(0, i);
    const char c = words[i];
    const bool number_before =
        !before.empty() && before.find_first_not_of("0123456789") == std::string_view::npos;
    if (marks.find(c) != std::string_view::npos || (c == ':' && words.compare(i, 3, "://") == 0) ||
        (c == '.' && i >= 3 && with_small_letters(before.substr(i - 3)) == "www") ||
        (i == 0 && (c == '-' || c == '+' || c == '=')) ||
        (number_before && (c == '.' || c == ')'))) {
      out += '\\';
    }
    out += c;
  }
  return out;
}

}  // namespace firstdrop
