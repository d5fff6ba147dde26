#include "readers/recipe_grid.hpp"

#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"

using namespace firstdrop;

namespace {

std::vector<std::string> values(const std::string& text) {
  const Axis axis(text, "--vary");
  std::vector<std::string> all;
  for (std::uint64_t i = 0; i < axis.size(); ++i) all.push_back(axis[i].json);
  return all;
}

using Values = std::vector<std::string>;

std::string fault_of(const std::vector<std::string>& set, const std::vector<std::string>& vary) {
  try {
    RecipeGrid(set, vary);
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}

}  // namespace

TEST_CASE("a value in place of the recipe's own", "[recipe_grid]") {
  struct Row {
    const char* text;
    const char* key;
    const char* json;
  };
  for (const Row& row : {Row{"charge=200 g", "charge", "\"200 g\""},
                         {" site.altitude = 900 m ", "site.altitude", "\"900 m\""},
                         {"seed=7", "seed", "7"},
                         {"prices.energy_per_kwh=0.25", "prices.energy_per_kwh", "0.25"},
                         {"x=true", "x", "true"},
                         {"x=null", "x", "null"},
                         {"charge=", "charge", ""},
                         {"title=a = b", "title", "\"a = b\""},
                         {"lot=\"12\"", "lot", "\"12\""},
                         {"title=say \"hm\" \\", "title", "\"say \\\"hm\\\" \\\\\""},
                         {"goal={\"oil\": \"2 mL\"}", "goal", "{\"oil\": \"2 mL\"}"},
                         {"still=herb-pot", "still", "\"herb-pot\""},
                         {"charge=1e", "charge", "\"1e\""},
                         {"title=<b>", "title", "\"\\u003cb\\u003e\""}}) {
    const Override value = parse_override(row.text, "--set");
    CHECK(value.key() == row.key);
    CHECK(value.json == row.json);
    CHECK(value.said_by == "--set");
  }
}

TEST_CASE("a value over several lines stands in one", "[recipe_grid]") {
  const Override value = parse_override("goal={\"oil\":\r\n\t\"2 g\"}", "--set");
  CHECK(values_json({value}) == "{\"goal\":{\"oil\":   \"2 g\"}}");
}

TEST_CASE("several values", "[recipe_grid]") {
  CHECK(values("charge=100 g,200 g, 300 g") == Values{"\"100 g\"", "\"200 g\"", "\"300 g\""});
  CHECK(values("still=herb-pot") == Values{"\"herb-pot\""});
  CHECK(values("seed=1,2") == Values{"1", "2"});
  CHECK(values("charge=,100 g") == Values{"", "\"100 g\""});
  CHECK(values("goal={\"oil\": \"2 mL\", \"confidence\": \"80 %\"},{\"time\": \"1 h\"}") ==
        Values{"{\"oil\": \"2 mL\", \"confidence\": \"80 %\"}", "{\"time\": \"1 h\"}"});
  CHECK(values("title=\"a, b\",c") == Values{"\"a, b\"", "\"c\""});
  CHECK(values("plant=../mine.json,rose") == Values{"\"../mine.json\"", "\"rose\""});
}

TEST_CASE("even steps", "[recipe_grid]") {
  CHECK(values("charge=100 g..200 g by 50 g") == Values{"\"100 g\"", "\"150 g\"", "\"200 g\""});
  CHECK(values("charge=100g..150g by 50g") == Values{"\"100g\"", "\"150g\""});
  // Downwards, with a last step beyond the end.
  CHECK(values("site.room=22 °C .. 17 °C by 2 °C") ==
        Values{"\"22 °C\"", "\"20 °C\"", "\"18 °C\""});
  // In binary the third would be 0.30000000000000004.
  CHECK(values("x=0.1..0.5 by 0.1") == Values{"0.1", "0.2", "0.3", "0.4", "0.5"});
  CHECK(values("charge=1 kg..1.5 kg by 0.25 kg") ==
        Values{"\"1 kg\"", "\"1.25 kg\"", "\"1.5 kg\""});
  CHECK(values("site.altitude=-100 m..100 m by 100 m") ==
        Values{"\"-100 m\"", "\"0 m\"", "\"100 m\""});
  CHECK(values("x=-0.05..0.05 by 0.05") == Values{"-0.05", "0", "0.05"});
  CHECK(values("setting=60 %..60 % by 5 %") == Values{"\"60 %\""});
  CHECK(Axis("x=0..999999999 by 1", "--vary").size() == 1'000'000'000);
}

TEST_CASE("all combinations, the last key fastest", "[recipe_grid]") {
  CHECK(RecipeGrid().size() == 1);
  CHECK(RecipeGrid().point(0).empty());
  const RecipeGrid grid({"still=herb-pot"}, {"seed=1..3 by 1", "charge=1 kg,2 kg"});
  REQUIRE(grid.size() == 6);
  std::vector<std::string> seen;
  for (std::uint64_t i = 0; i < grid.size(); ++i) {
    std::string words;
    for (const Override& value : grid.point(i)) words += value.key() + "=" + value.json + " ";
    seen.push_back(words);
    CHECK(grid.varied(i).size() == 2);
  }
  CHECK(seen == Values{"still=\"herb-pot\" seed=1 charge=\"1 kg\" ",
                       "still=\"herb-pot\" seed=1 charge=\"2 kg\" ",
                       "still=\"herb-pot\" seed=2 charge=\"1 kg\" ",
                       "still=\"herb-pot\" seed=2 charge=\"2 kg\" ",
                       "still=\"herb-pot\" seed=3 charge=\"1 kg\" ",
                       "still=\"herb-pot\" seed=3 charge=\"2 kg\" "});
}

TEST_CASE("what is no value, range or grid", "[recipe_grid]") {
  struct Row {
    const char* text;
    const char* says;
  };
  for (const Row& row : {Row{"charge", "Found \"charge\" for --vary. Write a key and its value"},
                         {"=5", "Found \"=5\" for --vary"},
                         {"site.=5", "Found \"site.=5\" for --vary"},
                         {"site..room=5", "for --vary. Write a key and its value"},
                         {"goal={\"oil\": }", "in \"{\\\"oil\\\": }\" for --vary"},
                         {"goal={\"oil\": 1, \"oil\": 2}", "the key \"oil\" a second time"},
                         {"x=\xFF", "for --vary. Write text in UTF-8"},
                         {"site.\xA1=5", "for --vary. Write text in UTF-8"},
                         {"pla\u202Ent.x=1,2", "Write text without control characters"},
                         {"plant={\"\u202E\": 1},2", "Write text without control characters"},
                         {"charge=1 g..5 g", "Give the step after \"by\""},
                         {"charge=1 g..5 kg by 1 g", "each with the same unit"},
                         {"charge=1..5 g by 1 g", "each with the same unit"},
                         {"charge=1 g..5 g by 0 g", "Write a step above zero"},
                         {"charge=1 g..5 g by -1 g", "Write a step above zero"},
                         {"charge=1 g..much by 1 g", "Write \"charge=100 g..500 g by 50 g\""},
                         {"x=1..1000000000000 by 0.0000001", "numbers with fewer digits"},
                         {"x=0..1000000000 by 1", "at most 1000000000 combinations"}}) {
    INFO(row.text);
    CHECK_THAT(fault_of({}, {row.text}), ContainsSubstring(row.says));
  }
  CHECK_THAT(fault_of({"charge=1 g"}, {"charge=2 g"}), ContainsSubstring("Write each key once"));
  CHECK_THAT(fault_of({"charge=1 g", "charge=2 g"}, {}), ContainsSubstring("for --set"));
  CHECK_THAT(fault_of({}, {"seed=1..40000 by 1", "charge=1 g..30000 g by 1 g"}),
             ContainsSubstring("at most 1000000000 combinations in all"));
  CHECK(fault_of({"goal={\"oil\": \"1 mL\"}"}, {"goal.confidence=50 %"}).empty());
}
