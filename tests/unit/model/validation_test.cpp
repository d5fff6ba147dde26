// What planning refuses in recipes, stills and plants made in code. Herb, stills and design
// defaults are those of test_stills.hpp.
#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "model/model_parameters.hpp"
#include "test_stills.hpp"
#include "unit/model/parameters_of.hpp"

using namespace firstdrop;
using namespace test_stills;

TEST_CASE("all of the oil is no goal, nearly all is", "[parameters]") {
  Recipe r = recipe(herb(), column_still(), OilShareGoal{fraction(1)});
  CHECK(fault_of(r).pointer == "/goal/oil_share");
  r.goal = OilShareGoal{fraction(0)};
  CHECK(fault_of(r).pointer == "/goal/oil_share");
  r.goal = OilShareGoal{percent(99.9)};
  CHECK_NOTHROW(parameters_of(r));
}

TEST_CASE("each method needs its part of the still", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  r.still.change().column.reset();
  CHECK(fault_of(r).pointer == "/still/column");
  CHECK(fault_of(r).wanted.find("column") != std::string::npos);
  r = recipe(herb(), grid_still());
  CHECK_NOTHROW(parameters_of(r));  // has no column, and needs none
  r.still.change().grid.reset();
  CHECK(fault_of(r).pointer == "/still/grid");
  CHECK(fault_of(r).wanted.find("grid") != std::string::npos);
  r = recipe(herb(), column_still());
  r.still.change().condenser.coolant.reset();
  CHECK(fault_of(r).pointer == "/still/condenser/coolant");
  r.still = tap_still(millilitres_per_minute(1000));
  CHECK_NOTHROW(parameters_of(r));
  r.still.change().condenser.flow_limit.reset();
  CHECK(fault_of(r).pointer == "/still/condenser/flow_limit");
}

TEST_CASE("a recipe made in code is checked as one from a file would be", "[parameters]") {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  constexpr double endless = std::numeric_limits<double>::infinity();
  const auto pointer_of = [](const std::function<void(Recipe&)>& change) {
    Recipe r = recipe(herb(), column_still());
    change(r);
    return fault_of(r).pointer;
  };
  CHECK_NOTHROW(parameters_of(recipe(herb(), column_still())));

  // An endless absence once gave a plan for a pot without water.
  CHECK(pointer_of([&](Recipe& r) { r.limits.absence = minutes(endless); }) == "/limits/absence");
  CHECK(pointer_of([&](Recipe& r) { r.limits.time = minutes(endless); }) == "/limits/time");
  CHECK(pointer_of([&](Recipe& r) { r.charge = grams(endless); }) == "/charge");
  CHECK(pointer_of([&](Recipe& r) { r.water = litres(nan); }) == "/water");
  CHECK(pointer_of([&](Recipe& r) { r.receiver_volume = litres(0); }) == "/receiver_volume");
  CHECK(pointer_of([&](Recipe& r) { r.goal = HydrosolGoal{litres(endless)}; }) == "/goal/hydrosol");
  CHECK(pointer_of([&](Recipe& r) { r.goal = OilGoal{grams(nan)}; }) == "/goal/oil");
  CHECK(pointer_of([&](Recipe& r) { r.goal = TimeGoal{hours(nan)}; }) == "/goal/time");
  CHECK(pointer_of([&](Recipe& r) { r.site.room = celsius(nan); }) == "/site/room");
  CHECK(pointer_of([&](Recipe& r) { r.site.coolant = celsius(nan); }) == "/site/coolant");
  CHECK(pointer_of([&](Recipe& r) { r.site.coolant = celsius(-1); }) == "/site/coolant");
  CHECK(pointer_of([&](Recipe& r) { r.site.coolant = celsius(61); }) == "/site/coolant");
  CHECK(pointer_of([&](Recipe& r) { r.own.bulk_density = grams_per_litre(0); }) ==
        "/own/bulk_density");
  CHECK(pointer_of([&](Recipe& r) { r.own.oil_content = percent(100); }) == "/own/oil_content");
  CHECK(pointer_of([&](Recipe& r) { r.own.distillate_rate = millilitres_per_minute(-1); }) ==
        "/own/distillate_rate");
  CHECK(pointer_of([&](Recipe& r) { r.own.boil_time = minutes(0); }) == "/own/boil_time");
  CHECK(pointer_of([&](Recipe& r) { r.own.boil_water = litres(nan); }) == "/own/boil_water");
}

