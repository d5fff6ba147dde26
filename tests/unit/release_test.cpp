// Oil against time, the steam bound and the split in the receiver. The bound is checked with
// liquids made up here; real pairs are in tests/reference/codistillation_test.cpp.
#include "firstdrop/release.hpp"

#include <cmath>

#include "catch.hpp"
#include "firstdrop/error.hpp"
#include "firstdrop/water.hpp"

using namespace firstdrop;

namespace {

/// A liquid of 150 g/mol whose vapour pressure at 100 degC is `at_100` Pa, falling by e over 20 K
/// or so: ln P = ln(at_100) + 7000 (1/373.15 - 1/T).
Liquid made_up(double at_100, double from_c = 20, double to_c = 150) {
  Liquid liquid;
  liquid.key = "made-up";
  liquid.molar_mass.range = Range<MolarMass>::exactly(grams_per_mole(150));
  liquid.vapour_pressure = {std::log(at_100) + 7000 / 373.15,
                            kelvins(7000),
                            kelvins(0),
                            celsius(from_c),
                            celsius(to_c),
                            {}};
  return liquid;
}

}  // namespace

TEST_CASE("release starts at the washed share and halves what is left", "[release]") {
  const Release r{percent(20), rate_of_half_time(minutes(10))};
  CHECK_THAT(in_per_minute(r.rate), WithinRel(std::log(2.0) / 10, 1e-12));
  CHECK_THAT(in_percent(released(r, minutes(0))), WithinRel(20.0, 1e-12));
  // Half of the other 80 % after 10 min, three quarters after 20.
  CHECK_THAT(in_percent(released(r, minutes(10))), WithinRel(60.0, 1e-12));
  CHECK_THAT(in_percent(released(r, minutes(20))), WithinRel(80.0, 1e-12));
  CHECK_THAT(in_percent(released(r, hours(100))), WithinRel(100.0, 1e-12));
}

TEST_CASE("time to release is the inverse of release", "[release]") {
  for (const double washed : {0.0, 0.1, 0.5}) {
    const Release r{fraction(washed), rate_of_half_time(minutes(17))};
    for (const double share : {0.0, 0.05, 0.1, 0.49, 0.75, 0.99, 0.9999}) {
      CAPTURE(washed, share);
      const Duration time = time_to_release(r, fraction(share));
      if (share <= washed) {
        CHECK(time == seconds(0));
      } else {
        CHECK_THAT(released(r, time).si(), WithinRel(share, 1e-12));
      }
    }
  }
}

TEST_CASE("steam that is full of oil holds it back", "[release]") {
  const Release r{percent(0), rate_of_half_time(minutes(10))};
  const MassFlow bound = grams(1) / minutes(10);  // 0.1 g/min
  // The plant would give 5 of 10 g in 10 min, steam carries 1.
  CHECK_THAT(in_grams(oil_vaporised(grams(10), r, std::nullopt, minutes(10))),
             WithinRel(5.0, 1e-12));
  CHECK_THAT(in_grams(oil_vaporised(grams(10), r, bound, minutes(10))), WithinRel(1.0, 1e-12));
  // Far out the plant is the limit again.
  CHECK_THAT(in_grams(oil_vaporised(grams(10), r, bound, minutes(1000))), WithinRel(10.0, 1e-12));
  // Half of 10 g: 10 min by the plant, 50 by the steam.
  CHECK_THAT(in_minutes(time_to_vaporise(grams(10), r, std::nullopt, percent(50))),
             WithinRel(10.0, 1e-12));
  CHECK_THAT(in_minutes(time_to_vaporise(grams(10), r, bound, percent(50))),
             WithinRel(50.0, 1e-12));
  // Of 0.1 g steam takes half in 0.5 min: the plant is slower.
  CHECK_THAT(in_minutes(time_to_vaporise(grams(0.1), r, bound, percent(50))),
             WithinRel(10.0, 1e-12));
  CHECK(oil_vaporised(grams(10), r, bound, minutes(0)) == grams(0));
}

TEST_CASE("what is washed off at once waits for steam too", "[release]") {
  const Release r{percent(50), rate_of_half_time(minutes(10))};
  CHECK_THAT(in_grams(oil_vaporised(grams(10), r, std::nullopt, minutes(0))),
             WithinRel(5.0, 1e-12));
  CHECK(oil_vaporised(grams(10), r, grams(1) / minutes(10), minutes(0)) == grams(0));
}

TEST_CASE("hydrosol takes its share first", "[release]") {
  const Density solubility = milligrams_per_litre(500);
  CHECK_THAT(in_grams(oil_dissolved(grams(2), solubility, litres(1))), WithinRel(0.5, 1e-12));
  // Not more than there is.
  CHECK_THAT(in_grams(oil_dissolved(grams(0.3), solubility, litres(1))), WithinRel(0.3, 1e-12));
  CHECK(oil_dissolved(grams(0), solubility, litres(1)) == grams(0));
  CHECK(oil_dissolved(grams(2), solubility, litres(0)) == grams(0));
}

