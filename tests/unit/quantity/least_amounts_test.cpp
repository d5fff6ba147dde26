// The least amounts: as text they are what they are as numbers, and readers and planner hold to
// them alike.
#include "firstdrop/quantity/least_amounts.hpp"

#include <functional>
#include <limits>
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/model/inputs.hpp"
#include "firstdrop/quantity/quantity_text.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "test_library.hpp"

using namespace firstdrop;

namespace {

template <class Q>
void check_words(const Least<Q>& bound) {
  INFO(bound.words);
  const auto read = parse_quantity<Q>(bound.words);
  REQUIRE(read);
  CHECK_FALSE(*read < bound.amount);
  CHECK_THAT(double(*read / bound.amount), WithinRel(1.0, 1e-12));
}

Recipe lavender() {
  return read_recipe(R"({"recipe": 1, "plant": "lavender", "still": "bench-column"})", "",
                     shipped_library(), nullptr);
}

/// Whether the planner takes a recipe made in code, and what it says where it does not.
std::string said_of(const Recipe& recipe) {
  try {
    gather_inputs(recipe, shipped_library());
  } catch (const InputError& error) {
    return error.faults().front().pointer + ": " + error.faults().front().wanted;
  }
  return "";
}

}  // namespace

TEST_CASE("the words of the least amounts are the amounts", "[recipe]") {
  check_words(least::herb);
  check_words(least::water);
  check_words(least::ratio);
  check_words(least::oil_volume);
  check_words(least::oil_mass);
  check_words(least::oil_share);
  check_words(least::run_time);
  check_words(least::setting);
  check_words(least::bulk_density);
  check_words(least::oil_content);
  check_words(least::distillate);
  check_words(least::receiver);
  check_words(least::vessel_volume);
  check_words(least::vessel_diameter);
  check_words(least::vessel_mass);
  check_words(least::surface);
  check_words(least::heater_power);
  check_words(least::still_share);
  check_words(least::tap);
  check_words(least::half_life);
  check_words(least::oil_volume_content);
  check_words(least::recovered);
  check_words(least::steam_flow);
}

TEST_CASE("a recipe made in code has the least amounts of one that is read", "[recipe]") {
  struct Row {
    const char* pointer;
    const char* wanted;
    std::function<void(Recipe&, double)> set;  ///< to so many times the least
  };
  const std::vector<Row> rows = {
      {"/charge", "1 g or more", [](Recipe& r, double x) { r.charge = least::herb.amount * x; }},
      {"/water", "10 mL or more", [](Recipe& r, double x) { r.water = least::water.amount * x; }},
      {"/receiver", "10 mL or more",
       [](Recipe& r, double x) { r.receiver = least::receiver.amount * x; }},
      {"/setting", "1 to 100 %",
       [](Recipe& r, double x) { r.setting = least::setting.amount * x; }},
      {"/own/bulk_density", "1 g/L or more",
       [](Recipe& r, double x) { r.own.bulk_density = least::bulk_density.amount * x; }},
      {"/own/oil_content", "0.0001 % or more",
       [](Recipe& r, double x) { r.own.oil_content = least::oil_content.amount * x; }},
      {"/own/distillate_rate", "0.1 mL/min or more",
       [](Recipe& r, double x) { r.own.distillate_rate = least::distillate.amount * x; }},
      {"/own/boil_time", "1 min or more",
       [](Recipe& r, double x) {
         r.own.boil_time = least::run_time.amount * x;
         r.own.boil_water = litres(1);
       }},
      {"/own/boil_water", "10 mL or more",
       [](Recipe& r, double x) {
         r.own.boil_time = minutes(16);
         r.own.boil_water = least::water.amount * x;
       }},
      {"/limits/time", "1 min or more",
       [](Recipe& r, double x) { r.limits.time = least::run_time.amount * x; }},
      {"/goal/hydrosol", "10 mL or more",
       [](Recipe& r, double x) { r.goal = HydrosolGoal{least::water.amount * x}; }},
      {"/goal/ratio", "0.1 L/kg or more",
       [](Recipe& r, double x) { r.goal = RatioGoal{least::ratio.amount * x}; }},
      {"/goal/oil", "0.001 g or more",
       [](Recipe& r, double x) { r.goal = OilGoal{least::oil_mass.amount * x}; }},
      {"/goal/oil", "0.001 mL or more",
       [](Recipe& r, double x) { r.goal = OilGoal{least::oil_volume.amount * x}; }},
      {"/goal/time", "1 min or more",
       [](Recipe& r, double x) { r.goal = TimeGoal{least::run_time.amount * x}; }},
  };
  for (const Row& row : rows) {
    INFO(row.pointer);
    const auto said_at = [&](double times) {
      Recipe recipe = lavender();
      row.set(recipe, times);
      return said_of(recipe);
    };
    CHECK(said_at(1) == "");
    const std::string refusal = std::string(row.pointer) + ": " + row.wanted;
    CHECK(said_at(0.999) == refusal);
    CHECK(said_at(0) == refusal);
    CHECK(said_at(-1) == refusal);
    CHECK(said_at(1e-320) == refusal);
    CHECK(said_at(std::numeric_limits<double>::quiet_NaN()) == refusal);
  }
}
