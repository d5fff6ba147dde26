#include "json/json_reader.hpp"

#include <string>

#include "catch.hpp"
#include "quantity/words.hpp"

using namespace firstdrop;
using json::Context;
using json::Kind;
using json::Value;

namespace {

Fault only_fault(const std::string& text) {
  Context context{"herb.json"};
  json::parse(text, context);
  REQUIRE(context.faults.size() == 1);
  return context.faults.front();
}

struct Row {
  const char* text;
  int line;
  int column;
  const char* found;
  const char* wanted;
  const char* hint;
};

}  // namespace

TEST_CASE("syntax errors name the line, the column and what would do", "[json]") {
  struct Syntax {
    const char* text;
    int line;
    int column;
    const char* hint;
  };
  const char* const quotes = "put text in double quotes";
  const char* const utf8 = "save the file with the encoding UTF-8";
  const Syntax rows[] = {
      {"{", 1, 2, ""},
      {R"({"a": 1)", 1, 8, ""},
      {"{\"a\": 1\n \"b\": 2}", 2, 2, "put a comma before it"},
      {"{\"a\": 1,\n}", 2, 1, "remove the comma before it"},
      {R"({"a": [1, 2,]})", 1, 13, "remove the comma before it"},
      {R"({"a": [1 2]})", 1, 10, "put a comma before it"},
      {R"({"a" 1})", 1, 6, "put a colon before it"},
      {R"({"a": })", 1, 7, ""},
      {"{\"a\": 1 // kg\n}", 1, 9, "JSON has no comments; use the key \"note\""},
      {"{'a': 1}", 1, 2, "use double quotes"},
      {R"({"a": lavender})", 1, 7, quotes},
      {R"({"a": NaN})", 1, 7, quotes},
      {"{\"a\": \"x\ny\"}", 1, 9, "close the quotes on the same line"},
      {R"({"a": "x)", 1, 9, ""},
      {R"({"a": "\q"})", 1, 9, R"(write a backslash itself as \\)"},
      {R"({"a": 1.})", 1, 9, ""},
      {R"({"a": 1e400})", 1, 7, ""},
      {R"({"a": -1e400})", 1, 7, ""},
      {R"({} {})", 1, 4, ""},
      // The column counts characters, as an editor does: é is two bytes.
      {"{\"\xC3\xA9\": x}", 1, 7, quotes},
      {"{\"a\": \"\xE9\"}", 1, 8, utf8},
      {"\xFF\xFE{", 1, 1, utf8},
      {"{\"a\": \x1B[2J}", 1, 7, ""},
  };
  for (const Syntax& row : rows) {
    CAPTURE(row.text);
    const Fault fault = only_fault(row.text);
    CHECK(fault.file == "herb.json");
    CHECK(fault.pointer.empty());
    CHECK(fault.line == row.line);
    CHECK(fault.column == row.column);
    CHECK_FALSE(fault.found.empty());
    CHECK(fault.found.find('\x1B') == std::string::npos);
    CHECK(fault.wanted == (row.hint == utf8 ? "text in UTF-8" : "valid JSON"));
    CHECK(fault.hint == row.hint);
  }
  CHECK(only_fault("").found == "an empty text");
  CHECK(only_fault(" \n\t").wanted == "a JSON object");
  // These messages quote the JSON library.
  CHECK(only_fault(R"({"a": 1e400})").found.find("1e400") != std::string::npos);
  CHECK(only_fault(R"({"a": 1)").found.find("unexpected end of input") != std::string::npos);
}

TEST_CASE("a NUL byte does not hide what follows it", "[json]") {
  const Fault fault = only_fault(std::string("{}\n\0{", 5));
  CHECK(fault.found == "a NUL byte");
  CHECK(fault.line == 2);
  CHECK(fault.column == 1);
}

TEST_CASE("a byte order mark at the start is skipped", "[json]") {
  Context context;
  const auto root = json::parse("\xEF\xBB\xBF{\"a\": 1}", context);
  REQUIRE(root);
  CHECK(context.faults.empty());
  CHECK(root->children.front().key == "a");
}

TEST_CASE("the tree keeps the file's order and tells integers from other numbers", "[json]") {
  Context context;
  const auto root = json::parse(
      R"({"z": 18446744073709551615, "a": -1, "m": 1.0, "l": [true, null, "t"]})", context);
  REQUIRE(root);
  REQUIRE(root->children.size() == 4);
  CHECK(root->children[0].whole == 18446744073709551615ULL);
  CHECK(root->children[1].key == "a");
  CHECK_FALSE(root->children[1].whole);
  CHECK_FALSE(root->children[2].whole);
  REQUIRE(root->children[3].children.size() == 3);
  CHECK(root->children[3].children[0].truth);
  CHECK(root->children[3].children[1].kind == Kind::null);
  CHECK(root->children[3].children[2].text == "t");
}