TEST_CASE("two liquids boil where their pressures add up", "[release]") {
  const Liquid oil = made_up(5000);
  const Pressure ambient = kilopascals(101.325);
  const auto bound = steam_bound(ambient, {{&oil, fraction(1)}});
  REQUIRE(bound);
  const Pressure of_water = saturation_pressure(bound->boiling);
  const Pressure of_oil = vapour_pressure(oil, bound->boiling);
  CHECK_THAT((of_water + of_oil).si(), WithinRel(101325.0, 1e-10));
  CHECK(bound->boiling < saturation_temperature(ambient));
  // By mass: (P_oil x 150) / (P_water x 18.015268).
  CHECK_THAT(bound->oil_per_steam.si(),
             WithinRel(of_oil.si() * 150 / (of_water.si() * 18.015268), 1e-10));
  CHECK(bound->share_covered == fraction(1));
}

TEST_CASE("an oil without vapour pressure leaves water alone", "[release]") {
  const Liquid oil = made_up(1e-6);
  const auto bound = steam_bound(kilopascals(101.325), {{&oil, fraction(1)}});
  REQUIRE(bound);
  CHECK_THAT(bound->boiling.kelvin(),
             WithinAbs(saturation_temperature(kilopascals(101.325)).kelvin(), 1e-6));
  CHECK(bound->oil_per_steam.si() < 1e-9);
}

TEST_CASE("parts that leave a rest are scaled up", "[release]") {
  const Liquid oil = made_up(5000);
  const auto whole = steam_bound(kilopascals(101.325), {{&oil, fraction(1)}});
  const auto part = steam_bound(kilopascals(101.325), {{&oil, percent(40)}});
  REQUIRE(whole);
  REQUIRE(part);
  CHECK_THAT(part->oil_per_steam.si(), WithinRel(whole->oil_per_steam.si(), 1e-12));
  CHECK_THAT(in_percent(part->share_covered), WithinRel(40.0, 1e-12));
  // Twice the same liquid is that liquid.
  const auto twice = steam_bound(kilopascals(101.325), {{&oil, percent(30)}, {&oil, percent(70)}});
  CHECK_THAT(twice->oil_per_steam.si(), WithinRel(whole->oil_per_steam.si(), 1e-12));
}

TEST_CASE("a mixture lies between its parts", "[release]") {
  const Liquid light = made_up(20000);
  const Liquid heavy = made_up(500);
  const auto ratio = [&](double share) {
    return steam_bound(kilopascals(101.325),
                       {{&light, fraction(share)}, {&heavy, fraction(1 - share)}})
        ->oil_per_steam.si();
  };
  double last = ratio(0);
  for (double share = 0.1; share < 1.05; share += 0.1) {
    CHECK(ratio(share) > last);
    last = ratio(share);
  }
}

TEST_CASE("nothing is said of what boils below 1 °C", "[release]") {
  // Its equation holds down there, but no still runs there: once it was looked at for ever.
  const Liquid ether = made_up(5e8, -50);
  CHECK_FALSE(steam_bound(kilopascals(101.325), {{&ether, fraction(1)}}));
  const Liquid oil = made_up(5000, -50);
  CHECK_FALSE(steam_bound(pascals(620), {{&oil, fraction(1)}}));
  CHECK(steam_bound(pascals(700), {{&oil, fraction(1)}}));
}

TEST_CASE("fits that do not reach are left out, never stretched", "[release]") {
  const Pressure ambient = kilopascals(101.325);
  const Liquid good = made_up(5000);
  const Liquid too_cold = made_up(5000, 20, 90);    // ends below the boiling point of water
  const Liquid too_hot = made_up(5000, 99.5, 200);  // starts above the common boiling point
  CHECK_FALSE(steam_bound(ambient, {}));
  CHECK_FALSE(steam_bound(ambient, {{&too_cold, fraction(1)}}));
  CHECK_FALSE(steam_bound(ambient, {{&too_hot, fraction(1)}}));
  const auto alone = steam_bound(ambient, {{&good, percent(60)}});
  for (const Liquid* other : {&too_cold, &too_hot}) {
    const auto bound = steam_bound(ambient, {{&good, percent(60)}, {other, percent(40)}});
    REQUIRE(bound);
    CHECK_THAT(in_percent(bound->share_covered), WithinRel(60.0, 1e-12));
    CHECK_THAT(bound->oil_per_steam.si(), WithinRel(alone->oil_per_steam.si(), 1e-12));
  }
}

TEST_CASE("less air boils oil and water cooler", "[release]") {
  const Liquid oil = made_up(5000);
  double last = 0;
  for (double kpa = 60; kpa <= 105; kpa += 5) {
    const auto bound = steam_bound(kilopascals(kpa), {{&oil, fraction(1)}});
    REQUIRE(bound);
    CHECK(bound->boiling.kelvin() > last);
    last = bound->boiling.kelvin();
  }
}

TEST_CASE("pressures that water.hpp does not reach are refused", "[release]") {
  const Liquid oil = made_up(5000);
  CHECK_THROWS_AS(steam_bound(pascals(100), {{&oil, fraction(1)}}), RangeError);
}
