// What must hold of every run, whatever its values. Balances close, and more of one input never
// gives less of what physics ties to it.
#include <algorithm>

#include "catch.hpp"
#include "firstdrop/tables/still.hpp"
#include "physics/run.hpp"
#include "physics/stop.hpp"
#include "test_random.hpp"

using namespace firstdrop;
using test_random::Random;

namespace {

constexpr int runs = 2000;
constexpr double rounding = 1e-9;

template <class Check>
void for_random_runs(std::uint64_t seed, Check check) {
  Random random(seed);
  for (int i = 0; i < runs; ++i) {
    CAPTURE(seed, i);
    const RunValues values = test_random::run_values(random, static_cast<Method>(i % 3));
    const Run run(values);
    REQUIRE_FALSE(run.failure());
    check(random, values, run);
  }
}

bool no_later(Duration a, Duration b) {
  return a <= b * (1.0 + rounding) + seconds(rounding);
}

}  // namespace

TEST_CASE("mass and energy close at any time of any run", "[property]") {
  for_random_runs(11, [](Random& random, const RunValues& v, const Run& run) {
    const Duration dry = run.time_until_left(grams(0));
    for (int i = 0; i < 10; ++i) {
      const Duration time = dry * random.between(0, 1.2);
      const WaterBalance w = run.water_at(time);
      const Mass residual = v.first_fill - w.distilled - w.uncondensed - w.held - w.left;
      CHECK(std::abs(residual / v.first_fill) <= rounding);
      const EnergyBalance e = run.energy_at(time);
      CHECK(std::abs(e.residual().si()) <= rounding * e.put_in.si());
      CHECK(w.distilled >= grams(0));
      CHECK(w.uncondensed >= grams(0));
      CHECK(w.held >= v.soaked);
      CHECK(w.held <= v.soaked + v.hold_up);
    }
  });
}

TEST_CASE("a run's phases come in order and its curves never turn back", "[property]") {
  for_random_runs(12, [](Random& random, const RunValues& v, const Run& run) {
    CHECK(seconds(0) < run.boil());
    CHECK(run.boil() < run.first_drop());
    CHECK(run.vapour() > MassFlow());
    CHECK(run.vapour() <= run.steam_made());
    const Duration end = std::max(run.time_until_left(grams(0)), run.first_drop() * 1.1);
    Duration a;
    for (int i = 0; i < 10; ++i) {
      const Duration b = a + (end - a) * random.between(0, 0.5);
      CHECK(run.pot_temperature(a) <= run.pot_temperature(b));
      CHECK(run.pot_temperature(b) <= v.boiling + kelvins(1e-9));
      CHECK(run.water_at(b).left <= run.water_at(a).left + v.first_fill * rounding);
      CHECK(run.hydrosol_at(a) <= run.hydrosol_at(b));
      CHECK(run.oil_vaporised_at(a) <= run.oil_vaporised_at(b));
      CHECK(run.oil_vaporised_at(b) <= v.oil_recoverable);
      CHECK(run.oil_in_receiver_at(b) >= grams(0));
      CHECK(run.oil_in_receiver_at(b) <= run.oil_vaporised_at(b));
      if (v.oil_per_steam && b > run.first_drop()) {
        const Mass carried = run.vapour() * *v.oil_per_steam * (b - run.first_drop());
        CHECK(run.oil_vaporised_at(b) <= carried * (1.0 + rounding));
      }
      a = b;
    }
  });
}

