// The bounds of worst_case.hpp: no run within the ranges is worse. Herb, stills and design defaults
// are those of test_stills.hpp.
#include "model/worst_case.hpp"

#include <algorithm>
#include <cmath>

#include "catch.hpp"
#include "credible_point.hpp"
#include "firstdrop/base/error.hpp"
#include "model/parameters_at.hpp"
#include "physics/charge.hpp"
#include "test_stills.hpp"
#include "test_tables.hpp"
#include "unit/model/parameters_of.hpp"

using namespace firstdrop;
using namespace test_stills;

TEST_CASE("the worst point for water is worse in every figure", "[parameters]") {
  const ModelParameters i = parameters_of(recipe(herb(), column_still()));
  const RunValues typical = run_values_at(i, SamplePoint::medians(), grams(150), kilograms(1.5));
  const RunValues worst = run_values_at(i, worst_for_water(), grams(150), kilograms(1.5));
  CHECK(worst.first_fill < typical.first_fill);
  CHECK(worst.heat_boiling > typical.heat_boiling);
  CHECK(worst.pot_loss < typical.pot_loss);
  CHECK(worst.column_loss < typical.column_loss);
  CHECK(worst.column_capacity < typical.column_capacity);
  CHECK(worst.hold_up > typical.hold_up);
  CHECK(worst.uncondensed_loss > typical.uncondensed_loss);
  // The jug is misread by the upper bound of its error: 2 + (2 - 1) = 3 % too little.
  CHECK_THAT(in_kilograms(worst.first_fill), WithinRel(1.5 * 0.97, 1e-9));
  // Upper bound of the efficiency: 80 + (80 - 74) = 86 %.
  CHECK_THAT(in_watts(worst.heat_boiling), WithinRel(860.0, 1e-9));
}

TEST_CASE("a worst case for another charge is that of a new one", "[parameters]") {
  for (const Recipe& r : {recipe(herb(), column_still()), recipe(herb(), hydro_still())}) {
    const ModelParameters i = parameters_of(r);
    const Stop stop{millilitres(300), minutes(90)};
    WorstCase worst(i, grams(60));
    worst.reload(grams(150));
    const Run again = worst.run(kilograms(1.4), stop, minutes(10));
    const Run anew = WorstCase(i, grams(150)).run(kilograms(1.4), stop, minutes(10));
    CHECK(again.boil() == anew.boil());
    CHECK(again.first_drop() == anew.first_drop());
    CHECK(again.water_at(hours(1)).left == anew.water_at(hours(1)).left);
  }
}

TEST_CASE("the worst case is that of the tables or of the bench, whichever is hotter",
          "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  const auto hot = [&] {
    return upper_heater_values(parameters_of(r), grams(150), kilograms(1.5));
  };
  const auto cool = [&] {
    return lower_heater_values(parameters_of(r), grams(150), kilograms(1.5));
  };
  const Run by_tables(hot());
  const Run weak_by_tables(cool());
  for (const double rate : {2.0, 10.0, 16.0, 20.0, 25.0}) {
    CAPTURE(rate);
    r.own.distillate_rate = millilitres_per_minute(rate);
    const Run run(hot());
    const double own = rate * 1.1;  // these tables' accuracy of 5 %, doubled for the bound
    const double vapour = own * 0.9982 / 0.95;  // upper bound of the uncondensed loss: 5 %
    CHECK_THAT(in_grams_per_minute(run.vapour()),
               WithinRel(std::max(vapour, in_grams_per_minute(by_tables.vapour())), 1e-3));
    CHECK(run.first_drop() <= by_tables.first_drop() * (1 + 1e-12));
    const Run weak(cool());
    CHECK(weak.vapour() <= weak_by_tables.vapour() * (1 + 1e-12));
    CHECK(weak.first_drop() >= weak_by_tables.first_drop() * (1 - 1e-12));
  }
}

