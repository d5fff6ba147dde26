// Ways out of a refusal: each gives a plan that may be run, and is the smallest change of its kind.
// Herb, stills and rules are those of test_stills.hpp.
#include <cmath>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "catch.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using namespace test_stills;

namespace {

Recipe hydrosol(double ml, Still still = column_still()) {
  return recipe(herb(), std::move(still), HydrosolGoal{millilitres(ml)});
}

std::vector<WayOut> ways(const Recipe& recipe) {
  const Plan refused = plan(recipe);
  INFO(codes(refused));
  REQUIRE(refused.verdict == Verdict::refused);
  std::vector<WayOut> found = ways_out(refused, rules(), 0);
  CHECK(found.size() <= 3);
  for (const WayOut& way : found) {
    CAPTURE(way.text);
    CHECK(plan(way.recipe).verdict != Verdict::refused);
  }
  return found;
}

std::optional<WayOut> way_with(const Recipe& recipe, const std::string& words) {
  for (const WayOut& way : ways(recipe)) {
    if (way.text.find(words) != std::string::npos) return way;
  }
  return std::nullopt;
}

/// The number after these words in the text of a way out.
double number_after(const Recipe& recipe, const std::string& words) {
  const auto way = way_with(recipe, words);
  INFO(words);
  REQUIRE(way);
  return std::stod(way->text.substr(way->text.find(words) + words.size()));
}

/// Checks that the changed recipe is accepted, and that a slightly smaller change is still refused.
void only_just(const Recipe& recipe, const std::function<void(Recipe&, double)>& change,
               double enough, double too_far) {
  Recipe good = recipe;
  change(good, enough);
  CHECK(plan(good).verdict != Verdict::refused);
  Recipe bad = recipe;
  change(bad, too_far);
  CHECK(plan(bad).verdict == Verdict::refused);
}

}  // namespace

TEST_CASE("a plan that may be run has no ways out", "[ways]") {
  CHECK(ways_out(plan(hydrosol(300)), rules(), 0).empty());
}

TEST_CASE("ways out of too much hydrosol: later, cooler, less", "[ways]") {
  Recipe r = hydrosol(300);
  r.limits.absence = minutes(45);
  const auto found = ways(r);
  REQUIRE(found.size() == 3);
  CHECK(found[0].text.starts_with("stop no more than "));
  CHECK(found[1].text.starts_with("set the heater to "));
  CHECK(found[2].text.starts_with("ask for "));
  const double late = number_after(r, "stop no more than ");
  only_just(
      r, [](Recipe& c, double x) { c.limits.absence = minutes(x); }, late, late + 1);
  const double setting = number_after(r, "set the heater to ");
  only_just(
      r, [](Recipe& c, double x) { c.setting = percent(x); }, setting, setting + 5);
  const double ml = number_after(r, "ask for ");
  only_just(
      r, [](Recipe& c, double x) { c.goal = HydrosolGoal{millilitres(x)}; }, ml, ml + 10);
  const double times = number_after(r, "at a time, ");
  CHECK(ml * times >= 300);
  CHECK(ml * (times - 1) < 300);
}

TEST_CASE("ways out of too large a share of the oil", "[ways]") {
  Recipe r = recipe(herb(), column_still(), OilShareGoal{percent(99)});
  r.limits.absence = minutes(20);
  const double share = number_after(r, "ask for ");
  only_just(
      r, [](Recipe& c, double x) { c.goal = OilShareGoal{percent(x)}; }, share, share + 1);
}

TEST_CASE("a goal of several runs is lowered in all", "[ways]") {
  Recipe r = hydrosol(3000);
  r.charge = grams(400);  // three runs
  const double litres_in_all = number_after(r, "ask for ");
  only_just(
      r, [](Recipe& c, double x) { c.goal = HydrosolGoal{litres(x)}; }, litres_in_all,
      litres_in_all + 0.05);
  CHECK_FALSE(way_with(r, "at a time"));
}

TEST_CASE("where no run can be had with the still as it is, another", "[ways]") {
  // 4 % of 740 W is 29.6 W; pot and column lose 75.1 W.
  Recipe r = recipe(herb(), column_still());
  r.setting = percent(4);
  CHECK(number_after(r, "set the heater to ") >= 15.0);
  r.setting = percent(100);
  r.still.change().heater.power = exactly(watts(30));
  const double power = number_after(r, "use a heater of ");
  only_just(
      r, [](Recipe& c, double x) { c.still.change().heater.power = exactly(watts(x)); }, power,
      power - 50.0);
}

TEST_CASE("a larger pot over a grid has a grid to match", "[ways]") {
  Recipe r = hydrosol(3000, grid_still());  // 4 L below the grid of a pot of 12 L
  r.charge = grams(900);
  r.limits.absence = minutes(0);
  const auto way = way_with(r, "use a pot of about ");
  REQUIRE(way);
  const double pot = number_after(r, "use a pot of about ");
  const double below = number_after(r, " L with ");
  CHECK_THAT(below / pot, WithinRel(4.0 / 12, 0.02));
  CHECK_THAT(in_litres(way->recipe.still->grid->water_below.typical()), WithinRel(below, 1e-9));
}

TEST_CASE("a bench's readings stay those of the setting they were taken at", "[ways]") {
  Recipe r = hydrosol(300);
  r.limits.absence = minutes(45);
  r.own.distillate_rate = millilitres_per_minute(12);
  const auto way = way_with(r, "set the heater to ");
  REQUIRE(way);
  CHECK(way->recipe.own.setting == percent(100));
  CHECK(way->text.find("own.setting to 100 %") != std::string::npos);
}

