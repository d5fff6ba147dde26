// Ways out of a refused plan, written into the recipe: each value that a way out may change, read
// back from the text of the recipe.
#include "cli/recipe_changes.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "catch.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using cli::RecipeDraft;

namespace {

RecipeDraft draft_with(const Starter& more) {
  RecipeDraft draft{{{"plant", "rosemary"}, {"still", "bench-column"}}, "-"};
  for (const auto& [path, value] : more) draft.starter[path] = value;
  return draft;
}

struct Row {
  Starter asked;
  std::function<void(Recipe&)> change;
  std::string path;  ///< of the key that is then changed
  std::optional<std::string> value;
};

}  // namespace

TEST_CASE("a way out changes one key of the recipe", "[new]") {
  const std::vector<Row> rows = {
      {{}, [](Recipe& r) { r.charge = grams(150); }, "charge", "150 g"},
      {{{"charge", "1 kg"}}, [](Recipe& r) { r.charge = grams(850); }, "charge", "850 g"},
      {{{"charge", "2 lb"}, {"units", "us"}},
       [](Recipe& r) { r.charge = grams(9.3 * 28.349523125); },
       "charge",
       "9.3 oz"},
      {{{"water", "2 L"}}, [](Recipe& r) { r.water = litres(1.5); }, "water", "1.5 L"},
      {{}, [](Recipe& r) { r.setting = percent(60); }, "setting", "60 %"},
      {{}, [](Recipe& r) { r.site.coolant = celsius(8); }, "site.coolant", "8 °C"},
      {{}, [](Recipe& r) { r.limits.absence = minutes(4); }, "limits.absence", "4 min"},
      {{{"limits.time", "1 h"}},
       [](Recipe& r) { r.limits.time = minutes(95); },
       "limits.time",
       "95 min"},
      {{{"goal.hydrosol", "3 L"}},
       [](Recipe& r) { r.goal = HydrosolGoal{millilitres(850)}; },
       "goal.hydrosol",
       "850 mL"},
      {{{"goal.ratio", "9 L/kg"}},
       [](Recipe& r) { r.goal = RatioGoal{litres_per_kilogram(3.2)}; },
       "goal.ratio",
       "3.2 L/kg"},
      {{{"goal.oil", "30 mL"}},
       [](Recipe& r) { r.goal = OilGoal{millilitres(1.4)}; },
       "goal.oil",
       "1.4 mL"},
      {{{"goal.oil", "30 g"}},
       [](Recipe& r) { r.goal = OilGoal{grams(0.25)}; },
       "goal.oil",
       "0.25 g"},
      {{{"goal.oil", "30 g"}}, [](Recipe& r) { r.goal = HarvestGoal{}; }, "goal.oil", std::nullopt},
      {{{"goal.oil_share", "99 %"}},
       [](Recipe& r) { r.goal = OilShareGoal{percent(70)}; },
       "goal.oil_share",
       "70 %"},
      {{{"goal.time", "5 h"}},
       [](Recipe& r) { r.goal = TimeGoal{minutes(80)}; },
       "goal.time",
       "80 min"},
      {{{"goal.oil_share", "90 %"}, {"goal.confidence", "99 %"}},
       [](Recipe& r) { r.confidence = percent(65); },
       "goal.confidence",
       "65 %"},
  };
  for (const Row& row : rows) {
    const RecipeDraft asked = draft_with(row.asked);
    const Recipe from = read_draft(asked, shipped_tables());
    Recipe to = from;
    row.change(to);
    const auto changed = cli::changed_draft(asked, from, to);
    CAPTURE(row.path);
    REQUIRE(changed.has_value());
    CHECK(changed->value(row.path) == row.value);
    Starter rest = changed->starter;
    std::erase_if(rest, [](const auto& entry) { return !entry.second; });
    Starter wanted = asked.starter;
    if (row.value)
      wanted[row.path] = row.value;
    else
      wanted.erase(row.path);
    CHECK(rest == wanted);  // and nothing else is changed
    CHECK_NOTHROW(read_draft(*changed, shipped_tables()));
  }
}

TEST_CASE("another goal replaces the goal", "[new]") {
  const RecipeDraft asked = draft_with({{"goal.time", "5 h"}});
  const Recipe from = read_draft(asked, shipped_tables());
  Recipe to = from;
  to.goal = HydrosolGoal{litres(1.2)};
  const auto changed = cli::changed_draft(asked, from, to);
  REQUIRE(changed.has_value());
  CHECK_FALSE(changed->value("goal.time").has_value());
  CHECK(changed->value("goal.hydrosol") == "1.2 L");
}

TEST_CASE("another still is no change of the recipe", "[new]") {
  const RecipeDraft asked = draft_with({});
  const Recipe from = read_draft(asked, shipped_tables());
  Recipe to = from;
  to.still.change().heater.power = shipped_tables().stills.at("glass-bench")->heater.power;
  CHECK_FALSE(cli::changed_draft(asked, from, to).has_value());
}

TEST_CASE("the changes of a refused recipe can be planned", "[new]") {
  // 3 L of hydrosol don't fit into the 3 L pot of bench-column.
  const RecipeDraft asked = draft_with({{"goal.hydrosol", "3 L"}, {"charge", "150 g"}});
  const Plan refused = make_plan(read_draft(asked, shipped_tables()), shipped_tables());
  REQUIRE(refused.verdict == Verdict::refused);
  const auto ways = ways_out(refused, shipped_tables());
  const auto changes = cli::recipe_changes(asked, refused, ways, shipped_tables());
  REQUIRE_FALSE(changes.empty());
  for (const auto& change : changes) {
    CAPTURE(change.text);
    const Plan plan = make_plan(read_draft(change.draft, shipped_tables()), shipped_tables());
    CHECK(plan.verdict != Verdict::refused);
  }
}