TEST_CASE("a fault has the line and column of its value, or of its key", "[json]") {
  const std::string text =
      "{\r\n"
      "  \"a\": {\"\\\"é\\\\\": -1.5e3, \"b\": [true ,null,\t\"€ 3\"]},\r\n"
      "  \"c\":\"\",\"d\":[[],{}] , \"e\"\r\n: 7}";
  for (const char* mark : {"", "\xEF\xBB\xBF"}) {
    const std::string marked = mark + text;
    Context context;
    const auto root = json::parse(marked, context);
    REQUIRE(root);
    const auto place = [&](const Value& value, const char* found) {
      value.fault(found, "else");
      const Fault& fault = context.faults.back();
      return std::to_string(fault.line) + ":" + std::to_string(fault.column);
    };
    const auto value_place = [&](const Value& value) { return place(value, "this"); };
    const auto key_place = [&](const Value& value) {
      return place(value,
                   "the unknown key"
                   " x");
    };
    const Value top(*root, context);
    CHECK(value_place(top) == "1:1");
    const auto members = top.members();
    CHECK(key_place(members[0]) == "2:3");
    CHECK(value_place(members[0]) == "2:8");
    const auto in_a = members[0].members();
    CHECK(key_place(in_a[0]) == "2:9");
    CHECK(value_place(in_a[0]) == "2:18");
    CHECK(key_place(in_a[1]) == "2:26");
    CHECK(value_place(in_a[1]) == "2:31");
    const auto in_b = in_a[1].items();
    CHECK(value_place(in_b[0]) == "2:32");
    CHECK(value_place(in_b[1]) == "2:38");
    CHECK(value_place(in_b[2]) == "2:44");
    CHECK(value_place(members[1]) == "3:7");
    const auto in_d = members[2].items();
    CHECK(value_place(in_d[0]) == "3:15");
    CHECK(value_place(in_d[1]) == "3:18");
    CHECK(key_place(members[3]) == "3:24");
    CHECK(value_place(members[3]) == "4:3");

    members[0].missing("x", "else");
    CHECK(context.faults.back().line == 2);
    CHECK(context.faults.back().column == 8);
    members[0].fault_at("b", "this", "else");
    CHECK(context.faults.back().column == 31);
  }
}

TEST_CASE("a missing comma or colon is named", "[json]") {
  CHECK(only_fault(R"({"a": 1 "b": 2})").hint == "put a comma before it");
  CHECK(only_fault("{\"a\": \"x\"\n \"b\": 2}").hint == "put a comma before it");
  CHECK(only_fault("{\"a\": \"x\"\n \"b\": 2}").line == 2);
  CHECK(only_fault(R"({"a": true "b": 2})").hint == "put a comma before it");
  CHECK(only_fault(R"({"a": {} "b": 2})").hint == "put a comma before it");
  CHECK(only_fault(R"(["a" "b"])").hint == "put a comma before it");
  CHECK(only_fault(R"({"a" 1})").hint == "put a colon before it");
  CHECK(only_fault(R"({"a": 1, "b" 2})").hint.empty());  // "b" could be a value
}

TEST_CASE("a value that is not from the text has no place", "[json]") {
  Context context;
  auto root = json::parse(R"({"a": [1]})", context);
  REQUIRE(root);
  json::set_place(root->children[0], json::no_place);
  const Value top(*root, context);
  const auto members = top.members();
  members[0].fault("this", "else");
  CHECK(context.faults.back().line == 0);
  CHECK(context.faults.back().column == 0);
  members[0].items()[0].refuse("else");
  CHECK(context.faults.back().line == 0);
}

TEST_CASE("duplicate keys are refused, each at its place", "[json]") {
  Context context;
  json::parse(R"({"a": [{"b/c": 1, "b/c": 2}], "a": 3, "~": 0, "~": 0})", context);
  REQUIRE(context.faults.size() == 3);
  CHECK(context.faults[0].pointer == "/a");
  CHECK(context.faults[0].found == "the key \"a\" a second time");
  CHECK(context.faults[0].wanted == "each key once");
  CHECK(context.faults[0].column == 31);
  CHECK(context.faults[1].pointer == "/~0");
  CHECK(context.faults[2].pointer == "/a/0/b~1c");

  std::string many = "{\"k0\": 0";
  for (int i = 1; i < 40; ++i) many += ", \"k" + std::to_string(i) + "\": 0";
  CHECK(only_fault(many + ", \"k7\": 1}").pointer == "/k7");
}