TEST_CASE("measured runs of a still move the worst case, and a few never lower it",
          "[parameters]") {
  // These tables: 55, 74, 80 % of 1 kW, so at most 86 %, and mains that are exact.
  Recipe r = recipe(herb(), column_still(litres(1), kilowatts(1)));
  const auto strongest = [&] {
    const ModelParameters i = parameters_of(r);
    return in_watts(
        WorstCase(i, grams(100)).strongest_heater(kilograms(1.5)).values().heat_warming);
  };
  const auto nominal = [&] {
    return in_watts(
        run_values_at(parameters_of(r), SamplePoint::medians(), grams(100), kilograms(1.5))
            .heat_warming);
  };
  const double by_tables = strongest();
  CHECK_THAT(by_tables, WithinRel(860.0, 1e-9));

  Still& still = r.still.change();
  const auto measured = [&](double percent_typical, int runs, int days, double hottest) {
    const double by = std::exp(1.2815515655 * 0.02);  // known to 2 %
    still.heater.efficiency = Cited<Fraction>{
        {percent(percent_typical / by), percent(percent_typical), percent(percent_typical * by)},
        {"made up", {}, Known::measured}};
    still.measured_runs = MeasuredRuns{runs, days, {}, percent(hottest), fraction(1)};
  };
  SECTION("a weak still: its median follows, and its worst case waits for three runs on two days") {
    for (const auto& [runs, days] : {std::pair{1, 1}, {2, 2}, {5, 1}}) {
      CAPTURE(runs, days);
      measured(60, runs, days, 61);
      CHECK_THAT(nominal(), WithinRel(600.0, 1e-9));
      CHECK_THAT(strongest(), WithinRel(by_tables, 1e-9));
    }
    measured(60, 3, 2, 61);
    // The tables' room is ln(860 / 740) = 0.150, which is less than 0.22.
    CHECK_THAT(strongest(), WithinRel(600.0 * 860 / 740, 1e-9));
    CHECK(strongest() < by_tables);
  }
  SECTION("a strong still raises the worst case at once") {
    measured(90, 1, 1, 95);
    // The hottest run, with 3 % from run to run.
    CHECK_THAT(strongest(), WithinRel(950 * std::exp(2.5631031311 * 0.03), 1e-9));
    CHECK(strongest() > by_tables);
  }
  SECTION("no bound is below the hottest run, with 3 % from run to run") {
    measured(60, 10, 5, 85);
    CHECK_THAT(strongest(), WithinRel(850 * std::exp(2.5631031311 * 0.03), 1e-9));
  }
  SECTION("at another setting, the dial may give more than it says") {
    measured(60, 3, 2, 61);
    still.measured_runs->setting = percent(50);
    CHECK_THAT(strongest(), WithinRel(by_tables, 1e-9));
  }
  SECTION("measured walls and losses never hold less than the defaults for the worst case") {
    const auto left = [&] {
      const ModelParameters i = parameters_of(r);
      const Stop stop{millilitres(400), std::nullopt};
      const Run run = WorstCase(i, grams(100)).run(kilograms(1.5), stop, minutes(15));
      return in_grams(run.water_at(stop_time(run, stop)).left);
    };
    const double before = left();
    measured(74, 1, 1, 74);
    still.wall_hold_up = exactly(grams(1));
    still.heat_loss = exactly(watts_per_square_metre_kelvin(12));
    CHECK(left() <= before + 1e-9);
  }
}

TEST_CASE("what the heater has stored goes on boiling", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  r.limits.absence = minutes(10);
  CHECK(longest_after_heat(parameters_of(r)) == seconds(0));  // as in these tests' tables
  r.still.change().heater.kind = HeaterKind::induction_plate;
  // Median 5 s, 15 s at the 90th percentile, and as much again beyond it.
  CHECK_THAT(in_seconds(longest_after_heat(parameters_of(r))), WithinRel(25.0, 1e-12));
  CHECK_THAT(in_seconds(longest_lateness(parameters_of(r))), WithinRel(625.0, 1e-12));
}

TEST_CASE("a level and a clock: the worst case holds at every plate", "[parameters]") {
  // Column and charge hold the most with the weakest heater that still reaches the level before the
  // clock. The bound for both stops must cover every heater.
  Recipe r = recipe(herb(), column_still(litres(1), kilowatts(0.35)));
  r.state = State::dried;
  const ModelParameters i = parameters_of(r);
  for (const double minutes_allowed : {90.0, 120.0, 180.0, 240.0}) {
    const Stop stop{millilitres(400), minutes(minutes_allowed)};
    const Mass charge = grams(90);
    const Mass fill = kilograms(1.5);
    const Run worst = WorstCase(i, charge).run(fill, stop, minutes(0));
    const Mass least = worst.water_at(stop_time(worst, stop)).left;
    for (int n = 0; n <= 50; ++n) {
      SamplePoint point = worst_for_water();
      point.set(Parameter::heater, n / 50.0).set(Parameter::heat_loss, 1);
      point.set(Parameter::moisture, 1).set(Parameter::dry_specific_heat, 1);
      const Run run(run_values_at(i, point, charge, fill));
      if (run.failure()) continue;
      CAPTURE(minutes_allowed, n);
      CHECK(in_grams(run.water_at(stop_time(run, stop)).left) >= in_grams(least) - 1e-6);
    }
  }
}

