// When a run ends: by volume, by the clock, by the oil gain, by the oil in the receiver.
#include "physics/stop.hpp"

#include <cmath>

#include "catch.hpp"

using namespace firstdrop;

namespace {

// A pot that boils after 80 s, with the first drop almost at once and 0.5 g/s of distillate. The
// oil is 1 g with a half-life of 10 min.
RunValues quick() {
  RunValues v;
  v.boiling = celsius(100);
  v.latent_heat = kilojoules_per_kilogram(2000);
  v.room = celsius(20);
  v.water_heat = kilojoules_per_kilogram_kelvin(4);
  v.first_fill = kilograms(20);
  v.heat_warming = kilowatts(80);
  v.heat_boiling = kilowatts(1);
  v.distillate_density = kilograms_per_cubic_metre(1000);
  v.oil_recoverable = grams(1);
  v.charge = kilograms(1);
  v.release = release_of_half_life(minutes(10), percent(0), percent(10));
  v.flow_effect.reference = Rate::from_si(1.0 / 3600);
  v.mixing = fraction(1);
  v.hydrosol_oil = milligrams_per_litre(0);
  v.column_capacity = joules_per_kelvin(1);
  return v;
}

}  // namespace

TEST_CASE("every rule has its name", "[stop]") {
  CHECK(to_string(StopRule::hydrosol) == "hydrosol");
  CHECK(to_string(StopRule::oil) == "oil");
  CHECK(to_string(StopRule::oil_share) == "oil_share");
  CHECK(to_string(StopRule::time) == "time");
  CHECK(to_string(StopRule::oil_left) == "oil_left");
  CHECK(to_string(StopRule::reserve) == "reserve");
  CHECK(to_string(StopRule::cooling) == "cooling");
}

TEST_CASE("level or clock, whichever comes first", "[stop]") {
  const Run run(quick());
  // 600 mL at 0.5 mL/s: 20 min after first drop.
  const Duration by_level = run.first_drop() + minutes(20);
  CHECK_THAT(in_seconds(stop_time(run, {millilitres(600), std::nullopt})),
             WithinRel(in_seconds(by_level), 1e-12));
  CHECK(stop_time(run, {std::nullopt, minutes(7)}) == minutes(7));
  CHECK(stop_time(run, {millilitres(600), minutes(7)}) == minutes(7));
  CHECK_THAT(in_seconds(stop_time(run, {millilitres(600), hours(3)})),
             WithinRel(in_seconds(by_level), 1e-12));
}

TEST_CASE("low gain is where a quarter hour brings just that", "[stop]") {
  const Run run(quick());
  // A quarter hour brings 2^(-t/10) (1 - 2^-1.5) of the oil. That is 2 % at
  // t = 10 log2((1 - 0.353553) / 0.02) = 50.14 min.
  const Duration low = time_of_low_gain(run, percent(2));
  CHECK_THAT(in_minutes(low - run.first_drop()),
             WithinRel(10 * std::log2((1 - std::exp2(-1.5)) / 0.02), 1e-6));
  // A smaller gain takes longer.
  CHECK(time_of_low_gain(run, percent(1)) > low);
  CHECK(time_of_low_gain(run, percent(5)) < low);
  // For a gain above that of the first quarter hour, the time is first drop.
  CHECK(time_of_low_gain(run, percent(90)) == run.first_drop());
}

TEST_CASE("the receiver holds most oil when the hydrosol takes as much as comes", "[stop]") {
  RunValues v = quick();
  v.hydrosol_oil = milligrams_per_litre(500);
  const Run run(v);
  // dR/dt = ln 2 / 10 x 2^(-t/10) g/min against 30 mL/min x 0.5 mg/mL = 0.015 g/min:
  // t = 10 log2(0.0693147 / 0.015) = 22.08 min.
  const double expected = 10 * std::log2(std::log(2.0) / 10 / 0.015);
  CHECK_THAT(in_minutes(time_of_most_oil(run) - run.first_drop()), WithinRel(expected, 1e-9));
}

TEST_CASE("most oil is found also where the hydrosol takes it all back later", "[stop]") {
  RunValues v = quick();
  v.hydrosol_oil = milligrams_per_litre(2000);
  const Run run(v);
  // 0.06 g/min against 0.0693 at first: t = 10 log2(0.0693147 / 0.06) = 2.08 min. By 5 min all
  // separated oil is dissolved again.
  const Duration most = time_of_most_oil(run);
  CHECK_THAT(in_minutes(most - run.first_drop()),
             WithinRel(10 * std::log2(std::log(2.0) / 10 / 0.06), 1e-9));
  CHECK(run.oil_in_receiver_at(most) > grams(0.009));
  const auto reached = time_of_oil(run, grams(0.005));
  REQUIRE(reached);
  CHECK(*reached < most);
}

TEST_CASE("oil that steam brings faster than water can hold it", "[stop]") {
  RunValues v = quick();
  v.hydrosol_oil = milligrams_per_litre(500);
  const Run run(v);
  const Mass most = run.oil_in_receiver_at(time_of_most_oil(run));
  const auto reached = time_of_oil(run, most * 0.5);
  REQUIRE(reached);
  CHECK_THAT(in_grams(run.oil_in_receiver_at(*reached)), WithinRel(in_grams(most) * 0.5, 1e-6));
  CHECK(*reached < time_of_most_oil(run));
  CHECK_FALSE(time_of_oil(run, most * 1.01));
}

TEST_CASE("the oil left falls to an allowance that grows with time", "[stop]") {
  const Run run(quick());
  // 2^(-t/10) against 0.01 t: 0.2214 against 0.2175 at 21.75 min, 0.2176 against 0.22 at 22.
  const Duration end = time_of_balance(run, Rate::from_si(0.01 / 60));
  const double t = in_minutes(end - run.first_drop());
  CHECK_THAT(std::exp2(-t / 10), WithinRel(0.01 * t, 1e-9));
  // A larger allowance ends the run sooner. Without recoverable oil, the end is the same.
  CHECK(time_of_balance(run, Rate::from_si(0.02 / 60)) < end);
  RunValues v = quick();
  v.oil_recoverable = grams(0);
  CHECK(time_of_balance(Run(v), Rate::from_si(0.01 / 60)) == end);
}

TEST_CASE("a hydrosol that holds everything leaves none", "[stop]") {
  RunValues v = quick();
  v.hydrosol_oil = grams_per_litre(100);
  const Run run(v);
  CHECK_FALSE(time_of_oil(run, grams(0.001)));
}