TEST_CASE("nesting ends at 32 levels", "[json]") {
  Context context;
  const std::string deep = std::string(32, '[') + std::string(32, ']');
  CHECK(json::parse(deep, context));
  CHECK(context.faults.empty());
  const Fault fault = only_fault(std::string(33, '[') + std::string(33, ']'));
  CHECK(fault.found == "more than 32 levels of nesting");
  CHECK(fault.pointer.size() == 2 * 31);
  CHECK(fault.column == 33);
  CHECK(only_fault(std::string(1'000'000, '[')).found == "more than 32 levels of nesting");
  CHECK(only_fault(R"({"a": {"b": )" + std::string(40, '[')).pointer.substr(0, 8) == "/a/b/0/0");
}

TEST_CASE("huge text and floods of faults are bounded", "[json]") {
  CHECK(only_fault(std::string(9'000'000, ' ')).found == "a text of 9000000 bytes");
  std::string text = "{\"a\": 0";
  for (int i = 0; i < 500; ++i) text += ", \"a\": 0";
  Context context{"herb.json"};
  text += "}";
  json::parse(text, context);
  try {
    context.finish();
    FAIL("nothing thrown");
  } catch (const InputError& error) {
    CHECK(error.faults().size() == 101);
    CHECK(error.faults().back().found == "400 more faults");
  }
}

TEST_CASE("nothing from a file reaches a message as a control character", "[json]") {
  Context context{"herb.json"};
  // U+009B is a control character, and U+202E reverses the writing direction.
  const auto root = json::parse(
      R"({"\u001b[31m": "x", "t": "\u001b]0;x\u0007", "m": "\u202e3 g\u009b", "ok": "a\u00a0b é"})",
      context);
  REQUIRE(root);
  const Value top(*root, context);
  CHECK_FALSE(top.member("t")->text());
  CHECK_FALSE(top.member("m")->text());
  CHECK_FALSE(top.member("m")->quantity(up_to(1, "kg", kilograms)));
  CHECK(top.member("ok")->text() == "a\u00a0b é");
  top.refuse_other_keys({"t", "m", "ok"});
  REQUIRE(context.faults.size() == 4);
  CHECK(context.faults[0].found == R"("\u001b]0;x\u0007")");
  CHECK(context.faults[0].wanted == "text without control characters");
  CHECK(context.faults[1].found == R"("\u202e3 g\u009b")");
  CHECK(context.faults[2].found == R"(Can't read "\u202e3 g\u009b" as a mass)");
  CHECK(context.faults[3].found == R"(the unknown key "\u001b[31m")");
  CHECK(context.faults[3].pointer == R"(/\u001b[31m)");

  // Long texts and keys are cut.
  const std::string text =
      R"({")" + std::string(500, 'k') + R"(": ")" + std::string(500, 'v') + "\"}";
  Context other;
  const auto wide = json::parse(text, other);
  Value(*wide, other).refuse_other_keys({"a"});
  REQUIRE(other.faults.size() == 1);
  CHECK(other.faults[0].found == "the unknown key \"" + std::string(60, 'k') + "…\"");
  CHECK(other.faults[0].pointer == "/" + std::string(80, 'k') + "…");
}

