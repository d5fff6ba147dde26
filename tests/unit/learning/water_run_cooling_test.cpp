#include "learning/water_run_cooling.hpp"

#include "catch.hpp"
#include "learning/water_run_plan.hpp"
#include "physics/water.hpp"
#include "test_tables.hpp"

using namespace firstdrop;

namespace {

WaterRunSetup setup_of(const char* still, Temperature coolant) {
  WaterRunSetup setup;
  setup.still = shipped_tables().stills.at(still);
  setup.method = setup.still.methods.front();
  setup.water = site_water(standard_pressure(metres(0)), celsius(20));
  setup.poured = celsius(20);
  setup.coolant = coolant;
  setup.fill = usual_water_run_fill(setup.still, Units::metric) * liquid_density(celsius(20));
  return setup;
}

std::optional<WaterRunCooling> cooling(const WaterRunSetup& setup, double grams_per_minute,
                                       double millilitres_of_distillate) {
  return water_run_cooling(setup, MassFlow::from_si(grams_per_minute / 60e3), fraction(0),
                           grams(millilitres_of_distillate), minutes(15), shipped_tables());
}

}  // namespace

// By hand: steam gives 2256.5 kJ/kg and 4.19 kJ/(kg K) from 100 to 20 °C, 2592 kJ/kg together. The
// tap's water takes 4.18 kJ/(kg K) over 15 K: 0.02 kg/min of steam need 0.83 L/min.
TEST_CASE("the tap of a water run, worked by hand", "[learning]") {
  const auto tap = cooling(setup_of("glass-bench", celsius(20)), 20, 200);
  REQUIRE(tap);
  REQUIRE(tap->flow);
  CHECK_THAT(in_litres_per_minute(*tap->flow), WithinAbs(0.828, 0.005));
  CHECK(tap->ice == grams(0));
  // More than the tap gives, and coolant as warm as its limit.
  CHECK_FALSE(cooling(setup_of("glass-bench", celsius(20)), 2000, 200));
  CHECK_FALSE(cooling(setup_of("glass-bench", celsius(35)), 20, 200));
}

// By hand: 20 L take 20 * 4.18 * 15 = 1254 kJ from 20 to 35 °C, which 484 g of steam give.
TEST_CASE("a bucket without ice ends the run at its limit", "[learning]") {
  WaterRunSetup setup = setup_of("bench-column", celsius(20));
  REQUIRE(in_litres(setup.still.condenser.coolant->typical()) == 20);
  CHECK(cooling(setup, 20, 510)->ice > kilograms(1));
  setup.still.condenser.ice_per_change->range = Range<Mass>::exactly(grams(0));
  const auto short_run = cooling(setup, 20, 460);
  REQUIRE(short_run);
  CHECK_FALSE(short_run->flow);
  CHECK(short_run->ice == grams(0));
  CHECK_FALSE(cooling(setup, 20, 510));
  setup.coolant = celsius(10);
  CHECK(cooling(setup, 20, 510));
}

TEST_CASE("a bath gets ice at the start, and more if its limit is reached", "[learning]") {
  const WaterRunSetup setup = setup_of("bench-basket", celsius(20));
  const Mass piece = setup.still.condenser.ice_per_change->typical();
  const auto short_run = cooling(setup, 15, 100);
  REQUIRE(short_run);
  CHECK(short_run->ice == piece);
  CHECK(short_run->ice_at_once == piece);
  const auto long_run = cooling(setup, 15, 600);
  REQUIRE(long_run);
  CHECK(long_run->ice > piece);
}
