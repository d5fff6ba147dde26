// What a quantile of each range makes of a run. Herb, stills and design defaults are those of
// test_stills.hpp.
#include "model/parameters_at.hpp"

#include <algorithm>
#include <cmath>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "model/parameter_sources.hpp"
#include "model/worst_case.hpp"
#include "physics/charge.hpp"
#include "test_stills.hpp"
#include "unit/model/parameters_of.hpp"

using namespace firstdrop;
using namespace test_stills;

namespace {

/// The share of its power that the heater gives to the nominal run with 150 g and 1.5 kg of water.
Fraction implied(const Recipe& recipe) {
  const ModelParameters i = parameters_of(recipe);
  const RunValues v = run_values_at(i, SamplePoint::medians(), grams(150), kilograms(1.5));
  return std::max(v.heat_boiling, v.heat_warming) /
         (recipe.still->heater.power.typical() * recipe.setting);
}

}  // namespace

TEST_CASE("a range's ends and middle are its bounds and median, to the last bit", "[parameters]") {
  const Range<Mass> straight{grams(0.1), grams(0.3), grams(0.7)};
  Range<Mass> by_factors = straight;
  by_factors.by_ratio = true;
  for (const Range<Mass>& range : {straight, by_factors}) {
    CHECK(range.at(0.0) == range.least());
    CHECK(range.at(-1.0) == range.least());
    CHECK(range.at(0.5) == range.typical);
    CHECK(range.at(1.0) == range.most());
    CHECK(range.at(2.0) == range.most());
    // The range reaches them without a jump.
    CHECK_THAT(range.at(1e-9).si(), WithinRel(range.least().si(), 1e-7));
    CHECK_THAT(range.at(0.5 - 1e-9).si(), WithinRel(range.typical.si(), 1e-7));
    CHECK_THAT(range.at(1.0 - 1e-9).si(), WithinRel(range.most().si(), 1e-7));
  }
}

TEST_CASE("a range by factors is followed to its ends, a straight one not to zero",
          "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  Cited<Duration>& half_life = r.plant.change().release.at(Method::steam).half_life;
  half_life.range = {minutes(2), minutes(10), minutes(20), true};
  const auto half_life_at = [&](double p) {
    const SamplePoint point = SamplePoint::medians().set(Parameter::half_life, p);
    const RunValues v = run_values_at(parameters_of(r), point, grams(100), kilograms(2));
    return in_minutes(time_to_release(v.release, percent(50)));
  };
  CHECK_THAT(half_life_at(0), WithinRel(0.4, 1e-12));
  CHECK_THAT(half_life_at(1), WithinRel(40.0, 1e-12));
  half_life.range.by_ratio = false;  // would end at -6 min, but stops at half of its low
  CHECK_THAT(half_life_at(0), WithinRel(1.0, 1e-12));
}

TEST_CASE("the space for the charge is where the method puts it", "[parameters]") {
  Still still = grid_still();
  still.column = column_still(litres(3)).column;
  CHECK(charge_space(still, Method::steam) == litres(3));
  CHECK(charge_space(still, Method::water_and_steam) == litres(6));
  CHECK(charge_space(still, Method::hydro) == litres(12));
  CHECK(bed_area(still, Method::steam) == circle_area(millimetres(100)));
  CHECK(bed_area(still, Method::water_and_steam) == circle_area(millimetres(240)));
}

TEST_CASE("capacity at a place in the range", "[parameters]") {
  const ModelParameters i = parameters_of(recipe(herb(), column_still()));
  const DesignDefaults& defaults = rules().design_defaults;
  // 1 L less a tenth: median 153 g, 108 g at the 10th and 198 g at the 90th percentile.
  const auto at = [&](double p) {
    return in_grams(
        charge_capacity(i, defaults, SamplePoint::medians().set(Parameter::bulk_density, p)));
  };
  CHECK_THAT(at(0.5), WithinRel(153.0, 1e-9));
  CHECK_THAT(at(0.1), WithinRel(108.0, 1e-9));
  CHECK_THAT(at(0.9), WithinRel(198.0, 1e-9));
  const ModelParameters wet = parameters_of(recipe(herb(), hydro_still()));
  // 7.5 L / (2.5 + 1 / 0.95) L/kg.
  CHECK_THAT(in_kilograms(charge_capacity(wet, defaults, SamplePoint::medians())),
             WithinRel(7.5 / (2.5 + 1 / 0.95), 1e-9));
}

