#include "json/record_splitter.hpp"

#include <algorithm>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "catch.hpp"
#include "test_random.hpp"

using namespace firstdrop;
using test_random::Random;
using Json = nlohmann::json;

namespace {

struct Seen {
  std::string text;
  std::string found;
  std::int64_t line;
  std::int64_t column;
  bool operator==(const Seen&) const = default;
};

std::ostream& operator<<(std::ostream& out, const Seen& seen) {
  return out << seen.line << ':' << seen.column << ' ' << seen.text << seen.found;
}

// The text in pieces that end at these places.
std::vector<Seen> records(const std::string& text, const std::vector<std::size_t>& cuts = {}) {
  std::vector<Seen> seen;
  const auto take = [&](const Record& record) {
    seen.push_back(
        {std::string(record.text), std::string(record.found), record.line, record.column});
  };
  RecordSplitter splitter;
  std::size_t begin = 0;
  for (const std::size_t cut : cuts) {
    // A copy of its own, so that a look beyond it is seen by the address sanitizer.
    const std::vector<char> piece(text.begin() + static_cast<std::ptrdiff_t>(begin),
                                  text.begin() + static_cast<std::ptrdiff_t>(cut));
    splitter.add({piece.data(), piece.size()}, take);
    begin = cut;
  }
  const std::string rest = text.substr(begin);
  splitter.add(rest, take);
  splitter.finish(take);
  return seen;
}

std::vector<std::string> texts(const std::string& text) {
  std::vector<std::string> all;
  for (const Seen& seen : records(text)) all.push_back(seen.text + seen.found);
  return all;
}

using Texts = std::vector<std::string>;

// Every way to cut it in two, in three evenly, and byte by byte.
void check_any_cut(const std::string& text) {
  const std::vector<Seen> whole = records(text);
  for (std::size_t cut = 0; cut <= text.size(); ++cut) {
    INFO(text);
    INFO("cut at " << cut);
    REQUIRE(records(text, {cut}) == whole);
    REQUIRE(records(text, {cut, cut + (text.size() - cut) / 2}) == whole);
  }
  std::vector<std::size_t> bytes(text.size());
  for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = i;
  REQUIRE(records(text, bytes) == whole);
}

// A value of JSON with blanks and line ends wherever JSON lets them be.
class LooseJson {
 public:
  explicit LooseJson(std::uint64_t seed) : random_(seed) {}

  std::string blanks() {
    static const std::vector<std::string> some = {"", "", "", " ", "\n", "\t", "\r\n", "\n\n  "};
    return some[random_.below(some.size())];
  }
  std::string text() {
    static const std::vector<std::string> parts = {"a",    "}", "{",    "[",  "]",   ",",      ":",
                                                   "\\\"", "é", "\\\\", " {", "\\n", "\\u007b"};
    std::string out = "\"";
    for (std::size_t i = random_.below(5); i > 0; --i) out += parts[random_.below(parts.size())];
    return out + '"';
  }
  std::string value(int depth) {
    if (depth == 0 || random_.chance(0.5)) {
      static const std::vector<std::string> plain = {"1", "-2.5e3", "true", "null"};
      return random_.chance(0.6) ? text() : plain[random_.below(plain.size())];
    }
    return random_.chance(0.3) ? list(depth) : object(depth);
  }
  std::string object(int depth) {
    std::string out = "{";
    for (std::size_t i = 0, count = random_.below(4); i < count; ++i) {
      out += (i > 0 ? "," : "") + blanks() + text() + blanks() + ":" + blanks() + value(depth - 1) +
             blanks();
    }
    return out + blanks() + "}";
  }
  std::string list(int depth) {
    std::string out = "[";
    for (std::size_t i = 0, count = random_.below(4); i < count; ++i)
      out += (i > 0 ? "," : "") + blanks() + value(depth - 1) + blanks();
    return out + blanks() + "]";
  }
  Random& random() { return random_; }

 private:
  Random random_;
};

}  // namespace

