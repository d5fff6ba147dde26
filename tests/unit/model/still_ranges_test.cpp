// Ranges in a still's file. A plan follows each end that counts. A key whose range no plan would
// follow refuses a range. Every figure of a still is tried.
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "model/cold_side.hpp"
#include "output/bench_words.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using namespace test_stills;
using nlohmann::json;
using Pointer = json::json_pointer;

namespace {

json still_with(const char* method, const char* condenser) {
  json still = json::parse(R"({
    "still": 1, "title": "Mine",
    "pot": {"material": "stainless-steel", "volume": "12 L", "diameter": "240 mm", "mass": "2 kg",
            "fill_limit": "75 %", "minimum_water": "600 mL"},
    "column": {"material": "stainless-steel", "volume": "5 L", "diameter": "160 mm",
               "mass": "1 kg"},
    "grid": {"water_below": "4 L", "space": "6 L", "mass": "0.8 kg"},
    "head": {"material": "stainless-steel", "mass": "0.4 kg", "surface": "0.06 m2"},
    "heater": {"kind": "electric-plate", "power": "2 kW", "efficiency": "70 %"},
    "condenser": {"wall": "stainless-steel", "surface": "0.2 m2", "outlet": "40 °C",
                  "coolant_limit": "35 °C"},
    "wall_hold_up": "20 g"})");
  still["methods"] = {method};
  still["condenser"].update(json::parse(condenser));
  return still;
}

constexpr const char* iced = R"({"kind": "ice-bath", "coolant": "60 L", "ice_per_change": "5 kg"})";
constexpr const char* piped = R"({"kind": "run-through", "flow_limit": "5 L/min"})";

std::vector<json> stills() {
  return {still_with("steam", iced), still_with("steam", piped),
          still_with("water-and-steam", piped), still_with("hydro", piped)};
}

/// "1.5 kg" as a figure with a range from `low` to `high` times its value.
json figure(const std::string& text, double low, double high) {
  std::size_t end = 0;
  const double typical = std::stod(text, &end);
  return {{"low", typical * low},         {"typical", typical}, {"high", typical * high},
          {"unit", text.substr(end + 1)}, {"basis", "made up"}, {"known", "measured"}};
}

/// The pointers of all figures of these stills.
std::set<std::string> figures() {
  std::set<std::string> found;
  for (const json& still : stills()) {
    const json flat = still.flatten();
    for (const auto& [pointer, value] : flat.items()) {
      if (value.is_string() && value.get<std::string>().find_first_of("0123456789") == 0) {
        found.insert(pointer);
      }
    }
  }
  return found;
}

/// Plans for a still, for goals at which herb, water, coolant or nothing runs short.
std::vector<std::string> answers(const json& document) {
  const Still still = read_still(document.dump(), "still.json", rules());
  std::vector<std::string> all;
  for (const Goal& goal : {Goal{HarvestGoal{}}, Goal{HydrosolGoal{litres(2)}},
                           Goal{HydrosolGoal{litres(6)}}, Goal{TimeGoal{hours(2)}}}) {
    Recipe r = recipe(herb(), still, goal);
    r.method = still.methods.front();
    all.push_back(plan_json(plan(r, 64)));
  }
  return all;
}

constexpr unsigned counts_low = 1;
constexpr unsigned counts_high = 2;

/// The ends that a plan follows: both, or the one on the careful side.
const std::map<std::string, unsigned>& followed() {
  static const std::map<std::string, unsigned> all = {
      {"/pot/volume", counts_low},
      {"/pot/fill_limit", counts_low},
      {"/pot/minimum_water", counts_high},
      {"/pot/mass", counts_low | counts_high},
      {"/column/volume", counts_low},
      {"/column/mass", counts_low | counts_high},
      {"/grid/mass", counts_low | counts_high},
      {"/head/mass", counts_low | counts_high},
      {"/grid/water_below", counts_low},
      {"/grid/space", counts_low},
      {"/head/surface", counts_low | counts_high},
      {"/heater/power", counts_low | counts_high},
      {"/heater/efficiency", counts_low | counts_high},
      {"/condenser/surface", counts_low},
      {"/condenser/coolant", counts_low | counts_high},
      {"/condenser/flow_limit", counts_low},
      {"/wall_hold_up", counts_low | counts_high},
  };
  return all;
}

/// Whether any plan changes when this figure gets a range with these ends.
bool moves(const std::string& pointer, double low, double high) {
  const Pointer place(pointer);
  for (json still : stills()) {
    if (!still.contains(place)) continue;
    const std::string exact = still.at(place).get<std::string>();
    const auto before = answers(still);
    still[place] = figure(exact, low, high);
    if (answers(still) != before) return true;
  }
  return false;
}

std::vector<Fault> faults_of(const json& still) {
  try {
    read_still(still.dump(), "still.json", rules());
  } catch (const InputError& error) {
    return error.faults();
  }
  return {};
}

}  // namespace

