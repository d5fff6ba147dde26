// Published runs of real stills against plans with the same charge, state, cut, method and volume
// of distillate. The still itself is made up and large enough for each of them.
//
// Published yields are of separated oil; some also include oil extracted from the water. So they
// are compared with both the vaporised oil and the separated oil.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <numbers>
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "reference/csv_table.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using test_stills::shipped;

namespace {

// Diameter in cm of a cylinder as high as it is wide; `volume` in L.
double across(double volume) {
  return std::cbrt(4000 * volume / std::numbers::pi);
}

// A charge above 30 kg is planned as 30 kg with the same steam per kilogram, because larger stills
// are refused.
double planned_kilograms(const csv_table::Row& row) {
  return std::min(std::stod(row.at("charge_kg")), 30.0);
}

Recipe recipe_of(const csv_table::Row& row) {
  const double kg = planned_kilograms(row);
  const double rate =
      row.at("rate_ml_min").empty()
          ? in_per_hour(shipped().design_defaults.steam_per_charge.typical()) * kg * 1000 / 60
          : std::stod(row.at("rate_ml_min"));
  const double distilled = row.at("distillate_l").empty()
                               ? rate * std::stod(row.at("minutes")) / 1000
                               : std::stod(row.at("distillate_l"));
  const std::string& method = row.at("method");
  const double water = 2 * distilled + 6 * kg;  // plenty
  std::string space;
  if (method == "steam")
    space =
        fmt::format(R"("column": {{"material": "stainless-steel", "volume": "{} L", "diameter": )"
                    R"("{} cm", "mass": "2 kg"}},)",
                    40 * kg, across(40 * kg));
  if (method == "water-and-steam")
    space = fmt::format(R"("grid": {{"water_below": "{} L", "space": "{} L", "mass": "1 kg"}},)",
                        water, 40 * kg);
  const double pot = method == "water-and-steam" ? water + 42 * kg : water * 2;
  return read_recipe(
      fmt::format(R"({{"recipe": 1, "plant": "{}", "state": "{}", "cut": "{}", "charge": "{} kg",
        "method": "{}", "own": {{"distillate_rate": "{} mL/min"}}, "goal": {{"hydrosol": "{} L"}},
        "still": {{"title": "Made up", "methods": ["{}"], {}
          "pot": {{"material": "stainless-steel", "volume": "{} L", "diameter": "{} cm",
            "mass": "3 kg", "fill_limit": "85 %", "minimum_water": "500 mL"}},
          "head": {{"material": "stainless-steel", "mass": "1 kg", "surface": "500 cm2"}},
          "heater": {{"kind": "immersed-element", "power": "{} W"}},
          "condenser": {{"kind": "run-through", "wall": "stainless-steel", "surface": "{} cm2",
            "outlet": "40 °C", "coolant_limit": "60 °C", "flow_limit": "500 L/min"}},
          "wall_hold_up": "30 g"}}}})",
                  row.at("plant"), row.at("state"), row.at("cut"), kg, method, rate, distilled,
                  method, space, pot, across(pot), 500 + 60 * rate, 500 + 120 * rate),
      row.at("run"), shipped(), {});
}

}  // namespace

TEST_CASE("published runs of real stills against their plans", "[reference][coverage]") {
  int inside = 0;
  std::vector<double> ratios;
  std::vector<double> of_parted;
  std::string report = fmt::format("{:22} {:>10} {:>24} {:>8}\n", "run, oil in g/kg", "published",
                                   "plan: 10 %, half, 90 %", "separated");
  for (const csv_table::Row& row : csv_table::read("still_runs.csv")) {
    CAPTURE(row.at("run"));
    const Recipe recipe = recipe_of(row);
    const Plan plan = make_plan(recipe, shipped());
    REQUIRE(plan.run);
    CHECK(plan.verdict != Verdict::refused);
    const double kg = planned_kilograms(row);
    double published = 10 * std::stod(row.at("yield"));
    if (row.at("unit") == "mL/100g")
      published *= in_grams_per_millilitre(recipe.plant->oil_density->typical());
    const auto& oil = plan.run->uncertainty.oil_vaporised;
    const double low = in_grams(oil.low) / kg;
    const double middle = in_grams(oil.typical) / kg;
    const double high = in_grams(oil.high) / kg;
    const double separated = in_grams(plan.run->uncertainty.oil_in_receiver.typical) / kg;
    report += fmt::format("{:22} {:>10.2f} {:>8.2f} {:>7.2f} {:>7.2f} {:>8.2f}\n", row.at("run"),
                          published, low, middle, high, separated);
    if (published >= low && published <= high) ++inside;
    ratios.push_back(published / middle);
    of_parted.push_back(published / separated);
  }
  std::sort(ratios.begin(), ratios.end());
  std::sort(of_parted.begin(), of_parted.end());
  const double median = ratios[ratios.size() / 2];
  const double median_of_parted = of_parted[of_parted.size() / 2];
  report += fmt::format(
      "inside {} of {}, published over the plan's median {:.2f}, over what parts "
      "{:.2f}\n",
      inside, ratios.size(), median, median_of_parted);
  std::cout << report;
  CHECK(ratios.size() >= 10);
  CHECK(inside * 10 >= static_cast<int>(ratios.size()) * 7);
  CHECK(median >= 0.7);
  CHECK(median <= 1.4);
  // It was 1.97 when the model let all later water dissolve separated oil.
  CHECK(median_of_parted >= 0.7);
  CHECK(median_of_parted <= 1.8);
}