TEST_CASE("records of every form", "[record_splitter]") {
  CHECK(texts("").empty());
  CHECK(texts(" \r\n\t\n").empty());
  CHECK(texts("{}") == Texts{"{}"});
  CHECK(texts("{\"a\": 1}\n{\"b\": 2}\n") == Texts{"{\"a\": 1}", "{\"b\": 2}"});
  CHECK(texts("{\"a\": 1}\r\n\r\n{\"b\": 2}") == Texts{"{\"a\": 1}", "{\"b\": 2}"});
  CHECK(texts("\xEF\xBB\xBF{\"a\": 1}\n") == Texts{"{\"a\": 1}"});
  CHECK(texts("{}{} {}") == Texts{"{}", "{}", "{}"});
  CHECK(texts("{\n  \"a\": {\n    \"b\": 1\n  }\n}\n{\n}") ==
        Texts{"{\n  \"a\": {\n    \"b\": 1\n  }\n}", "{\n}"});
  CHECK(texts("[{\"a\": 1}, {\"b\": [2]}]") == Texts{"{\"a\": 1}", "{\"b\": [2]}"});
  CHECK(texts("[]\n[ {} ] {}\n[{},{}]") == Texts{"{}", "{}", "{}", "{}"});
  CHECK(texts("{\"a\": \"}\\\"{\"} {\"b\": \"\\\\\"}") ==
        Texts{"{\"a\": \"}\\\"{\"}", "{\"b\": \"\\\\\"}"});
  // What is no object is for the strict reader to refuse.
  CHECK(texts("1\n\"a, b\"\n") == Texts{"1", "\"a, b\""});
  CHECK(texts("[1, \"a, ]\", [2], {}]") == Texts{"1", "\"a, ]\"", "[2]", "{}"});
}

TEST_CASE("where a record begins, in lines and characters", "[record_splitter]") {
  CHECK(records("{}\n\n  {}{}\n[{\"ä\": 1}, {}]") == std::vector<Seen>{{"{}", "", 1, 1},
                                                                       {"{}", "", 3, 3},
                                                                       {"{}", "", 3, 5},
                                                                       {"{\"ä\": 1}", "", 4, 2},
                                                                       {"{}", "", 4, 12}});
}

TEST_CASE("after a broken record the next is found", "[record_splitter]") {
  // In JSON Lines each line is one record, whatever is wrong with it.
  CHECK(texts("{\"a\": \"open\n{\"b\": 2}\n") == Texts{"{\"a\": \"open", "{\"b\": 2}"});
  CHECK(texts("{\"a\": {\"x\": 1}\n{\"b\": 2}\n") == Texts{"{\"a\": {\"x\": 1}", "{\"b\": 2}"});
  CHECK(texts("{\"a\": [1}\n{\"b\": 2}\n") == Texts{"{\"a\": [1}", "{\"b\": 2}"});
  CHECK(texts("{\"a\": \"\\\n{\"b\": 2}\n") == Texts{"{\"a\": \"\\", "{\"b\": 2}"});
  CHECK(texts("{\"a\": 1}}, \"c\": 3}\n{\"b\": 2}\n") ==
        Texts{"{\"a\": 1}}, \"c\": 3}", "{\"b\": 2}"});
  CHECK(texts("{\"a\": 1},\n{\"b\": 2}\n") == Texts{"{\"a\": 1},", "{\"b\": 2}"});
  CHECK(texts("nonsense {\n{\"b\": 2}\n") == Texts{"nonsense {", "{\"b\": 2}"});
  CHECK(texts("{\"a\": 1\n") == Texts{"{\"a\": 1"});
  // Of documents over several lines, the next that opens no further in.
  CHECK(texts("{\n  \"a\": {\n    \"x\": 1\n{\n  \"b\": 2\n}\n") ==
        Texts{"{\n  \"a\": {\n    \"x\": 1", "{\n  \"b\": 2\n}"});
  CHECK(texts("[\n  {\"a\": {\"x\": 1},\n  {\"b\": 2},\n  {\"c\": 3}\n]\n{}") ==
        Texts{"{\"a\": {\"x\": 1},", "{\"b\": 2}", "{\"c\": 3}", "{}"});
  CHECK(texts("[\n  {\"b\": 2},\n  {\"a\": {\"x\": 1}\n]\n{}") ==
        Texts{"{\"b\": 2}", "{\"a\": {\"x\": 1}", "{}"});
  CHECK(texts("[{\"a\": 1} x, {\"b\": 2}]") == Texts{"{\"a\": 1} x", "{\"b\": 2}"});
}

