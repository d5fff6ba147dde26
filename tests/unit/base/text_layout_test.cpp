#include "base/text_layout.hpp"

#include "catch.hpp"

using namespace firstdrop;

TEST_CASE("lines break at blanks", "[text_layout]") {
  CHECK(wrapped("- ", "aa bb cc", 7) == "- aa bb\n  cc\n");
  CHECK(wrapped("- ", "aaaaaaaaa b", 7) == "- aaaaaaaaa\n  b\n");
  CHECK(wrapped("", "°° °°", 5) == "°° °°\n");
  CHECK(text_width("5 °C") == 4);
  CHECK(padded("°", 3) == "°  ");
  CHECK(right("°", 3) == "  °");
}

TEST_CASE("a figure and its unit are held together", "[text_layout]") {
  CHECK(with_glue("of 1.1 L, 7 fl oz and 100 %.", "~") == "of 1.1~L, 7~fl~oz and 100~%.");
  CHECK(with_glue("(5 °C) 1 h 20 min: 3 ft", "~") == "(5~°C) 1~h~20~min: 3~ft");
  CHECK(with_glue("14 to 22 min, ____ mL, ____ fl oz", "~") == "14 to 22~min, ____~mL, ____~fl~oz");
  CHECK(with_glue("3 Look, 2 moles, a min, fl oz, 4", "~") == "3 Look, 2 moles, a min, fl oz, 4");
  CHECK(with_glue(" 7 ", "~") == " 7 ");
  CHECK(with_glue("", "~").empty());
}

TEST_CASE("texts are joined with something between each two", "[text_layout]") {
  CHECK(joined({"a", "", "b"}, ", ") == "a, , b");
  CHECK(joined({"a"}, ", ") == "a");
  CHECK(joined({}, ", ").empty());
}
