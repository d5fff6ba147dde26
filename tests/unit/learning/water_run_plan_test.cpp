#include "learning/water_run_plan.hpp"

#include "catch.hpp"
#include "physics/water.hpp"
#include "test_tables.hpp"

using namespace firstdrop;

namespace {

WaterRunSetup setup_of(const Still& still) {
  WaterRunSetup setup{
      still,       still.methods.front(), site_water(standard_pressure(metres(0)), celsius(20)),
      celsius(20), celsius(20),           fraction(1),
      grams(0)};
  setup.fill = usual_water_run_fill(still, Units::metric) * liquid_density(celsius(20));
  return setup;
}

}  // namespace

TEST_CASE("a water run of each shipped still keeps its reserve at worst", "[learning]") {
  for (const auto& [key, still] : shipped_tables().stills) {
    CAPTURE(key);
    const auto planned =
        plan_water_run(setup_of(still), minutes(15), Units::metric, shipped_tables());
    REQUIRE(std::holds_alternative<WaterRunPlan>(planned));
    const WaterRunPlan& plan = std::get<WaterRunPlan>(planned);
    CHECK(plan.left_at_worst >= plan.reserve);
    CHECK(plan.reserve >= still->pot.minimum_water.typical() * (1 - 1e-12));
    CHECK(plan.boil.low < plan.boil.typical);
    CHECK(plan.boil.typical < plan.boil.high);
    CHECK(plan.first_drop.typical > plan.boil.typical);
    CHECK(plan.marks[0].level < plan.marks[1].level);
    CHECK(plan.marks[1].level < plan.marks[2].level);
    CHECK(plan.marks[2].at.typical > plan.marks[1].at.typical);
    CHECK(plan.marks[2].level <= plan.fill * (0.2 + 1e-9));
  }
}

// By hand, with the figures of the tables: fill 1198 g less 3 %, walls 60 g, reserve 399 g; most
// heat 80 % * 1.21 * 1 kW = 968 W, least loss 5.6 W/(m2 K) * 0.1742 m2 * 80 K = 78 W, so 23.7 g/min
// for 15 min and 3.5 min of stored heat: 438 g. 1162 - 60 - 399 - 438 = 265 g may be drawn, of
// which 240 mL / 0.95 are.
TEST_CASE("the worst case of a water run, worked by hand", "[learning]") {
  const Still& still = shipped_tables().stills.at("bench-column");
  const auto planned =
      plan_water_run(setup_of(still), minutes(15), Units::metric, shipped_tables());
  REQUIRE(std::holds_alternative<WaterRunPlan>(planned));
  const WaterRunPlan& plan = std::get<WaterRunPlan>(planned);
  CHECK_THAT(in_millilitres(plan.fill), WithinAbs(1200, 1e-6));
  CHECK_THAT(in_millilitres(plan.marks[2].level), WithinAbs(240, 1e-6));
  CHECK_FALSE(plan.drawn_less);
  CHECK_THAT(in_millilitres(plan.reserve), WithinAbs(400, 1e-6));
  CHECK_THAT(in_millilitres(plan.left_at_worst), WithinAbs(400 + 265 - 252, 3));
}

TEST_CASE("a person who may come later draws less, or can't do it", "[learning]") {
  const Still& still = shipped_tables().stills.at("bench-column");
  const auto later = plan_water_run(setup_of(still), minutes(18), Units::metric, shipped_tables());
  REQUIRE(std::holds_alternative<WaterRunPlan>(later));
  const WaterRunPlan& plan = std::get<WaterRunPlan>(later);
  CHECK(plan.drawn_less);
  CHECK(plan.marks[2].level < millilitres(240));
  CHECK(plan.left_at_worst >= plan.reserve);
  const auto much_later =
      plan_water_run(setup_of(still), minutes(40), Units::metric, shipped_tables());
  REQUIRE(std::holds_alternative<NoWaterRun>(much_later));
  CHECK(std::get<NoWaterRun>(much_later) == NoWaterRun::too_little);
}

TEST_CASE("a weak setting and an overfull pot have no water run", "[learning]") {
  WaterRunSetup weak = setup_of(shipped_tables().stills.at("bench-column"));
  weak.setting = percent(8);
  const auto no_drop = plan_water_run(weak, minutes(0), Units::metric, shipped_tables());
  REQUIRE(std::holds_alternative<NoWaterRun>(no_drop));
  CHECK(std::get<NoWaterRun>(no_drop) == NoWaterRun::too_weak);
  WaterRunSetup full = setup_of(shipped_tables().stills.at("bench-column"));
  full.fill = kilograms(2.5);
  const auto overfull = plan_water_run(full, minutes(0), Units::metric, shipped_tables());
  REQUIRE(std::holds_alternative<NoWaterRun>(overfull));
  CHECK(std::get<NoWaterRun>(overfull) == NoWaterRun::pot_overfull);
}
