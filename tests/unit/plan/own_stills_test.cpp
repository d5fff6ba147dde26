// Stills that somebody might own, all invented for this test. Each is planned as it is, or refused
// with ways out that work.
#include <fmt/core.h>

#include <iostream>
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "test_tables.hpp"

using namespace firstdrop;

namespace {

constexpr const char* flask_and_coil =
    R"("methods": ["steam"],
       "pot": {{"material": "glass", "volume": "2 L", "diameter": "17 cm", "mass": "0.7 kg",
               "fill_limit": "75 %", "minimum_water": "0.3 L"}},
       "column": {{"material": "glass", "volume": "1 L", "diameter": "9 cm", "mass": "0.6 kg"}},
       "head": {{"material": "glass", "mass": "0.2 kg", "surface": "200 cm2"}},
       "heater": {{"kind": "electric-plate", "power": "{} W"}},
       "condenser": {{"kind": "ice-bath", "wall": "glass", "surface": "{} cm2",
                     "outlet": "40 °C", "coolant_limit": "35 °C", "coolant": "{} L",
                     "ice_per_change": "1 kg"}},
       "wall_hold_up": "15 g")";

constexpr const char* steel_pot =
    R"("methods": ["steam", "hydro"],
       "pot": {{"material": "stainless-steel", "volume": "{} L", "diameter": "{} cm", "mass": "{} kg",
               "fill_limit": "80 %", "minimum_water": "{} L"}},
       "column": {{"material": "stainless-steel", "volume": "{} L", "diameter": "{} cm",
                  "mass": "0.8 kg"}},
       "head": {{"material": "stainless-steel", "mass": "0.5 kg", "surface": "400 cm2"}},
       "heater": {{"kind": "{}", "power": "{} W"}},
       "condenser": {{"kind": "{}", "wall": "stainless-steel", "surface": "{} cm2", "outlet": "40 °C",
                     "coolant_limit": "40 °C", {}}},
       "wall_hold_up": "30 g")";

std::string glass(int watts, int surface, double bath) {
  return fmt::format(fmt::runtime(flask_and_coil), watts, surface, bath);
}
std::string steel(double pot, int diameter, double mass, double least, double column, int width,
                  const char* heater, int watts, const char* condenser, int surface,
                  const char* coolant) {
  return fmt::format(fmt::runtime(steel_pot), pot, diameter, mass, least, column, width, heater,
                     watts, condenser, surface, coolant);
}

const char* const bucket_of_10 = R"("coolant": "10 L", "ice_per_change": "0 kg")";
const char* const bucket_of_20 = R"("coolant": "20 L", "ice_per_change": "2 kg")";
const char* const bath_of_6 = R"("coolant": "6 L", "ice_per_change": "1.5 kg")";
const char* const tap = R"("flow_limit": "3 L/min")";

}  // namespace

TEST_CASE("plausible stills of one's own are planned, or have ways out that lead out",
          "[own][ways]") {
  const std::vector<std::pair<std::string, std::string>> stills = {
      {"glass, 1200 W, coil of 500 cm2 in 5 L", glass(1200, 500, 5)},
      {"glass, 800 W, coil of 900 cm2 in 5 L", glass(800, 900, 5)},
      {"glass, 500 W, coil of 300 cm2 in 3 L", glass(500, 300, 3)},
      {"steel of 5 L, bucket of 10 L without ice",
       steel(5, 20, 1.5, 0.5, 2, 12, "electric-plate", 1500, "reservoir", 900, bucket_of_10)},
      {"steel of 5 L, bucket of 20 L with ice",
       steel(5, 20, 1.5, 0.5, 2, 12, "electric-plate", 1500, "reservoir", 900, bucket_of_20)},
      {"steel of 8 L on induction, tap",
       steel(8, 24, 2.2, 0.7, 4, 16, "induction-plate", 2000, "run-through", 1500, tap)},
      {"steel of 3 L, small plate, bath",
       steel(3, 16, 1.0, 0.3, 1, 10, "electric-plate", 700, "ice-bath", 500, bath_of_6)},
      {"steel of 12 L with an element, tap",
       steel(12, 26, 3.5, 2.0, 8, 20, "immersed-element", 2200, "run-through", 2500, tap)},
      {"steel of 20 L on gas, tap",
       steel(20, 30, 4.5, 1.5, 15, 26, "gas-burner", 6000, "run-through", 3500, tap)},
      {"steel of 5 L, far too little condenser",
       steel(5, 20, 1.5, 0.5, 2, 12, "electric-plate", 2000, "reservoir", 150, bucket_of_20)},
  };
  int refused = 0;
  for (const auto& [what, still] : stills) {
    const std::string text = R"({"recipe": 1, "plant": "lavender", "still": {"title": "Own", )" +
                             still + R"(}, "site": {"place": "outdoors"}})";
    CAPTURE(what);
    const Plan plan =
        make_plan(read_recipe(text, "own.json", shipped_tables(), {}), shipped_tables());
    std::cout << what << ": " << to_string(plan.verdict) << '\n';
    if (plan.verdict != Verdict::refused) continue;
    ++refused;
    std::cout << "  " << plan.findings.front().code() << '\n';
    const auto ways = ways_out(plan, shipped_tables());
    CHECK_FALSE(ways.empty());
    for (const WayOut& way : ways) {
      std::cout << "  - " << way.text << '\n';
      CAPTURE(way.text);
      CHECK(make_plan(way.recipe, shipped_tables()).verdict != Verdict::refused);
    }
  }
  CHECK(refused >= 1);
  CHECK(refused <= 6);
}