TEST_CASE("a weak heater on low mains leaves no less than the worst case", "[parameters]") {
  // By a level, the weakest heaters soak the charge longest: P10 of the range with mains 10 % low
  // draws 0.81 of its power. The worst case must cover those too.
  Recipe r = recipe(herb(), column_still(litres(1), kilowatts(0.6)));
  r.state = State::dried;
  Tables tables = rules();
  tables.design_defaults.mains = between(percent(81), percent(100), percent(121));
  const ModelParameters i = model_parameters(r, tables);
  REQUIRE(i.of_tables.least == 0.81);
  const Mass charge = grams(90);
  const Mass fill = kilograms(1.5);
  const Stop stop{millilitres(400), std::nullopt};
  int runs = 0;
  for (const double late : {0.0, 15.0}) {
    const Run worst = WorstCase(i, charge).run(fill, stop, minutes(late));
    const Mass least = worst.water_at(stop_time(worst, stop) + minutes(late)).left;
    for (const double loss : {0.0, 0.5, 1.0}) {
      for (const double wet : {0.0, 1.0}) {
        SamplePoint point = worst_for_water();
        point.set(Parameter::heater, 0.1).set(Parameter::heat_loss, loss);
        point.set(Parameter::moisture, wet).set(Parameter::dry_specific_heat, wet);
        RunValues v = run_values_at(i, credible_point::credible(point), charge, fill);
        v.heat_warming = v.heat_warming * i.of_tables.least;
        v.heat_boiling = v.heat_boiling * i.of_tables.least;
        const Run run(v);
        if (run.failure()) continue;
        ++runs;
        CAPTURE(late, loss, wet);
        CHECK(in_grams(run.water_at(stop_time(run, stop) + minutes(late)).left) >=
              in_grams(least) - 1e-6);
      }
    }
  }
  CHECK(runs == 12);
}

TEST_CASE("no point asks more of the condenser than the hottest run", "[parameters]") {
  struct Case {
    const char* what;
    Recipe recipe;
  };
  std::vector<Case> cases = {{"as the heater is rated", recipe(herb(), column_still())},
                             {"in water", recipe(herb(), hydro_still())}};
  for (const Case& by : {cases[0], cases[1]}) {
    Case rate = by;
    rate.what = "a measured rate";
    rate.recipe.own.distillate_rate = millilitres_per_minute(10);
    cases.push_back(rate);
    Case time = by;
    time.what = "a measured time to boil";
    time.recipe.own.boil_time = minutes(25);
    time.recipe.own.boil_water = litres(1.5);
    cases.push_back(time);
    Case both = rate;
    both.what = "both";
    both.recipe.own.boil_time = time.recipe.own.boil_time;
    both.recipe.own.boil_water = time.recipe.own.boil_water;
    cases.push_back(both);
  }
  for (const Case& c : cases) {
    CAPTURE(c.what, to_string(c.recipe.method_used()));
    const ModelParameters i = parameters_of(c.recipe);
    const Mass charge = grams(150);
    const Mass fill = kilograms(1.4);
    const Run hot(upper_heater_values(i, charge, fill));
    const Run cool(lower_heater_values(i, charge, fill));
    REQUIRE_FALSE(hot.failure());
    REQUIRE_FALSE(cool.failure());
    for (unsigned corner = 0; corner < 64; ++corner) {
      SamplePoint point = SamplePoint::medians();
      unsigned bit = 1;
      for (const Parameter input :
           {Parameter::heater, Parameter::heat_loss, Parameter::moisture,
            Parameter::dry_specific_heat, Parameter::uncondensed_loss, Parameter::fill_error}) {
        point.set(input, (corner & bit) != 0 ? 1 : 0);
        bit *= 2;
      }
      const Run run(run_values_at(i, point, charge, fill));
      REQUIRE_FALSE(run.failure());
      CAPTURE(corner);
      const auto in_all = [](const Run& r) {
        return r.vapour() * (r.time_of_hydrosol(millilitres(300)) - r.first_drop());
      };
      CHECK(run.vapour() <= hot.vapour() * (1 + 1e-12));
      CHECK(run.first_drop() >= hot.first_drop() * (1 - 1e-12));
      CHECK(in_all(run) <= in_all(hot) * (1 + 1e-12));
      CHECK(run.vapour() >= cool.vapour() * (1 - 1e-12));
      CHECK(run.first_drop() <= cool.first_drop() * (1 + 1e-12));
      CHECK(in_all(run) >= in_all(cool) * (1 - 1e-12));
    }
  }
}

