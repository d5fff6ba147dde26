#include "json/records.hpp"

#include <cstdint>
#include <string>
#include <vector>

#include "catch.hpp"

using namespace firstdrop;

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

// The records of a text that arrives in pieces of `piece` bytes.
std::vector<Seen> records(const std::string& text, std::size_t piece = 1U << 30U,
                          const char* file = "recipes") {
  std::vector<Seen> seen;
  const auto take = [&](const Record& record) {
    seen.push_back({std::string(record.text), std::string(record.found), record.begin.line,
                    record.begin.column});
  };
  RecordReader reader(file);
  for (std::size_t at = 0; at < text.size(); at += piece) {
    // A copy, so that the address sanitizer sees a read past its end.
    const std::string part = text.substr(at, piece);
    const std::vector<char> bytes(part.begin(), part.end());
    reader.add({bytes.data(), bytes.size()}, take);
  }
  reader.finish(take);
  return seen;
}

using Texts = std::vector<std::string>;

Texts texts(const std::string& text, const char* file = "recipes") {
  Texts all;
  for (const Seen& seen : records(text, 1U << 30U, file)) all.push_back(seen.text + seen.found);
  for (const std::size_t piece : {1U, 2U, 3U, 7U}) {
    Texts same;
    for (const Seen& seen : records(text, piece, file)) same.push_back(seen.text + seen.found);
    CHECK(same == all);
  }
  return all;
}

}  // namespace

TEST_CASE("JSON Lines, one list or one document", "[records]") {
  CHECK(texts("").empty());
  CHECK(texts(" \r\n\t\n").empty());
  CHECK(texts("{}") == Texts{"{}"});
  CHECK(texts("{\"a\": 1}\n{\"b\": 2}\n") == Texts{"{\"a\": 1}", "{\"b\": 2}"});
  CHECK(texts("{\"a\": 1}\r\n\r\n{\"b\": 2}") == Texts{"{\"a\": 1}", "{\"b\": 2}"});
  CHECK(texts("\xEF\xBB\xBF{\"a\": 1}\n") == Texts{"{\"a\": 1}"});
  CHECK(texts("{\n  \"a\": {\n    \"b\": 1\n  }\n}\n") ==
        Texts{"{\n  \"a\": {\n    \"b\": 1\n  }\n}"});
  CHECK(texts("[{\"a\": 1}, {\"b\": [2]}]") == Texts{"{\"a\": 1}", "{\"b\": [2]}"});
  CHECK(texts("\n[\n {}\n,\n {\"a\": \",]\\\"}\"} ]\n") == Texts{"{}", "{\"a\": \",]\\\"}\"}"});
  CHECK(texts("[]").empty());
  CHECK(texts("[1, \"a, ]\", [2], {}]") == Texts{"1", "\"a, ]\"", "[2]", "{}"});
}

TEST_CASE("a broken line stops no other, a broken list is one record", "[records]") {
  CHECK(texts("{\"a\" 1}\n{\"b\": 2}\n") == Texts{"{\"a\" 1}", "{\"b\": 2}"});
  CHECK(texts("{}\n{\"a\": \"open\nnonsense\n{\"b\": 2}\n") ==
        Texts{"{}", "{\"a\": \"open", "nonsense", "{\"b\": 2}"});
  // A name that ends in .jsonl makes it JSON Lines, whatever its first line is.
  CHECK(texts("{\"a\": \"open\n{\"b\": 2}", "x.jsonl") == Texts{"{\"a\": \"open", "{\"b\": 2}"});
  CHECK(texts("{\"a\": \"open\n{\"b\": 2}") == Texts{"{\"a\": \"open\n{\"b\": 2}"});
  CHECK(texts("[{},\n{} {}]") == Texts{"[{},\n{} {}]"});
}

TEST_CASE("where a record begins, in lines and characters", "[records]") {
  CHECK(records("{}\n\n  {}\n") == std::vector<Seen>{{"{}", "", 1, 1}, {"{}", "", 3, 3}});
  CHECK(records("\xEF\xBB\xBF\n [{\"ä\": 1}, {},\n  {}]") ==
        std::vector<Seen>{{"{\"ä\": 1}", "", 2, 3}, {"{}", "", 2, 13}, {"{}", "", 3, 3}});
  CHECK(records("\n\n  {\n}") == std::vector<Seen>{{"{\n}", "", 3, 3}});
}

TEST_CASE("what is too long is said, and the next line is read", "[records]") {
  const std::string much(longest_line, 'x');
  const std::string text = "{}\n{\"a\": \"" + much + "\"}\n{\"b\": 2}\n";
  const std::vector<Seen> wanted = {
      {"{}", "", 1, 1}, {"", "more than 4 MiB in one line", 2, 1}, {"{\"b\": 2}", "", 3, 1}};
  CHECK(records(text) == wanted);
  CHECK(records(text, 100'000) == wanted);
  CHECK(records(text, 4'194'304) == wanted);
  const std::string just = "{\"a\": \"" + much.substr(0, longest_line - 9) + "\"}";
  REQUIRE(just.size() == longest_line);
  CHECK(texts("{}\n" + just + "\n") == Texts{"{}", just});
  const std::string list = "[" + std::string(longest_document, ' ') + "]";
  CHECK(texts(list) == Texts{"a list or document of more than 64 MiB"});
}