TEST_CASE("a still made in code lacks nothing that a run needs", "[parameters]") {
  const auto pointer_of = [](const std::function<void(Still&)>& change) {
    Recipe r = recipe(herb(), column_still());
    change(r.still.change());
    return fault_of(r).pointer;
  };
  const auto unset = [](auto& figure) { figure = {}; };
  CHECK(pointer_of([](Still& s) { s.pot.material = "cardboard"; }) == "/still/pot/material");
  CHECK(pointer_of([](Still& s) { s.head.material = ""; }) == "/still/head/material");
  CHECK(pointer_of([](Still& s) { s.column->material = ""; }) == "/still/column/material");
  CHECK(pointer_of([](Still& s) { s.condenser.wall = "paper"; }) == "/still/condenser/wall");
  CHECK(pointer_of([&](Still& s) { unset(s.pot.volume); }) == "/still/pot/volume");
  CHECK(pointer_of([&](Still& s) { unset(s.pot.diameter); }) == "/still/pot/diameter");
  CHECK(pointer_of([&](Still& s) { unset(s.pot.fill_limit); }) == "/still/pot/fill_limit");
  CHECK(pointer_of([&](Still& s) { unset(s.column->volume); }) == "/still/column/volume");
  CHECK(pointer_of([&](Still& s) { unset(s.column->diameter); }) == "/still/column/diameter");
  CHECK(pointer_of([&](Still& s) { unset(s.heater.power); }) == "/still/heater/power");
  CHECK(pointer_of([&](Still& s) { unset(s.condenser.surface); }) == "/still/condenser/surface");
  CHECK(pointer_of([&](Still& s) { unset(s.condenser.outlet); }) == "/still/condenser/outlet");
  CHECK(pointer_of([](Still& s) { s.condenser.coolant_limit = exactly(celsius(100)); }) ==
        "/still/condenser/coolant_limit");
  CHECK(pointer_of([](Still& s) { s.pot.mass = exactly(kilograms(-1)); }) == "/still/pot/mass");
  // Low and high are swapped.
  CHECK(pointer_of([](Still& s) { s.pot.volume.range.low = litres(100); }) == "/still/pot/volume");

  // All missing figures are reported at once.
  Recipe r = recipe(herb(), column_still());
  r.still.change().pot = Pot{};
  try {
    parameters_of(r);
    FAIL("nothing was wrong");
  } catch (const InputError& error) {
    CHECK(error.faults().size() == 6);
  }
}

TEST_CASE("a plant made in code lacks nothing that a run needs", "[parameters]") {
  const auto pointer_of = [](const std::function<void(Plant&)>& change) {
    Recipe r = recipe(herb(), column_still());
    change(r.plant.change());
    return fault_of(r).pointer;
  };
  CHECK(pointer_of([](Plant& p) { p.oil_density = {}; }) == "/plant/oil_density");
  CHECK(pointer_of([](Plant& p) {
          p.constituents.push_back({"moonshine", {}});
        }) == "/plant/constituents/moonshine");
  const auto oil = [](Plant& p) -> OilContent& { return *p.states.at(State::fresh).oil_content; };
  CHECK(pointer_of([&](Plant& p) { oil(p).by_mass.reset(); }) ==
        "/plant/states/fresh/oil_content/figure");
  CHECK(pointer_of([&](Plant& p) { oil(p).by_mass->range.low = percent(-1); }) ==
        "/plant/states/fresh/oil_content/figure");
  CHECK(pointer_of([](Plant& p) { p.release[Method::steam].half_life = {}; }) ==
        "/plant/release/steam/half_life");
}