TEST_CASE("mains and dial are in the worst case of the pot's water, and not in the condenser's",
          "[parameters][mains]") {
  static const Tables tables = [] {
    Tables l = rules();
    l.design_defaults.mains = between(percent(81), percent(100), percent(121));
    l.design_defaults.dial_error = exactly(percent(20));
    return l;
  }();
  const auto parameters = [](const Recipe& r) { return model_parameters(r, tables); };
  const auto strongest = [&](const Recipe& r) {
    const ModelParameters i = parameters(r);
    return in_watts(
        WorstCase(i, grams(150)).strongest_heater(kilograms(1.5)).values().heat_boiling);
  };
  // 1 kW, of which 55, 74 and 80 % reach the pot, and at most 86 %.
  Recipe r = recipe(herb(), column_still());
  CHECK_THAT(strongest(r), WithinRel(800 * 1.21, 1e-9));
  const ModelParameters i = parameters(r);
  CHECK_THAT(in_watts(upper_heater_values(i, grams(150), kilograms(1.5)).heat_boiling),
             WithinRel(860.0, 1e-9));
  CHECK_THAT(
      in_watts(run_values_at(i, SamplePoint::medians(), grams(150), kilograms(1.5)).heat_boiling),
      WithinRel(740.0, 1e-9));
  // When turned down, the dial counts if it gives more than the mains, up to the heater's full
  // power.
  r.own.mains = volts(230);
  r.site.mains = volts(230);
  r.site.breaker = amperes(16);
  CHECK_THAT(strongest(r), WithinRel(860.0, 1e-9));  // more than 800 W plus 5 %
  r.setting = percent(50);
  CHECK_THAT(strongest(r), WithinRel(400 * 1.2, 1e-9));
  r.setting = percent(95);
  CHECK_THAT(strongest(r), WithinRel(0.95 * 860, 1e-9));
  // The heat goes with the square of the voltage.
  r.setting = percent(100);
  r.own.mains = volts(241.5);
  CHECK_THAT(
      in_watts(run_values_at(parameters(r), SamplePoint::medians(), grams(150), kilograms(1.5))
                   .heat_boiling),
      WithinRel(740 * 1.1025, 1e-9));
  CHECK_THAT(strongest(r), WithinRel(860 * 1.1025, 1e-9));
  // A burner has no mains.
  r.own.mains.reset();
  r.still.change().heater.kind = HeaterKind::gas_burner;
  const Range<Fraction>& gas =
      tables.design_defaults.heater_efficiency.at(HeaterKind::gas_burner).range;
  CHECK_THAT(strongest(r), WithinRel(1000 * double(gas.most()), 1e-9));

  r.own.mains = volts(230);
  r.site.mains.reset();
  r.site.breaker.reset();
  CHECK_THROWS_AS(parameters(r), InputError);
  r.site.mains = volts(120);
  r.site.breaker = amperes(15);
  CHECK_THROWS_AS(parameters(r), InputError);
}

TEST_CASE("what charge and walls hold at worst bounds all combinations that occur together",
          "[parameters][held]") {
  int cases = 0;
  for (Recipe r : plain_recipes()) {
    if (r.method_used() == Method::hydro) continue;
    for (const auto& [state, form] : r.plant->states) {
      r.state = state;
      const ModelParameters i = model_parameters(r, shipped());
      const Mass charge = grams(300);
      const auto held = [&](double moisture, double hold_up, double film, double walls) {
        const auto place = [](double way) {
          return way <= 0.5 ? 0.5 + 0.8 * way : 0.9 + 0.2 * (way - 0.5);
        };
        SamplePoint p = SamplePoint::medians();
        p.set(Parameter::moisture, 1.0 - place(moisture)).set(Parameter::hold_up, place(hold_up));
        p.set(Parameter::film_hold_up, place(film)).set(Parameter::wall_hold_up, place(walls));
        return run_values_at(i, p, charge, kilograms(3)).hold_up;
      };
      const Mass bound = WorstCase(i, charge).strongest_heater(kilograms(3)).values().hold_up;
      CAPTURE(r.plant->key, to_string(state));
      Mass most;
      for (int a = 0; a <= 12; ++a) {
        for (int b = 0; b <= 12; ++b) {
          // Points on the sphere where the squared shares of the ways add up to one, by two angles.
          const double up = a / 12.0 * 1.5707963;
          const double round = b / 12.0 * 1.5707963;
          most = std::max(most, held(std::cos(up) * std::cos(round), std::cos(up) * std::sin(round),
                                     std::cos(up), std::sin(up)));
        }
      }
      CHECK(bound >= most * (1 - 1e-12));
      CHECK(bound <= held(1, 1, 1, 1) * (1 + 1e-12));
      CHECK(bound <= most * 1.2);  // the bound isn't needlessly large
      ++cases;
    }
  }
  CHECK(cases > 400);
}