TEST_CASE("typical values of a steam run", "[parameters]") {
  const ModelParameters i = parameters_of(recipe(herb(), column_still()));
  const RunValues v = run_values_at(i, SamplePoint::medians(), grams(150), kilograms(1.5));
  CHECK_THAT(in_kilograms(v.first_fill), WithinRel(1.5, 1e-12));
  // 1 kW x 74 %.
  CHECK_THAT(in_watts(v.heat_warming), WithinRel(740.0, 1e-12));
  CHECK(v.heat_boiling == v.heat_warming);
  // Pot of 2 L and 160 mm under a column of 100 mm: 0.05 + 0.0122522 m2, 7.1 W/(m2 K).
  CHECK_THAT(v.pot_loss.si(), WithinRel(7.1 * 0.0622522, 1e-6));
  // Column of 1 L and 100 mm: 0.04 m2, head 0.03 m2.
  CHECK_THAT(v.column_loss.si(), WithinRel(7.1 * 0.07, 1e-9));
  // 0.9 kg of steel at 477 J/(kg K).
  CHECK_THAT(v.pot_capacity.si(), WithinRel(0.9 * 477, 1e-9));
  // 0.8 kg of steel; 45 g dry at 1400 and 105 g of water.
  CHECK_THAT(v.column_capacity.si(),
             WithinRel(0.8 * 477 + 0.045 * 1400 + 0.105 * i.water_heat.si(), 1e-9));
  // 45 x 2.5 - 105 = 7.5 g are less than the film of 12 g; 15 g on the walls.
  CHECK_THAT(in_grams(v.hold_up), WithinRel(27.0, 1e-9));
  CHECK(v.soaked == grams(0));
  CHECK_THAT(in_percent(v.uncondensed_loss), WithinRel(1.0, 1e-12));
  // 150 g x 0.8 % x 92 %.
  CHECK_THAT(in_grams(v.oil_recoverable), WithinRel(150 * 0.008 * 0.92, 1e-9));
  CHECK_THAT(in_minutes(time_to_release(v.release, percent(50))), WithinRel(12.0, 1e-9));
}

TEST_CASE("in water the charge belongs to the pot", "[parameters]") {
  const ModelParameters i = parameters_of(recipe(herb(), hydro_still()));
  const RunValues v = run_values_at(i, SamplePoint::medians(), kilograms(1), kilograms(4));
  // 2 kg of steel; 300 g dry at 1400 and 700 g of water.
  CHECK_THAT(v.pot_capacity.si(), WithinRel(2 * 477 + 0.3 * 1400 + 0.7 * i.water_heat.si(), 1e-9));
  CHECK_THAT(v.column_capacity.si(), WithinRel(0.3 * 477, 1e-9));
  // The film of 80 g is soaked up from the pot; the walls hold 15 g.
  CHECK_THAT(in_grams(v.soaked), WithinRel(80.0, 1e-9));
  CHECK_THAT(in_grams(v.hold_up), WithinRel(15.0, 1e-9));
  CHECK_THAT(in_percent(v.release.fast), WithinRel(10.0, 1e-9));
  CHECK_THAT(in_minutes(time_to_release(v.release, percent(50))), WithinRel(25.0, 1e-9));
}

TEST_CASE("over a grid the charge is heated by steam, grid and basket by the pot", "[parameters]") {
  const ModelParameters i = parameters_of(recipe(herb(), grid_still()));
  const RunValues v = run_values_at(i, SamplePoint::medians(), kilograms(1), kilograms(3));
  CHECK_THAT(v.pot_capacity.si(), WithinRel((2 + 0.8) * 477, 1e-9));
  CHECK_THAT(v.column_capacity.si(),
             WithinRel(0.3 * 477 + 0.3 * 1400 + 0.7 * i.water_heat.si(), 1e-9));
  CHECK(v.soaked == grams(0));
  CHECK_THAT(in_grams(v.hold_up), WithinRel(95.0, 1e-9));
}

TEST_CASE("values at a point serve any charge, and move as far as they are told", "[parameters]") {
  Recipe timed = recipe(herb(), column_still());
  timed.own.boil_time = minutes(25);
  timed.own.boil_water = litres(1.5);
  Recipe rated = recipe(herb(), column_still());
  rated.own.distillate_rate = millilitres_per_minute(10);
  for (const Recipe& r : {recipe(herb(), column_still()), recipe(herb(), hydro_still()),
                          recipe(herb(), grid_still()), timed, rated}) {
    CAPTURE(to_string(r.method_used()), measured_heat(parameters_of(r)));
    const ModelParameters i = parameters_of(r);
    const SamplePoint from = worst_for_water();
    SamplePoint to = from;
    to.set(Parameter::heater, 0.2)
        .set(Parameter::heat_loss, 0.7)
        .set(Parameter::uncondensed_loss, 0.3);
    to.set(Parameter::moisture, 0.4).set(Parameter::dry_specific_heat, 0.8);
    ParametersAt values(i, from);
    values.move_heat(to);
    values.move_capacities(to);
    for (const Mass charge : {grams(40), grams(150)}) {
      const RunValues moved = values.of(charge, kilograms(1.4));
      const RunValues there = run_values_at(i, to, charge, kilograms(1.4));
      const RunValues here = run_values_at(i, from, charge, kilograms(1.4));
      CHECK(moved.heat_warming == there.heat_warming);
      CHECK(moved.heat_boiling == there.heat_boiling);
      CHECK(moved.pot_loss == there.pot_loss);
      CHECK(moved.column_loss == there.column_loss);
      CHECK(moved.pot_capacity == there.pot_capacity);
      CHECK(moved.column_capacity == there.column_capacity);
      CHECK(moved.uncondensed_loss == there.uncondensed_loss);
      // The oil and the poured water stay as they were.
      CHECK(moved.oil_recoverable == here.oil_recoverable);
      CHECK(moved.first_fill == here.first_fill);
      CHECK(moved.hydrosol_oil == here.hydrosol_oil);
      CHECK(values.oil_in(charge) == oil_in_charge(i, from, charge));
    }
  }
}

