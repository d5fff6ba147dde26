// Counts real sources and those of them that were read in full.
#include "firstdrop/quantity/source.hpp"

#include <string>

#include "catch.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "test_tables.hpp"

using namespace firstdrop;

TEST_CASE("memory, practice and invention are no sources that count", "[source]") {
  const std::map<std::string, Source> table = {
      {"a", {"a", "A book", "", "whole"}},
      {"b", {"b", "A paper", "", "abstract"}},
      {"c", {"c", "A page", "", "excerpt"}},
      {"d", {"d", "A figure", "", "quoted by another"}},
      {"e", {"e", "An equation", "", "package: constants read in it"}},
      {"f", {"f", "The trade", "", "none"}},
      {"g", {"g", "A textbook", "", "none: from memory"}},
  };
  const SourceCount all = counted({"a", "b", "c", "d", "e", "f", "g", "not-there"}, table);
  CHECK(all.real == 5);
  CHECK(all.in_full == 1);
  CHECK(in_words(all) == "5 sources (1 read in full, the others in part)");
  CHECK(in_words(counted({"b"}, table)) == "1 source (none read in full)");
  CHECK(counted({"f", "g"}, table).real == 0);
}

TEST_CASE("of the shipped sources those of our own do not count", "[source]") {
  const auto& table = shipped_tables().sources;
  for (const char* key : {"own-invention", "from-memory", "common-practice", "heat-balance",
                          "raoult-dalton", "two-zone-condenser"}) {
    INFO(key);
    REQUIRE(table.contains(key));
    CHECK(counted({key}, table).real == 0);
  }
  for (const char* key : {"radwan-2020", "iapws-r7-97", "iso-2533", "hmrc-spir4040"}) {
    INFO(key);
    REQUIRE(table.contains(key));
    CHECK(counted({key}, table).real == 1);
  }
}

TEST_CASE("a plan counts the same with the whole library and with the part it needs",
          "[source][planner]") {
  const std::string text = R"({"recipe": 1, "plant": "lavender", "still": "bench-column"})";
  const Tables part = read_tables(embedded_table_texts(), named_in_recipe(text));
  const Plan small = make_plan(read_recipe(text, "", part, nullptr), part, {16, 1});
  const Tables& all = shipped_tables();
  const Plan full = make_plan(read_recipe(text, "", all, nullptr), all, {16, 1});
  CHECK(small.sources == full.sources);
  CHECK(small.source_count.real == full.source_count.real);
  CHECK(small.source_count.in_full == full.source_count.in_full);
  CHECK(full.source_count.real > 30);
  CHECK(full.source_count.real < static_cast<int>(full.sources.size()));
}