TEST_CASE("times found are the times at which it is so", "[property]") {
  for_random_runs(13, [](Random& random, const RunValues& v, const Run& run) {
    const Mass most = v.first_fill - v.soaked;
    const Mass left = most * random.between(0.001, 0.999);
    const Mass at = run.water_at(run.time_until_left(left)).left;
    CHECK(std::abs((at - left) / v.first_fill) <= rounding);

    const Volume wanted = millilitres(random.log_uniform(1, 1e5));
    const Volume got = run.hydrosol_at(run.time_of_hydrosol(wanted));
    // A millilitre that comes long after the start of heating loses digits.
    CHECK(std::abs(got / wanted - 1.0) <= 1e-6);

    const Fraction share = fraction(random.between(0.001, 0.999));
    const Mass vaporised = run.oil_vaporised_at(run.time_of_oil_share(share));
    CHECK(vaporised / v.oil_recoverable >= share - 1e-9);

    const Mass oil = v.oil_recoverable * random.between(0.01, 0.9);
    if (const auto reached = time_of_oil(run, oil)) {
      CHECK(run.oil_in_receiver_at(*reached) >= oil * (1.0 - 1e-9));
    } else {
      // Then there must be no time at which there is as much.
      for (int i = 1; i <= 20; ++i) {
        const Duration time = run.first_drop() + (run.time_of_oil_share(share) - run.first_drop()) *
                                                     (static_cast<double>(i) / 20.0);
        CHECK(run.oil_in_receiver_at(time) < oil);
      }
    }
  });
}

TEST_CASE("more heat never boils, drips or runs dry later", "[property]") {
  for_random_runs(14, [](Random& random, const RunValues& values, const Run& run) {
    RunValues more = values;
    const double factor = random.between(1.0, 2.0);
    more.heat_warming = values.heat_warming * factor;
    more.heat_boiling = values.heat_boiling * factor;
    const Run hotter(more);
    REQUIRE_FALSE(hotter.failure());
    CHECK(no_later(hotter.boil(), run.boil()));
    CHECK(no_later(hotter.first_drop(), run.first_drop()));
    CHECK(no_later(hotter.time_until_left(grams(0)), run.time_until_left(grams(0))));
    CHECK(hotter.distillate() >= run.distillate());
  });
}

TEST_CASE("more water never boils or runs dry sooner", "[property]") {
  for_random_runs(15, [](Random& random, const RunValues& values, const Run& run) {
    RunValues more = values;
    more.first_fill = values.first_fill * random.between(1.0, 2.0);
    const Run fuller(more);
    REQUIRE_FALSE(fuller.failure());
    CHECK(no_later(run.boil(), fuller.boil()));
    CHECK(no_later(run.first_drop(), fuller.first_drop()));
    CHECK(no_later(run.time_until_left(grams(0)), fuller.time_until_left(grams(0))));
  });
}

TEST_CASE("more reserve is never reached later", "[property]") {
  for_random_runs(16, [](Random& random, const RunValues& values, const Run& run) {
    const Mass reserve = values.first_fill * random.between(0.0, 0.9);
    const Mass more = reserve + (values.first_fill - reserve) * random.between(0.0, 1.0);
    CHECK(no_later(run.time_until_left(more), run.time_until_left(reserve)));
  });
}

TEST_CASE("a warmer room never boils or drips later", "[property]") {
  for_random_runs(17, [](Random& random, const RunValues& values, const Run& run) {
    RunValues warmer = values;
    const TemperatureDifference by = kelvins(random.between(0, 15));
    warmer.room = values.room + by;
    warmer.fill_excess = values.fill_excess - by;  // water and pot keep their temperature
    warmer.pot_excess = values.pot_excess - by;
    const Run other(warmer);
    REQUIRE_FALSE(other.failure());
    CHECK(no_later(other.boil(), run.boil()));
    CHECK(no_later(other.first_drop(), run.first_drop()));
  });
}

TEST_CASE("more loss never drips sooner", "[property]") {
  for_random_runs(18, [](Random& random, const RunValues& values, const Run& run) {
    RunValues more = values;
    more.pot_loss = values.pot_loss * random.between(1.0, 1.2);
    more.column_loss = values.column_loss * random.between(1.0, 1.2);
    const Run colder(more);
    if (colder.failure()) return;
    CHECK(no_later(run.boil(), colder.boil()));
    CHECK(no_later(run.first_drop(), colder.first_drop()));
    CHECK(colder.distillate() <= run.distillate());
  });
}