TEST_CASE("an own distillate rate is what the run gives", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  r.own.distillate_rate = millilitres_per_minute(12);
  const ModelParameters own = parameters_of(r);
  const Run run(run_values_at(own, SamplePoint::medians(), grams(150), kilograms(1.5)));
  REQUIRE_FALSE(run.failure());
  CHECK_THAT(in_millilitres_per_minute(run.distillate_rate()), WithinRel(12.0, 1e-9));
  // 5 % less and more at the 10th and 90th percentile, whatever the losses.
  for (const double loss : {0.0, 0.5, 1.0}) {
    SamplePoint p = SamplePoint::medians();
    p.set(Parameter::heat_loss, loss).set(Parameter::heater, 0.9);
    const Run hot(run_values_at(own, p, grams(150), kilograms(1.5)));
    CHECK_THAT(in_millilitres_per_minute(hot.distillate_rate()), WithinRel(12.6, 1e-9));
  }
  CHECK(sources_of(own, rules()).count("doe-hobs-quoted") == 0);
}

TEST_CASE("an own time to boil is when it boils", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  r.own.boil_time = minutes(16);
  r.own.boil_water = litres(1.5);
  const ModelParameters own = parameters_of(r);
  const Mass water = litres(1.5) * own.fill_density;
  CHECK(own.own_boil_water == water);
  const Run run(run_values_at(own, SamplePoint::medians(), grams(150), water));
  REQUIRE_FALSE(run.failure());
  CHECK_THAT(in_minutes(run.boil()), WithinRel(16.0, 1e-9));
  // Twice the water takes nearly twice as long.
  const Run twice(run_values_at(own, SamplePoint::medians(), grams(150), water * 2.0));
  CHECK(twice.boil() > minutes(28));
  // The strongest heater boils it sooner.
  const Run hot(
      run_values_at(own, SamplePoint::medians().set(Parameter::heater, 1), grams(150), water));
  CHECK(hot.boil() < run.boil());
}

TEST_CASE("implied efficiency is the table's, or what own figures need", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  CHECK_THAT(in_percent(implied(r)), WithinRel(74.0, 1e-9));
  r.setting = percent(50);
  CHECK_THAT(in_percent(implied(r)), WithinRel(74.0, 1e-9));
  r.setting = percent(100);
  r.own.distillate_rate = millilitres_per_minute(40);
  // 40 mL/min x 0.99820 / 0.99 = 0.6722 g/s of steam, 1516.8 W. Lost: 0.938991 x 79.974 = 75.1 W.
  CHECK_THAT(in_percent(implied(r)), WithinRel(159.19, 1e-3));
}

TEST_CASE("water that is not as warm as the room", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  CHECK(parameters_of(r).poured == r.site.room);
  CHECK(parameters_of(r).pour_density == parameters_of(r).fill_density);
  r.water_temperature = celsius(80);
  const ModelParameters i = parameters_of(r);
  CHECK_THAT(in_grams_per_litre(i.pour_density), WithinAbs(971.8, 0.1));  // IAPWS, 80 degC
  CHECK(run_values_at(i, SamplePoint::medians(), grams(150), kilograms(1.5)).fill_excess ==
        kelvins(60));
  // The water may have warmed the pot, or the pot may have cooled the water.
  const RunValues hot = upper_heater_values(i, grams(150), kilograms(1.5));
  CHECK(hot.fill_excess == kelvins(60));
  CHECK(hot.pot_excess == kelvins(60));
  CHECK(lower_heater_values(i, grams(150), kilograms(1.5)).fill_excess == kelvins(0));
  // Water boils at 93.3 degC there.
  r.site.altitude = metres(2000);
  r.water_temperature = celsius(92);
  CHECK_NOTHROW(parameters_of(r));
  r.water_temperature = celsius(93);
  CHECK(fault_of(r).pointer == "/water_temperature");
  CHECK(fault_of(r).wanted == "a value from 1 to 92.3 °C, which is 1 K below boiling at this site");
  r.water_temperature = celsius(-1);
  CHECK(fault_of(r).pointer == "/water_temperature");
}