TEST_CASE("what is wrong between records", "[record_splitter]") {
  CHECK(texts("[{}") == Texts{"{}", "the end of the text in a list of recipes"});
  CHECK(texts("[{},]") == Texts{"{}", "] after a comma"});
  CHECK(texts("[{} {}]") == Texts{"{}", "a recipe right after another in a list", "{}"});
  CHECK(texts("[,{}]") == Texts{"a comma", "{}"});
  CHECK(texts("[{},,{}]") == Texts{"{}", "a comma", "{}"});
  CHECK(texts("[{},\n[{}]") ==
        Texts{"{}", "a list of recipes that begins inside of another", "{}"});
  CHECK(texts("{}]\n{}") == Texts{"{}]", "{}"});
}

TEST_CASE("a record that is too long is none, and the next is found", "[record_splitter]") {
  const std::string much(longest_record, 'x');
  const std::string text = "{}\n{\"a\": \"" + much + "\"}\n{\"b\": 2}\n";
  const std::vector<Seen> wanted = {
      {"{}", "", 1, 1}, {"", "more than 4 MiB in one recipe", 2, 1}, {"{\"b\": 2}", "", 3, 1}};
  CHECK(records(text) == wanted);
  CHECK(records(text, {100, 200'000, 4'000'000, 4'194'304}) == wanted);
  // As long as may be.
  const std::string just = "{\"a\": \"" + much.substr(0, longest_record - 9) + "\"}";
  REQUIRE(just.size() == longest_record);
  CHECK(texts(just + "\n") == Texts{just});
  CHECK(records(just + "\n", {1'000'000}).front().text == just);
}

TEST_CASE("records do not depend on how the text was cut", "[record_splitter]") {
  for (const char* text :
       {"{\"a\": 1}\n{\"b\": \"\\\\\\\"{\"}\r\n\n[{\"ä\": [1, {\n}]},\n {}]\n{\n  \"x\": {\n  }\n}",
        "\xEF\xBB\xBF{\"a\": \"open\n  {\"b\": 2}\n]\n[{\"a\": 1} x, {} {}, \"q,\\\"]\", [1]",
        "\xEF\xBB{}\n1 2\n{\"a\":\n{\"b\": [\n{}\n,\n[]]}}\n{\"a\" 1\n \t{\n{}", "{\"a\\"})
    check_any_cut(text);

  // Bytes that matter, in any order.
  Random random(11);
  const std::string bytes = "{}[]{}{}\"\"\\,:\n\n\r aé";
  for (int i = 0; i < 400; ++i) {
    std::string text;
    for (std::size_t j = random.below(40); j > 0; --j) text += bytes[random.below(bytes.size())];
    check_any_cut(text);
  }
}

TEST_CASE("no valid document is cut", "[record_splitter]") {
  LooseJson loose(5);
  std::size_t documents = 0;
  for (int i = 0; i < 3000; ++i) {
    // One after the other, and in lists.
    std::string text;
    std::vector<Json> wanted;
    for (std::size_t j = loose.random().below(4) + 1; j > 0; --j) {
      const bool listed = loose.random().chance(0.4);
      const std::size_t count = listed ? loose.random().below(3) : 1;
      text += loose.blanks() + (listed ? "[" + loose.blanks() : "");
      for (std::size_t k = 0; k < count; ++k) {
        const std::string object = loose.object(3);
        wanted.push_back(Json::parse(object));
        text += (k > 0 ? "," : "") + loose.blanks() + object + loose.blanks();
      }
      text += listed ? "]" : "";
    }
    // A list that begins a line inside of a list would be taken for a new one, but there is none.
    INFO(text);
    const std::vector<Seen> seen = records(text);
    REQUIRE(seen.size() == wanted.size());
    for (std::size_t j = 0; j < seen.size(); ++j) {
      REQUIRE(seen[j].found.empty());
      REQUIRE(Json::parse(seen[j].text) == wanted[j]);
    }
    documents += seen.size();
  }
  CHECK(documents > 5000);
}