TEST_CASE("cursors check kinds, names and ranges and collect all faults", "[json]") {
  Context context{"herb.json"};
  const auto root = json::parse(
      R"({"mass": 260, "volume": "1 kg", "heat": "400 °C", "flag": 1, "count": -1, "price": "3",
          "list": {}, "wrd": "x", "blank": " ", "kind": "measurd", "text": null, "far": [[]]})",
      context);
  REQUIRE(root);
  const Value top(*root, context);
  CHECK_FALSE(top.member("mass")->quantity(up_to(1, "kg", kilograms)));
  CHECK_FALSE(top.member("volume")->quantity(up_to(1, "L", litres)));
  CHECK_FALSE(top.member("heat")->quantity(from_to(-10, 50, "°C", celsius)));
  CHECK_FALSE(top.member("flag")->truth());
  CHECK_FALSE(top.member("count")->whole_number());
  CHECK_FALSE(top.member("price")->number(0, 1e6));
  CHECK(top.member("list")->items().empty());
  CHECK_FALSE(top.needed("word", "a word"));
  CHECK_FALSE(top.needed("blank", "a word")->words());
  CHECK_FALSE(top.member("kind")->choice<Known>());
  CHECK_FALSE(top.member("text")->text());
  CHECK(top.member("far")->members().empty());
  top.refuse_other_keys({"mass", "volume", "heat", "flag", "count", "price", "list", "word",
                         "blank", "kind", "text", "far"});

  struct Expected {
    const char* pointer;
    const char* found;
    const char* wanted;
    const char* hint;
  };
  const Expected expected[] = {
      {"/mass", "the number 260 without a unit", "a mass with its unit: g, kg, mg, oz or lb",
       "put it in quotes, such as \"260 g\""},
      {"/volume", "Can't read \"1 kg\" as a volume",
       "a volume with its unit: mL, L, cup, fl oz, qt, gal, cm3 or m3", "\"kg\" is a unit of mass"},
      {"/heat", "\"400 °C\"", "a value from -10 to 50 °C", ""},
      {"/flag", "the number 1", "true or false", ""},
      {"/count", "the number -1", "a whole number, zero or more", ""},
      {"/price", "\"3\"", "a plain number from 0 to 1000000", "write it without quotes: 3"},
      {"/list", "an object", "a list, [ … ]", ""},
      {"/word", "nothing", "a word", ""},
      {"/blank", "\" \"", "text that is not empty", ""},
      {"/kind", "\"measurd\"",
       "measured, read, computed, common-practice, from-memory, default or own-invention",
       "did you mean \"measured\"?"},
      {"/text", "null", "text in double quotes", ""},
      {"/far", "a list", "an object, { … }", ""},
      {"/wrd", "the unknown key \"wrd\"",
       "one of mass, volume, heat, flag, count, price, list, word, blank, kind, text or far",
       "did you mean \"word\"?"},
  };
  REQUIRE(context.faults.size() == std::size(expected));
  for (std::size_t i = 0; i < std::size(expected); ++i) {
    CHECK(context.faults[i].pointer == expected[i].pointer);
    CHECK(context.faults[i].found == expected[i].found);
    CHECK(context.faults[i].wanted == expected[i].wanted);
    CHECK(context.faults[i].hint == expected[i].hint);
  }
}