TEST_CASE("heat that was read at another setting", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  r.own.distillate_rate = millilitres_per_minute(10);
  r.own.boil_water = litres(1.5);
  r.own.boil_time = minutes(12);
  const auto heat = [&] {
    return run_values_at(parameters_of(r), SamplePoint::medians(), grams(150), kilograms(1.5));
  };
  const RunValues here = heat();
  r.own.setting = percent(50);
  CHECK_THAT(in_watts(heat().heat_boiling), WithinRel(2 * in_watts(here.heat_boiling), 1e-12));
  CHECK_THAT(in_watts(heat().heat_warming), WithinRel(2 * in_watts(here.heat_warming), 1e-12));
  r.own.boil_setting = percent(100);
  CHECK_THAT(in_watts(heat().heat_boiling), WithinRel(2 * in_watts(here.heat_boiling), 1e-12));
  CHECK_THAT(in_watts(heat().heat_warming), WithinRel(in_watts(here.heat_warming), 1e-12));
  r.setting = percent(50);
  CHECK_THAT(in_watts(heat().heat_boiling), WithinRel(in_watts(here.heat_boiling), 1e-12));
}

TEST_CASE("a wide range never makes a figure negative", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  const auto wide = [](auto low, auto typical, auto high) {
    return Cited<decltype(low)>{{low, typical, high}, {"wide", {}, Known::own_invention}};
  };
  PlantState& fresh = r.plant.change().states.at(State::fresh);
  fresh.bulk_density = {
      {Cut::chopped, wide(grams_per_litre(20), grams_per_litre(170), grams_per_litre(500))}};
  fresh.oil_content->by_mass = wide(percent(0.1), percent(0.8), percent(3));
  fresh.moisture = wide(percent(30), percent(70), percent(90));
  r.plant.change().release.at(Method::steam).half_life = wide(minutes(1), minutes(12), minutes(60));
  r.plant.change().hydrosol_oil =
      wide(milligrams_per_litre(10), milligrams_per_litre(400), milligrams_per_litre(2000));
  const ModelParameters i = parameters_of(r);
  SamplePoint least = SamplePoint::medians();
  SamplePoint most = SamplePoint::medians();
  for (std::size_t n = 0; n < parameter_count; ++n) {
    least.set(static_cast<Parameter>(n), 0);
    most.set(static_cast<Parameter>(n), 1);
  }
  for (const SamplePoint& p : {least, most}) {
    CHECK(charge_capacity(i, rules().design_defaults, p) > grams(0));
    CHECK(oil_in_charge(i, p, grams(100)) >= grams(0));
    CHECK(oil_recoverable(i, p, grams(100)) <= oil_in_charge(i, p, grams(100)));
    const RunValues v = run_values_at(i, p, grams(100), kilograms(1.5));
    CHECK(v.release.fast_rate.si() > 0);
    CHECK(v.release.slow_rate.si() > 0);
    CHECK(v.hydrosol_oil.si() >= 0);
    CHECK(v.hold_up >= grams(0));
    CHECK(v.pot_loss.si() > 0);
    CHECK(v.column_capacity.si() > 0);
    CHECK_FALSE(Run(v).failure());
  }
}

TEST_CASE("a still's dimension with a range counts on the careful side", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  const DesignDefaults& defaults = rules().design_defaults;
  const Mass exact = charge_capacity(parameters_of(r), defaults, SamplePoint::medians());
  r.still.change().column->volume = between(litres(0.9), litres(1), litres(1.1));
  // As far below low as low is below the median: 0.8 L.
  CHECK_THAT(charge_capacity(parameters_of(r), defaults, SamplePoint::medians()) / exact,
             WithinRel(0.8, 1e-12));
  // One parameter moves both the heater's power and the share of it that reaches the pot.
  r.still.change().heater.power = between(watts(900), watts(1000), watts(1200));
  const ModelParameters i = parameters_of(r);
  const auto heat_at = [&](double place) {
    const SamplePoint point = SamplePoint::medians().set(Parameter::heater, place);
    return in_watts(run_values_at(i, point, grams(150), kilograms(1)).heat_boiling);
  };
  CHECK_THAT(heat_at(0.5), WithinRel(740.0, 1e-12));
  CHECK_THAT(heat_at(0.9), WithinRel(1200 * 0.8, 1e-12));
  CHECK_THAT(heat_at(1.0), WithinRel(1400 * 0.86, 1e-12));
}