TEST_CASE("a plan follows the ends of every range that a still takes", "[still][ranges]") {
  for (const auto& [pointer, ends] : followed()) {
    CAPTURE(pointer);
    CHECK(moves(pointer, 0.55, 1.0) == bool(ends & counts_low));
    CHECK(moves(pointer, 1.0, 1.3) == bool(ends & counts_high));
  }
}

TEST_CASE("a figure of which no plan follows a range takes one value", "[still][ranges]") {
  int refused = 0;
  for (const std::string& pointer : figures()) {
    CAPTURE(pointer);
    for (json still : stills()) {
      const Pointer place(pointer);
      if (!still.contains(place)) continue;
      const std::string exact = still.at(place).get<std::string>();
      still[place] = figure(exact, 1.0, 1.0);
      CHECK(faults_of(still).empty());
      still[place] = figure(exact, 0.95, 1.05);
      const std::vector<Fault> faults = faults_of(still);
      if (followed().contains(pointer)) {
        CHECK(faults.empty());
        continue;
      }
      ++refused;
      REQUIRE(faults.size() == 1);
      CHECK(faults.front().pointer == pointer);
      CHECK(faults.front().found.starts_with("low "));
      CHECK(faults.front().wanted == "one value, such as \"" + exact + "\"");
      CHECK(faults.front().hint == "nothing in the plan follows a range of this figure");
    }
  }
  CHECK(figures().size() == followed().size() + 5);
  CHECK(refused == 4 * 4 + 1);
}

TEST_CASE("a still made in code has no range that no plan follows", "[still][ranges]") {
  const auto pointer_of = [](const auto& change) {
    Recipe r = recipe(herb(), iced_still(litres(1), litres(40), kilograms(1)));
    Still& still = r.still.change();
    still.grid = Grid{exactly(litres(0.8)), exactly(litres(1)), exactly(kilograms(0.2))};
    change(still);
    try {
      plan(r);
    } catch (const InputError& error) {
      CHECK(error.faults().size() == 1);
      CHECK(error.faults().front().hint == one_value_reason);
      return error.faults().front().pointer;
    }
    return std::string();
  };
  const auto widen = [](auto& cited) { cited.range.high = cited.range.high * 1.1; };
  CHECK(pointer_of([](Still&) {}).empty());
  CHECK(pointer_of([&](Still& s) { widen(s.pot.diameter); }) == "/still/pot/diameter");
  CHECK(pointer_of([&](Still& s) { widen(s.column->diameter); }) == "/still/column/diameter");
  CHECK(pointer_of([](Still& s) { s.condenser.outlet.range.high = celsius(45); }) ==
        "/still/condenser/outlet");
  CHECK(pointer_of([](Still& s) { s.condenser.coolant_limit.range.high = celsius(45); }) ==
        "/still/condenser/coolant_limit");
  CHECK(pointer_of([&](Still& s) { widen(*s.condenser.ice_per_change); }) ==
        "/still/condenser/ice_per_change");
}

TEST_CASE("ice for an oil that sets chills the smallest bath no further than the typical one",
          "[still][ranges]") {
  Recipe r = recipe(herb(), iced_still(litres(1), litres(8), kilograms(2)),
                    HydrosolGoal{millilitres(700)});
  r.plant.change().oil_freezes = exactly(celsius(15));
  const auto piece = [](const Recipe& asked) {
    const Plan p = plan(asked);
    REQUIRE(p.run);
    REQUIRE_FALSE(p.run->cooling.ice_changes.empty());
    return in_grams(p.run->cooling.ice_changes.front().ice);
  };
  const double exact = piece(r);
  // As far below low as low is below the median: 6 L of 8 L, and as much less ice.
  r.still.change().condenser.coolant = between(litres(7), litres(8), litres(8));
  CHECK_THAT(piece(r), WithinRel(exact * 6 / 8, 1e-9));
}

TEST_CASE("ice chills the smallest bath by as much more as it has less water", "[still][ranges]") {
  Recipe r = recipe(herb(), iced_still(litres(1), litres(8), kilograms(2)));
  const auto chilled = [&](double before, double after) {
    const ModelParameters parameters = model_parameters(r, rules());
    return in_celsius(
        ColdSide(parameters, rules().design_defaults).chilled(celsius(before), celsius(after)));
  };
  CHECK_THAT(chilled(35, 20), WithinAbs(20, 1e-9));
  r.still.change().condenser.coolant = between(litres(7), litres(8), litres(8));  // lower bound 6 L
  CHECK_THAT(chilled(35, 20), WithinAbs(15, 1e-9));
  CHECK_THAT(chilled(20, 4), WithinAbs(0, 1e-9));  // would be -1.33 °C without the ice point
}

TEST_CASE("what fills the coolant vessel is listed with the most that it may hold",
          "[still][ranges]") {
  Recipe r = recipe(herb(), column_still());
  CHECK(coolant_in_words(plan(r)) == "80 L");
  r.still.change().condenser.coolant = between(litres(70), litres(80), litres(84));
  CHECK(coolant_in_words(plan(r)) == "80 L (up to 88 L)");
}