TEST_CASE("a text has an end, by its bytes", "[json]") {
  for (const std::size_t length : {10'000U, 10'001U}) {
    Context context{"herb.json"};
    const std::string quoted = '"' + std::string(length, 'x') + '"';
    const auto root = json::parse(quoted, context);
    REQUIRE(root);
    const auto text = Value(*root, context).text();
    CHECK(text.has_value() == (length == 10'000));
    CHECK(context.faults.size() == (length == 10'000 ? 0U : 1U));
  }
}

TEST_CASE("a number too large for a whole one is told how large it may be", "[json]") {
  Context context{"herb.json"};
  const auto root = json::parse("[18446744073709551615, 18446744073709551616]", context);
  REQUIRE(root);
  const Value list(*root, context);
  const auto items = list.items();
  CHECK(items.at(0).whole_number() == 18446744073709551615U);
  CHECK_FALSE(items.at(1).whole_number());
  REQUIRE(context.faults.size() == 1);
  CHECK(context.faults[0].hint == "the largest is 18446744073709551615");
}

TEST_CASE("unknown keys beyond the faults that are kept are counted", "[json]") {
  std::string text = "{\"k\": 0";
  for (int i = 0; i < 500; ++i) text += ", \"k" + std::to_string(i) + "\": 0";
  Context context{"herb.json"};
  text += "}";
  const auto root = json::parse(text, context);
  REQUIRE(root);
  const Value top(*root, context);
  top.refuse_other_keys({"none"});
  CHECK(context.full());
  CHECK(context.faults.size() == 100);
  CHECK(context.left_out == 401);
}

TEST_CASE("spans say and keep their ends", "[json]") {
  const auto closed = from_to(-10, 50, "°C", celsius);
  CHECK(closed.holds(celsius(-10)));
  CHECK(closed.holds(celsius(50)));
  CHECK_FALSE(closed.holds(celsius(50.001)));
  CHECK_FALSE(closed.holds(celsius(-10.001)));
  const auto positive = up_to(100, "%", percent);
  CHECK_FALSE(positive.holds(percent(0)));
  CHECK(positive.holds(percent(100)));
  CHECK(positive.text() == "above 0 and at most 100 %");
  const auto open = between(0, 100, "%", percent);
  CHECK_FALSE(open.holds(percent(0)));
  CHECK_FALSE(open.holds(percent(100)));
  CHECK(open.text() == "above 0 and below 100 %");
}

TEST_CASE("a figure comes with its evidence", "[json]") {
  const std::map<std::string, Source> sources = {{"a-paper", {}}, {"a-book", {}}};
  const auto share = from_to(0, 100, "%", percent);
  const auto read = [&](const std::string& text, bool shipped) {
    Context context{"herb.json", &sources, shipped};
    const auto root = json::parse(text, context);
    const auto figure = Value(*root, context).figure(share);
    return std::pair(figure, context.faults);
  };

  const auto [good, none] = read(
      R"({"low": 5, "typical": 10, "high": 20, "unit": "%", "basis": "of the oil", "source": ["a-paper", "a-book"],
          "known": "read"})",
      true);
  CHECK(none.empty());
  CHECK_THAT(good.range.low.si(), WithinRel(0.05, 1e-15));
  CHECK_THAT(good.range.typical.si(), WithinRel(0.10, 1e-15));
  CHECK_THAT(good.range.high.si(), WithinRel(0.20, 1e-15));
  CHECK(good.evidence.basis == "of the oil");
  CHECK(good.evidence.sources == std::vector<std::string>{"a-paper", "a-book"});
  CHECK(good.evidence.known == Known::read);

  SECTION("a plain text stands for one in a file of one's own") {
    const auto [stated, faults] = read(R"("12 %")", false);
    CHECK(faults.empty());
    CHECK(stated.range.low == percent(12));
    CHECK(stated.range.high == percent(12));
    CHECK(stated.evidence.basis == "stated in the file");
    CHECK(stated.evidence.sources.empty());
    CHECK(stated.evidence.known == Known::measured);
    CHECK(read(R"("12 %")", true).second.size() == 1);
  }
  SECTION("every part of it is checked") {
    const auto faults =
        read(
            R"({"low": "5 %", "typical": 10, "high": 200, "unit": "%", "basis": "", "source": "a-papr",
            "known": "rad", "sorce": 1})",
            true)
            .second;
    REQUIRE(faults.size() == 6);
    CHECK(faults[0].pointer == "/low");
    CHECK(faults[0].wanted == "a plain number, with its unit in \"unit\"");
    CHECK(faults[1].pointer == "/high");
    CHECK(faults[1].found == "200 %");
    CHECK(faults[1].wanted == "a value from 0 to 100 %");
    CHECK(faults[2].pointer == "/basis");
    CHECK(faults[3].pointer == "/source");
    CHECK(faults[3].hint == "did you mean \"a-paper\"? Run `firstdrop sources` to list all");
    CHECK(faults[4].pointer == "/known");
    CHECK(faults[4].hint == "did you mean \"read\"?");
    CHECK(faults[5].pointer == "/sorce");
  }
  SECTION("its range must be in order") {
    const auto faults =
        read(
            R"({"low": 5, "typical": 30, "high": 20, "unit": "%", "basis": "b", "known": "from-memory"})",
            true)
            .second;
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].pointer.empty());
    CHECK(faults[0].found == "low 5, typical 30, high 20 %");
    CHECK(faults[0].wanted == "low, typical and high in rising order");
  }
  SECTION("what was read or computed names its source") {
    const auto faults =
        read(
            R"({"low": 5, "typical": 5, "high": 5, "unit": "%", "basis": "b", "known": "read", "source": []})",
            true)
            .second;
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].pointer == "/source");
    CHECK(faults[0].wanted == "the source of a figure that was read");
  }
  SECTION("a shipped table holds nothing measured on a person's bench") {
    const std::string text =
        R"({"low": 5, "typical": 5, "high": 5, "unit": "%", "basis": "b", "known": "measured"})";
    CHECK(read(text, false).second.empty());
    const auto faults = read(text, true).second;
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].pointer == "/known");
  }
  SECTION("a bare number is not enough, and neither is a wrong unit") {
    CHECK(read("12", false).second.front().wanted == "12 %");
    const auto faults =
        read(
            R"({"low": 5, "typical": 5, "high": 5, "unit": "kg", "basis": "b", "known": "from-memory"})",
            true)
            .second;
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].pointer == "/unit");
    CHECK(faults[0].hint == "\"kg\" is a unit of mass");
  }
}
