// The differential equation in closed form: hand-worked values, limits, inverses and energy
// balance.
#include <cmath>

#include "catch.hpp"
#include "physics/heat_balance.hpp"

using namespace firstdrop;

namespace {

HeatedBody body(double capacity, double loss, double heat) {
  return {joules_per_kelvin(capacity), watts_per_kelvin(loss), celsius(20), watts(heat)};
}

}  // namespace

TEST_CASE("without loss a body warms in a straight line", "[heated_body]") {
  // 6000 J/K x 80 K / 500 W = 960 s.
  const auto time = time_to_reach(body(6000, 0, 500), celsius(20), celsius(100));
  REQUIRE(time);
  CHECK_THAT(in_seconds(*time), WithinRel(960.0, 1e-12));
  CHECK_THAT(in_celsius(temperature_after(body(6000, 0, 500), celsius(20), seconds(480))),
             WithinAbs(60.0, 1e-9));
  CHECK(heat_lost(body(6000, 0, 500), celsius(20), seconds(480)).si() == 0.0);
}

TEST_CASE("with loss it follows the exponential", "[heated_body]") {
  // End temperature 20 + 500/2 = 270 degC, time constant 3000 s:
  // t = -3000 ln(1 - 80/250) = 1156.99 s.
  const HeatedBody pot = body(6000, 2, 500);
  const auto time = time_to_reach(pot, celsius(20), celsius(100));
  REQUIRE(time);
  CHECK_THAT(in_seconds(*time), WithinRel(-3000.0 * std::log(0.68), 1e-12));
  CHECK_THAT(in_seconds(*time), WithinAbs(1156.99, 0.01));
  CHECK_THAT(in_celsius(temperature_after(pot, celsius(20), seconds(3000))),
             WithinAbs(20 + 250 * (1 - std::exp(-1.0)), 1e-9));
  CHECK_THAT(in_celsius(temperature_after(pot, celsius(20), hours(100))), WithinAbs(270.0, 1e-9));
}

TEST_CASE("the limit of no loss is smooth", "[heated_body]") {
  const double none = in_seconds(*time_to_reach(body(6000, 0, 500), celsius(20), celsius(100)));
  double last = none;
  for (const double loss : {1e-15, 1e-12, 1e-9, 1e-6, 1e-3, 1.0}) {
    CAPTURE(loss);
    const double time =
        in_seconds(*time_to_reach(body(6000, loss, 500), celsius(20), celsius(100)));
    CHECK(time >= last * (1 - 1e-13));
    // To first order, the mean loss is half of UA x 80 K. Its relative effect is 40 UA / 500.
    CHECK_THAT(time / none - 1, WithinAbs(40 * loss / 500, 1e-13 + 0.2 * loss));
    last = time;
    const double after =
        in_celsius(temperature_after(body(6000, loss, 500), celsius(20), seconds(960)));
    CHECK_THAT(after, WithinAbs(100.0 - 80.0 * 40 * loss / 500, 1e-9 + loss));
    const double lost = heat_lost(body(6000, loss, 500), celsius(20), seconds(960)).si();
    // Mean excess 40 K over 960 s.
    CHECK_THAT(lost, WithinAbs(loss * 40 * 960, 1e-6 + 0.1 * loss * 40 * 960));
  }
}

TEST_CASE("a body that levels off short never arrives", "[heated_body]") {
  // 100 W / 2 W/K: it levels off at 70 degC.
  CHECK_FALSE(time_to_reach(body(6000, 2, 100), celsius(20), celsius(100)));
  CHECK_FALSE(time_to_reach(body(6000, 2, 100), celsius(20), celsius(70)));
  CHECK(time_to_reach(body(6000, 2, 100), celsius(20), celsius(69.999)));
  CHECK_FALSE(time_to_reach(body(6000, 2, 0), celsius(20), celsius(100)));
  CHECK_FALSE(time_to_reach(body(6000, 0, 0), celsius(20), celsius(100)));
  // Already there.
  CHECK(*time_to_reach(body(6000, 2, 0), celsius(20), celsius(20)) == seconds(0));
  // The wrong way.
  CHECK_FALSE(time_to_reach(body(6000, 2, 500), celsius(50), celsius(30)));
}

TEST_CASE("a body without heat cools", "[heated_body]") {
  // From 100 to 60 degC in a room at 20 degC the excess halves: 3000 s x ln 2.
  const auto time = time_to_reach(body(6000, 2, 0), celsius(100), celsius(60));
  REQUIRE(time);
  CHECK_THAT(in_seconds(*time), WithinRel(3000 * std::log(2.0), 1e-12));
  CHECK_FALSE(time_to_reach(body(6000, 2, 0), celsius(100), celsius(20)));
  CHECK_FALSE(time_to_reach(body(6000, 2, 0), celsius(100), celsius(10)));
}

TEST_CASE("a body colder than the room gains", "[heated_body]") {
  const HeatedBody bath = body(20000, 3, 0);
  CHECK(heat_lost(bath, celsius(0), minutes(30)).si() < 0.0);
  CHECK(temperature_after(bath, celsius(0), minutes(30)) > celsius(0));
  CHECK(temperature_after(bath, celsius(0), hours(1000)) <= celsius(20));
}

TEST_CASE("heat put in is heat stored plus heat lost", "[heated_body]") {
  for (const double loss : {0.0, 1e-13, 0.5, 5.0}) {
    for (const double minutes_on : {0.0, 0.1, 10.0, 1000.0}) {
      const HeatedBody b = body(5000, loss, 400);
      const Duration after = minutes(minutes_on);
      const Energy stored = b.capacity * (temperature_after(b, celsius(35), after) - celsius(35));
      const Energy lost = heat_lost(b, celsius(35), after);
      const double put_in = (b.heat * after).si();
      CHECK_THAT((stored + lost).si(), WithinAbs(put_in, 1e-9 * put_in + 1e-6));
    }
  }
}

TEST_CASE("a measured time gives back the heat that made it", "[heated_body]") {
  for (const double loss : {0.0, 1e-14, 0.3, 2.0}) {
    for (const double heat : {200.0, 740.0, 2000.0}) {
      CAPTURE(loss, heat);
      const HeatedBody b = body(7000, loss, heat);
      const auto time = time_to_reach(b, celsius(25), celsius(99));
      REQUIRE(time);
      CHECK_THAT(in_watts(heat_for_time(b, celsius(25), celsius(99), *time)),
                 WithinRel(heat, 1e-9));
      CHECK_THAT(in_celsius(temperature_after(b, celsius(25), *time)), WithinAbs(99.0, 1e-8));
    }
  }
}
