// Oil over time, and the co-distillation limit. The limit is checked with liquids made up here;
// real pairs are in tests/reference/codistillation_test.cpp.
#include "physics/release.hpp"

#include <cmath>
#include <limits>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "physics/water.hpp"

using namespace firstdrop;

namespace {

/// A liquid of 150 g/mol with a vapour pressure of `at_100` Pa at 100 degC. It falls by a factor of
/// e over about 20 K: ln P = ln(at_100) + 7000 (1/373.15 - 1/T).
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

TEST_CASE("without a fast stage release is first order", "[release]") {
  const Release r = release_of_half_life(minutes(10), percent(0), percent(10));
  CHECK_THAT(in_per_minute(r.slow_rate), WithinRel(std::log(2.0) / 10, 1e-12));
  CHECK(released(r, minutes(0)) == fraction(0));
  CHECK_THAT(in_percent(released(r, minutes(10))), WithinRel(50.0, 1e-12));
  CHECK_THAT(in_percent(released(r, minutes(20))), WithinRel(75.0, 1e-12));
  CHECK_THAT(in_percent(released(r, hours(100))), WithinRel(100.0, 1e-12));
}

TEST_CASE("half of the oil is over after the half-life, in any two stages", "[release]") {
  for (const double fast : {0.0, 0.2, 0.5, 0.75, 1.0}) {
    for (const double slow : {0.01, 0.1, 0.5, 1.0}) {
      CAPTURE(fast, slow);
      const Release r = release_of_half_life(minutes(17), fraction(fast), fraction(slow));
      CHECK_THAT(in_percent(released(r, minutes(17))), WithinRel(50.0, 1e-12));
      CHECK_THAT(double(r.slow_rate / r.fast_rate), WithinRel(slow, 1e-12));
    }
  }
}

TEST_CASE("two stages: worked by hand", "[release]") {
  // 60 % at 0.1 1/min and 40 % at 0.01 1/min: 1 - 0.6 e^-2 - 0.4 e^-0.2 is released after 20 min.
  const Release r{percent(60), Rate::from_si(0.1 / 60), Rate::from_si(0.01 / 60)};
  CHECK_THAT(released(r, minutes(20)).si(),
             WithinRel(1 - 0.6 * std::exp(-2.0) - 0.4 * std::exp(-0.2), 1e-12));
  // 10 min at the full rate and 20 min at half of it equal 20 min at the full rate.
  ReleaseProgress progress = progress_after(r, minutes(10));
  progress.fast += 0.05 * 20;
  progress.slow += 0.005 * 20;
  CHECK_THAT(released(r, progress).si(), WithinRel(released(r, minutes(20)).si(), 1e-12));
}

TEST_CASE("time to release is the inverse of release", "[release]") {
  for (const double fast : {0.0, 0.1, 0.5, 0.9, 1.0}) {
    for (const double slow : {0.001, 0.05, 0.3, 1.0}) {
      const Release r = release_of_half_life(minutes(17), fraction(fast), fraction(slow));
      CHECK(time_to_release(r, fraction(0)) == seconds(0));
      for (const double share : {1e-9, 0.05, 0.49, 0.75, 0.99, 0.9999}) {
        CAPTURE(fast, slow, share);
        const Duration time = time_to_release(r, fraction(share));
        CHECK_THAT(released(r, time).si(), WithinAbs(share, 1e-13));
      }
    }
  }
}

TEST_CASE("each plant of a blend lets its oil go at its own pace", "[release][blend]") {
  // 70 % of the oil at this release, 30 % of it twice as fast.
  const std::vector<BlendPace> plants = {{percent(70), 1.0}, {percent(30), 2.0}};
  const Release one = release_of_half_life(minutes(12), percent(60), percent(10));
  Release blend = one;
  blend.blend = &plants;
  const Release twice = release_of_half_life(minutes(6), percent(60), percent(10));
  for (const double t : {0.5, 5.0, 12.0, 60.0, 300.0}) {
    CAPTURE(t);
    const double expected = 0.7 * released(one, minutes(t)) + 0.3 * released(twice, minutes(t));
    CHECK_THAT(released(blend, minutes(t)).si(), WithinRel(expected, 1e-12));
    CHECK_THAT(in_minutes(time_to_release(blend, released(blend, minutes(t)))), WithinRel(t, 1e-9));
    const Mass oil = grams(10);
    const Mass more = oil * (released(blend, minutes(t + 15)) - released(blend, minutes(t)));
    CHECK_THAT(in_minutes(time_of_gain(oil, blend, minutes(15), more)), WithinRel(t, 1e-9));
    // The rate at that time, as a difference quotient.
    const Duration step = seconds(0.01);
    const MassFlow rate =
        oil * (released(blend, minutes(t) + step) - released(blend, minutes(t) - step)) /
        (step * 2.0);
    CHECK_THAT(in_minutes(time_of_rate(oil, blend, rate)), WithinRel(t, 1e-4));
  }
  const MassFlow bound = grams(10) * 0.02 / minutes(1);
  const Duration until = held_back_until(grams(10), blend, bound);
  CHECK_THAT(released(blend, until).si(), WithinRel(0.02 * in_minutes(until), 1e-10));
  // The flow of steam changes the pace of all alike.
  const FlowEffect effect{fraction(0.7), fraction(0.1), Rate::from_si(1.0 / 3600)};
  const Rate flow = Rate::from_si(3.0 / 3600);
  const double expected = 0.7 * released(at_flow(one, effect, flow), minutes(9)) +
                          0.3 * released(at_flow(twice, effect, flow), minutes(9));
  CHECK_THAT(released(at_flow(blend, effect, flow), minutes(9)).si(), WithinRel(expected, 1e-12));
}

TEST_CASE("more steam per charge hurries the oil, up to the pace of the plant", "[release]") {
  const Release at_reference = release_of_half_life(minutes(10), percent(60), percent(10));
  const Rate reference = Rate::from_si(1.0 / 3600);
  // B = 0.7 at 1 kg/(kg h). The rate is 1.7 / 1.35 times as high at twice the flow, 1.7 / 2.4 times
  // at half the flow, and 1.7 times at an infinite flow.
  const FlowEffect effect{fraction(0.7), fraction(0), reference};
  const auto times = [&](double flow) {
    const Release r = at_flow(at_reference, effect, reference * flow);
    CHECK(r.slow_rate == at_reference.slow_rate);
    CHECK(r.fast == at_reference.fast);
    return double(r.fast_rate / at_reference.fast_rate);
  };
  CHECK_THAT(times(1), WithinRel(1.0, 1e-12));
  CHECK_THAT(times(2), WithinRel(1.7 / 1.35, 1e-12));
  CHECK_THAT(times(0.5), WithinRel(1.7 / 2.4, 1e-12));
  CHECK_THAT(times(1e12), WithinRel(1.7, 1e-9));
  CHECK_THAT(times(std::numeric_limits<double>::infinity()), WithinRel(1.7, 1e-12));
  // If the steam has no resistance (B = 0), its flow has no effect.
  const Release same = at_flow(at_reference, {fraction(0), fraction(0), reference}, reference * 9);
  CHECK(same.fast_rate == at_reference.fast_rate);
}

TEST_CASE("steam that is full of oil holds it back", "[release]") {
  const Release r = release_of_half_life(minutes(10), percent(0), percent(10));
  const MassFlow bound = grams(1) / minutes(10);  // 0.1 g/min
  // The plant would release 5 of 10 g in 10 min, but steam carries only 1 g.
  CHECK_THAT(in_grams(oil_vaporised(grams(10), r, std::nullopt, minutes(10))),
             WithinRel(5.0, 1e-12));
  CHECK_THAT(in_grams(oil_vaporised(grams(10), r, bound, minutes(10))), WithinRel(1.0, 1e-12));
  // Much later the plant is the limit again.
  CHECK_THAT(in_grams(oil_vaporised(grams(10), r, bound, minutes(1000))), WithinRel(10.0, 1e-12));
  // Half of 10 g takes the plant 10 min and the steam 50 min.
  CHECK_THAT(in_minutes(time_to_vaporise(grams(10), r, std::nullopt, percent(50))),
             WithinRel(10.0, 1e-12));
  CHECK_THAT(in_minutes(time_to_vaporise(grams(10), r, bound, percent(50))),
             WithinRel(50.0, 1e-12));
  // Steam could carry half of 0.1 g in 0.5 min, so the plant is the limit.
  CHECK_THAT(in_minutes(time_to_vaporise(grams(0.1), r, bound, percent(50))),
             WithinRel(10.0, 1e-12));
  CHECK(oil_vaporised(grams(10), r, bound, minutes(0)) == grams(0));
}

TEST_CASE("steam holds the oil back until the plant has given no more than it could carry",
          "[release]") {
  for (const double fast : {0.0, 0.5, 0.95}) {
    const Release r = release_of_half_life(minutes(10), fraction(fast), percent(5));
    for (const double share_per_minute : {0.001, 0.02, 0.05}) {
      CAPTURE(fast, share_per_minute);
      const MassFlow bound = grams(10) * share_per_minute / minutes(1);
      const Duration until = held_back_until(grams(10), r, bound);
      REQUIRE(until > seconds(1));
      CHECK_THAT(released(r, until).si(), WithinRel(share_per_minute * in_minutes(until), 1e-10));
    }
    // Steam that can carry all the oil in a second never holds it back.
    CHECK(held_back_until(grams(10), r, grams(10) / seconds(1)) == seconds(0));
  }
}

TEST_CASE("the times at which the oil has slowed down", "[release]") {
  const Release r{percent(60), Rate::from_si(0.1 / 60), Rate::from_si(0.01 / 60)};
  const Mass oil = grams(10);
  const auto in_step = [&](Duration t, Duration step) {
    return oil * released(r, t + step) - oil * released(r, t);
  };
  const Duration gain = time_of_gain(oil, r, minutes(15), grams(0.3));
  CHECK_THAT(in_grams(in_step(gain, minutes(15))), WithinRel(0.3, 1e-9));
  CHECK(time_of_gain(oil, r, minutes(15), grams(9)) == seconds(0));
  // 10 g (0.6 x 0.1 e^(-0.1 t) + 0.4 x 0.01 e^(-0.01 t)) per minute, which is 0.64 at first.
  const Duration slowed = time_of_rate(oil, r, grams(0.05) / minutes(1));
  const double t = in_minutes(slowed);
  CHECK_THAT(10 * (0.06 * std::exp(-0.1 * t) + 0.004 * std::exp(-0.01 * t)),
             WithinRel(0.05, 1e-10));
  CHECK(time_of_rate(oil, r, grams(0.64) / minutes(1)) == seconds(0));
}

TEST_CASE("two liquids boil where their pressures add up", "[release]") {
  const Liquid oil = made_up(5000);
  const Pressure ambient = kilopascals(101.325);
  const auto bound = codistillation_limit(ambient, {{&oil, fraction(1)}});
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
  const auto bound = codistillation_limit(kilopascals(101.325), {{&oil, fraction(1)}});
  REQUIRE(bound);
  CHECK_THAT(bound->boiling.kelvin(),
             WithinAbs(saturation_temperature(kilopascals(101.325)).kelvin(), 1e-6));
  CHECK(bound->oil_per_steam.si() < 1e-9);
}

TEST_CASE("parts that leave a rest are scaled up", "[release]") {
  const Liquid oil = made_up(5000);
  const auto whole = codistillation_limit(kilopascals(101.325), {{&oil, fraction(1)}});
  const auto part = codistillation_limit(kilopascals(101.325), {{&oil, percent(40)}});
  REQUIRE(whole);
  REQUIRE(part);
  CHECK_THAT(part->oil_per_steam.si(), WithinRel(whole->oil_per_steam.si(), 1e-12));
  CHECK_THAT(in_percent(part->share_covered), WithinRel(40.0, 1e-12));
  // Listing the same liquid twice makes no difference.
  const auto twice =
      codistillation_limit(kilopascals(101.325), {{&oil, percent(30)}, {&oil, percent(70)}});
  CHECK_THAT(twice->oil_per_steam.si(), WithinRel(whole->oil_per_steam.si(), 1e-12));
}

TEST_CASE("a mixture lies between its parts", "[release]") {
  const Liquid light = made_up(20000);
  const Liquid heavy = made_up(500);
  const auto ratio = [&](double share) {
    return codistillation_limit(kilopascals(101.325),
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
  // The equation holds below 1 °C, but no still runs there. An earlier version never returned here.
  const Liquid ether = made_up(5e8, -50);
  CHECK_FALSE(codistillation_limit(kilopascals(101.325), {{&ether, fraction(1)}}));
  const Liquid oil = made_up(5000, -50);
  CHECK_FALSE(codistillation_limit(pascals(620), {{&oil, fraction(1)}}));
  CHECK(codistillation_limit(pascals(700), {{&oil, fraction(1)}}));
}

TEST_CASE("fits that do not reach are left out, never stretched", "[release]") {
  const Pressure ambient = kilopascals(101.325);
  const Liquid good = made_up(5000);
  const Liquid too_cold = made_up(5000, 20, 90);    // ends below the boiling point of water
  const Liquid too_hot = made_up(5000, 99.5, 200);  // starts above the common boiling point
  CHECK_FALSE(codistillation_limit(ambient, {}));
  CHECK_FALSE(codistillation_limit(ambient, {{&too_cold, fraction(1)}}));
  CHECK_FALSE(codistillation_limit(ambient, {{&too_hot, fraction(1)}}));
  const auto alone = codistillation_limit(ambient, {{&good, percent(60)}});
  for (const Liquid* other : {&too_cold, &too_hot}) {
    const auto bound = codistillation_limit(ambient, {{&good, percent(60)}, {other, percent(40)}});
    REQUIRE(bound);
    CHECK_THAT(in_percent(bound->share_covered), WithinRel(60.0, 1e-12));
    CHECK_THAT(bound->oil_per_steam.si(), WithinRel(alone->oil_per_steam.si(), 1e-12));
  }
}

TEST_CASE("less air boils oil and water cooler", "[release]") {
  const Liquid oil = made_up(5000);
  double last = 0;
  for (double kpa = 60; kpa <= 105; kpa += 5) {
    const auto bound = codistillation_limit(kilopascals(kpa), {{&oil, fraction(1)}});
    REQUIRE(bound);
    CHECK(bound->boiling.kelvin() > last);
    last = bound->boiling.kelvin();
  }
}

TEST_CASE("pressures that water.hpp does not reach are refused", "[release]") {
  const Liquid oil = made_up(5000);
  CHECK_THROWS_AS(codistillation_limit(pascals(100), {{&oil, fraction(1)}}), RangeError);
}
