#include "json/json_edit.hpp"

#include <string>

#include "catch.hpp"
#include "json/json_reader.hpp"

using namespace firstdrop;

TEST_CASE("a value ends where it ends", "[json]") {
  const std::string text = R"({"a": "x\"}", "b": [1, {"c": "]"}], "d": -1.5e3, "e": true})";
  CHECK(json::value_at(text, 0) == text);
  CHECK(json::value_at(text, text.find("\"x")) == R"("x\"}")");
  CHECK(json::value_at(text, text.find('[')) == R"([1, {"c": "]"}])");
  CHECK(json::value_at(text, text.find('-')) == "-1.5e3");
  CHECK(json::value_at(text, text.find("true")) == "true");
}

namespace {

struct Edit {
  std::string text;
  std::vector<std::string> path;
  std::string value;
  std::string edited;
};

}  // namespace

TEST_CASE("a value is put in, and all else stays as it was", "[json]") {
  for (const Edit& edit : {
           Edit{R"({"a":1,"b" : "two"})", {"a"}, "[3]", R"({"a":[3],"b" : "two"})"},
           Edit{R"({"a": {"b": 1.50}})", {"a", "b"}, "2", R"({"a": {"b": 2}})"},
           Edit{R"({"a": {"b": 1.50}})", {"a", "c"}, "2", R"({"a": {"b": 1.50, "c": 2}})"},
           Edit{R"({"a": {}})", {"a", "c"}, "2", R"({"a": {"c": 2}})"},
           Edit{"{\n  \"a\": 1,\n  \"b\": {\n    \"c\": 3\n  }\n}\n",
                {"d"},
                "4",
                "{\n  \"a\": 1,\n  \"b\": {\n    \"c\": 3\n  },\n  \"d\": 4\n}\n"},
           Edit{"{\n  \"b\": {\n    \"c\": 3\n  }\n}\n",
                {"b", "d"},
                "4",
                "{\n  \"b\": {\n    \"c\": 3,\n    \"d\": 4\n  }\n}\n"},
       }) {
    CAPTURE(edit.text);
    const std::string edited = json::with_value(edit.text, edit.path, edit.value);
    CHECK(edited == edit.edited);
    CHECK(json::is_json(edited));
  }
  CHECK_THROWS_AS(json::with_value("{}", {"a", "b"}, "1"), std::logic_error);
}
