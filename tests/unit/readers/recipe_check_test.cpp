// Bounds of recipes: their texts match their numbers, and a recipe made in code has the same bounds
// as one read from a file.
#include "readers/recipe_check.hpp"

#include <functional>
#include <limits>
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/quantity/units.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "model/model_parameters.hpp"
#include "readers/field_bounds.hpp"
#include "test_tables.hpp"

using namespace firstdrop;

namespace {

template <class Q>
void check_words(const Bounds<Q>& bounds) {
  REQUIRE(bounds.least);
  INFO(bounds.least->words);
  const auto read = parse_quantity<Q>(bounds.least->words);
  REQUIRE(read);
  CHECK_FALSE(*read < bounds.least->amount);
  CHECK_THAT(double(*read / bounds.least->amount), WithinRel(1.0, 1e-12));
}

Recipe lavender() {
  return read_recipe(R"({"recipe": 1, "plant": "lavender", "still": "bench-column"})", "",
                     shipped_tables(), nullptr);
}

/// What the planner reports about a recipe made in code; empty if it accepts the recipe.
std::string said_of(const Recipe& recipe) {
  try {
    model_parameters(recipe, shipped_tables());
  } catch (const InputError& error) {
    return error.faults().front().pointer + ": " + error.faults().front().wanted;
  }
  return "";
}

}  // namespace

TEST_CASE("the words of the least amounts are the amounts", "[recipe]") {
  check_words(bounds::charge);
  check_words(bounds::water);
  check_words(bounds::ratio);
  check_words(bounds::oil_volume);
  check_words(bounds::oil_mass);
  check_words(bounds::oil_share);
  check_words(bounds::run);
  check_words(bounds::boil_time);
  check_words(bounds::setting);
  check_words(bounds::bulk_density);
  check_words(bounds::oil_content);
  check_words(bounds::rate);
  check_words(bounds::receiver);
  check_words(bounds::vessel_volume);
  check_words(bounds::vessel_diameter);
  check_words(bounds::vessel_mass);
  check_words(bounds::surface);
  check_words(bounds::heater_power);
  check_words(bounds::fill_limit);
  check_words(bounds::efficiency);
  check_words(bounds::tap);
  check_words(bounds::half_life);
  check_words(bounds::oil_by_volume);
  check_words(bounds::recovered);
  check_words(bounds::steam_flow);
}

