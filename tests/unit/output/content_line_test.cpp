// Lines of an iCalendar file: no text can become a line or a property of its own.
#include "output/content_line.hpp"

#include "catch.hpp"

using namespace firstdrop;

namespace {

// Unfolds lines as a reader does (RFC 5545, 3.1): a line break before a blank is removed with the
// blank.
std::string unfolded(std::string text) {
  for (std::size_t at; (at = text.find("\r\n ")) != std::string::npos;) text.erase(at, 3);
  return text;
}

void check_physical_lines(const std::string& text) {
  REQUIRE(text.ends_with("\r\n"));
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = text.find("\r\n", begin);
    CHECK(end - begin <= 75);
    // No character is split: a line's text never begins with a character's second or later byte.
    const std::size_t first = begin == 0 ? 0 : begin + 1;
    CHECK((static_cast<unsigned char>(text[first]) & 0xC0U) != 0x80U);
    begin = end + 2;
  }
}

}  // namespace

TEST_CASE("TEXT is escaped as RFC 5545 wants it", "[content_line]") {
  CHECK(escaped("") == "");
  CHECK(escaped("plain: \"text\"") == "plain: \"text\"");
  CHECK(escaped("a,b;c\\d") == "a\\,b\\;c\\\\d");
  CHECK(escaped("one\ntwo") == "one\\ntwo");
  CHECK(escaped("one\r\ntwo\rthree\n") == "one\\ntwo\\nthree\\n");
  CHECK(escaped("\\n") == "\\\\n");
  CHECK(escaped("\n\n") == "\\n\\n");
  CHECK(escaped("grün 🌿") == "grün 🌿");
}

TEST_CASE("controls and broken bytes are written out", "[content_line]") {
  CHECK(escaped(std::string("a\0b", 3)) == "a\\\\u0000b");
  CHECK(escaped("\x1b[0m") == "\\\\u001b[0m");
  CHECK(escaped("\x7f") == "\\\\u007f");
  CHECK(escaped("\xff") == "\\\\xff");
  CHECK(escaped("\xe2\x80\xa8") == "\\\\u2028");
}

TEST_CASE("lines are folded at 75 octets", "[content_line]") {
  CHECK(content_line("NAME", "") == "NAME:\r\n");
  const std::string fits(70, 'x');
  CHECK(content_line("NAME", fits) == "NAME:" + fits + "\r\n");
  CHECK(content_line("NAME", fits + "y") == "NAME:" + fits + "\r\n y\r\n");
  const std::string next(74, 'y');
  CHECK(content_line("NAME", fits + next) == "NAME:" + fits + "\r\n " + next + "\r\n");
  CHECK(content_line("NAME", fits + next + "z") == "NAME:" + fits + "\r\n " + next + "\r\n z\r\n");
}

TEST_CASE("folding splits no character, wherever it falls", "[content_line]") {
  for (const std::string character : {"é", "漢", "🌿"}) {
    for (std::size_t before = 0; before < 80; ++before) {
      std::string value(before, 'x');
      for (int i = 0; i < 100; ++i) value += character;
      const std::string line = content_line("N", value);
      check_physical_lines(line);
      CHECK(unfolded(line) == "N:" + value + "\r\n");
    }
  }
}

TEST_CASE("a value without any character's beginning is folded all the same", "[content_line]") {
  const std::string value(500, '\x80');
  CHECK(unfolded(content_line("N", value)) == "N:" + value + "\r\n");
}