TEST_CASE("water that is too much or too little is poured as the plan would", "[ways]") {
  Recipe r = hydrosol(300);
  const Volume right = plan(r).run.value().water.pour;
  for (const double ml : {250.0, 1990.0}) {
    r.water = millilitres(ml);
    const auto way = way_with(r, "pour ");
    CAPTURE(ml);
    REQUIRE(way);
    CHECK(way->recipe.water == right);
  }
}

TEST_CASE("a time to boil stays that of the water it was measured with", "[ways]") {
  Recipe r = hydrosol(300);
  r.water = millilitres(250);
  r.own.boil_time = minutes(3);
  const auto way = way_with(r, "pour ");
  REQUIRE(way);
  CHECK(way->recipe.own.boil_water == millilitres(250));
  CHECK(way->text.ends_with(
      " (and set own.boil_water to 250 mL, with which you measured own.boil_time)"));

  // If the recipe already gives the water, or has no such time, there is nothing to add.
  r.own.boil_water = millilitres(250);
  const auto said = way_with(r, "pour ");
  REQUIRE(said);
  CHECK(said->text.find("boil_water") == std::string::npos);
  r.own = {};
  const auto unmeasured = way_with(r, "pour ");
  REQUIRE(unmeasured);
  CHECK(unmeasured->text.find("boil_water") == std::string::npos);
}

TEST_CASE("a confidence that no plan reaches: less, longer, or less sure", "[ways]") {
  // A time limit that only half of the runs meet.
  Recipe r = hydrosol(500);
  r.limits.time = plan(r, default_samples).run.value().uncertainty.stop.typical;
  r.confidence = percent(90);
  const Plan late = plan(r, default_samples);
  REQUIRE(late.verdict == Verdict::refused);
  const auto found = ways_out(late, rules(), default_samples);
  REQUIRE(found.size() == 3);
  for (const WayOut& way : found) {
    CAPTURE(way.text);
    CHECK(plan(way.recipe, default_samples).verdict != Verdict::refused);
  }
  CHECK(found[0].text.starts_with("ask for "));
  CHECK(found[1].text.starts_with("allow "));
}

TEST_CASE("a refused plan says what to measure next, if that would let it go", "[ways]") {
  const Tables& tables = shipped();
  const auto read = [&](const std::string& text) { return read_recipe(text, "", tables, nullptr); };
  const auto with_ways_out = [&](const Recipe& recipe) {
    Plan plan = make_plan(recipe, tables);
    add_ways_out(plan, tables);
    return plan;
  };
  SECTION("a condenser that nobody has measured") {
    Recipe recipe = read(R"({"recipe": 1, "plant": "lavender", "still": {
      "pot": {"material": "stainless-steel", "volume": "3 L"}, "column": {"volume": "1.5 L"},
      "heater": {"kind": "electric-plate", "power": "1 kW"},
      "condenser": {"kind": "reservoir", "coolant": "20 L"}}})");
    const Plan refused = with_ways_out(recipe);
    REQUIRE(refused.verdict == Verdict::refused);
    REQUIRE(refused.measure_next.size() == 1);
    CHECK_THAT(refused.measure_next.front(), ContainsSubstring("Measure the condenser"));
    // As it says: with the usual surface, measured, the plan goes.
    Cited<Area>& surface = recipe.still.change().condenser.surface;
    surface.range = Range<Area>::exactly(surface.typical());
    CHECK(make_plan(recipe, tables).verdict != Verdict::refused);
  }
  SECTION("a burner whose heat is known from three runs on two days") {
    Recipe recipe = read(R"({"recipe": 1, "plant": "lavender", "still": "farm-grid",
      "site": {"place": "outdoors"}, "goal": {"time": "80 min"}})");
    const Plan refused = with_ways_out(recipe);
    REQUIRE(refused.verdict == Verdict::refused);
    CHECK_FALSE(refused.ways_out.empty());  // what can be planned today
    REQUIRE(refused.measure_next.size() == 1);
    CHECK_THAT(refused.measure_next.front(), ContainsSubstring("Do 3 water runs on two days"));
    Still& still = recipe.still.change();
    const Range<Fraction> usual =
        tables.design_defaults.heater_efficiency.at(HeaterKind::gas_burner).range;
    still.heater.efficiency =
        Cited<Fraction>{{usual.typical * 0.97, usual.typical, usual.typical * 1.03},
                        {"made up", {}, Known::measured}};
    still.measured_runs = MeasuredRuns{1, 1, {}, usual.typical, fraction(1)};
    CHECK(make_plan(recipe, tables).verdict == Verdict::refused);  // one run never lowers it
    still.measured_runs = MeasuredRuns{3, 2, {}, usual.typical, fraction(1)};
    CHECK(make_plan(recipe, tables).verdict != Verdict::refused);
  }
  SECTION("nothing, where no measurement helps or the plan goes") {
    CHECK(with_ways_out(read(R"({"recipe": 1, "plant": "lavender", "still": "bench-column"})"))
              .measure_next.empty());
    const Plan refused = with_ways_out(read(
        R"({"recipe": 1, "plant": "lavender", "still": "bench-column", "goal": {"time": "10 min"}})"));
    REQUIRE(refused.verdict == Verdict::refused);
    CHECK(refused.measure_next.empty());
  }
}