TEST_CASE("a recipe made in code has the least amounts of one that is read", "[recipe]") {
  struct Row {
    const char* pointer;
    std::string wanted;
    std::function<void(Recipe&, double)> set;  ///< to this many times the least amount
  };
  const std::vector<Row> rows = {
      {"/charge", "a value " + bounds::charge.text(),
       [](Recipe& r, double x) { r.charge = bounds::charge.least->amount * x; }},
      {"/water", "a value " + bounds::water.text(),
       [](Recipe& r, double x) { r.water = bounds::water.least->amount * x; }},
      {"/receiver_volume", "a value " + bounds::receiver.text(),
       [](Recipe& r, double x) { r.receiver_volume = bounds::receiver.least->amount * x; }},
      {"/setting", "a value " + bounds::setting.text(),
       [](Recipe& r, double x) { r.setting = bounds::setting.least->amount * x; }},
      {"/own/bulk_density", "a value " + bounds::bulk_density.text(),
       [](Recipe& r, double x) { r.own.bulk_density = bounds::bulk_density.least->amount * x; }},
      {"/own/oil_content", "a value " + bounds::oil_content.text(),
       [](Recipe& r, double x) { r.own.oil_content = bounds::oil_content.least->amount * x; }},
      {"/own/distillate_rate", "a value " + bounds::rate.text(),
       [](Recipe& r, double x) { r.own.distillate_rate = bounds::rate.least->amount * x; }},
      {"/own/boil_time", "a value " + bounds::boil_time.text(),
       [](Recipe& r, double x) {
         r.own.boil_time = bounds::run.least->amount * x;
         r.own.boil_water = litres(1);
       }},
      {"/own/boil_water", "a value " + bounds::water.text(),
       [](Recipe& r, double x) {
         r.own.boil_time = minutes(16);
         r.own.boil_water = bounds::water.least->amount * x;
       }},
      {"/limits/time", "a value " + bounds::run.text(),
       [](Recipe& r, double x) { r.limits.time = bounds::run.least->amount * x; }},
      {"/goal/hydrosol", "a value " + bounds::water.text(),
       [](Recipe& r, double x) { r.goal = HydrosolGoal{bounds::water.least->amount * x}; }},
      {"/goal/ratio", "a value " + bounds::ratio.text(),
       [](Recipe& r, double x) { r.goal = RatioGoal{bounds::ratio.least->amount * x}; }},
      {"/goal/oil", "a value " + bounds::oil_mass.text(),
       [](Recipe& r, double x) { r.goal = OilGoal{bounds::oil_mass.least->amount * x}; }},
      {"/goal/oil", "a value " + bounds::oil_volume.text(),
       [](Recipe& r, double x) { r.goal = OilGoal{bounds::oil_volume.least->amount * x}; }},
      {"/goal/time", "a value " + bounds::run.text(),
       [](Recipe& r, double x) { r.goal = TimeGoal{bounds::run.least->amount * x}; }},
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

TEST_CASE("a site made in code has the bounds of one that is read", "[recipe]") {
  struct Row {
    const char* text;  ///< of a site in a file
    std::function<void(Site&)> set;
    bool good;
  };
  const std::vector<Row> rows = {
      {R"("room": "0.5 °C")", [](Site& s) { s.room = celsius(0.5); }, false},
      {R"("room": "1 °C")", [](Site& s) { s.room = celsius(1); }, true},
      {R"("room": "50.1 °C")", [](Site& s) { s.room = celsius(50.1); }, false},
      {R"("altitude": "8000 m")", [](Site& s) { s.altitude = metres(8000); }, false},
      {R"("altitude": "5000 m")", [](Site& s) { s.altitude = metres(5000); }, true},
      {R"("pressure": "5 kPa")", [](Site& s) { s.pressure = kilopascals(5); }, false},
      {R"("pressure": "50 kPa")", [](Site& s) { s.pressure = kilopascals(50); }, true},
      {R"("pressure": "111 kPa")", [](Site& s) { s.pressure = kilopascals(111); }, false},
      {R"("coolant": "-1 °C")", [](Site& s) { s.coolant = celsius(-1); }, false},
      {R"("coolant": "60 °C")", [](Site& s) { s.coolant = celsius(60); }, true},
  };
  for (const Row& row : rows) {
    INFO(row.text);
    Recipe made = lavender();
    row.set(made.site);
    CHECK((said_of(made) == "") == row.good);
    const auto reads = [&] {
      read_recipe(std::string(R"({"recipe": 1, "plant": "lavender", "still": "bench-column", )") +
                      R"("site": {)" + row.text + "}}",
                  "", shipped_tables(), nullptr);
    };
    if (row.good)
      CHECK_NOTHROW(reads());
    else
      CHECK_THROWS_AS(reads(), InputError);
  }
}

TEST_CASE("a still brings its method with it", "[recipe]") {
  Recipe recipe = lavender();
  CHECK_FALSE(recipe.method);
  CHECK(recipe.method_used() == recipe.still->methods.front());
  // Another still in its place needs nothing else to be set.
  for (const auto& [key, still] : shipped_tables().stills) {
    INFO(key);
    recipe.still = still;
    REQUIRE_FALSE(still->methods.empty());
    CHECK(recipe.method_used() == still->methods.front());
    CHECK(said_of(recipe) == "");
  }
  // The recipe's own comes first.
  recipe.method = Method::hydro;
  CHECK(recipe.method_used() == Method::hydro);
}
