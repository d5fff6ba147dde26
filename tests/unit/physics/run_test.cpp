// One run with every value known: hand-worked phases, balances, inverses and failures.
#include "physics/run.hpp"

#include <cmath>

#include "catch.hpp"

using namespace firstdrop;

namespace {

// Round figures: 2 kg of water at 4 kJ/(kg K), a pot of 1 kJ/K, a rise of 80 K, 1 kW, no loss.
//   boil        (2 x 4 + 1) kJ/K x 80 K / 1 kW                  = 720 s
//   first drop  1.25 kJ/K x 80 K / 1 kW                         = 100 s later, at 820 s
//   steam       1 kW / 2000 kJ/kg                               = 0.5 g/s
//   condensate  0.5 g/s x 100 s                                 = 50 g
RunValues round_figures() {
  RunValues v;
  v.boiling = celsius(100);
  v.latent_heat = kilojoules_per_kilogram(2000);
  v.room = celsius(20);
  v.water_heat = kilojoules_per_kilogram_kelvin(4);
  v.first_fill = kilograms(2);
  v.pot_capacity = joules_per_kelvin(1000);
  v.heat_warming = kilowatts(1);
  v.heat_boiling = kilowatts(1);
  v.column_capacity = joules_per_kelvin(1250);
  v.soaked = grams(0);
  v.hold_up = grams(30);
  v.uncondensed_loss = percent(2);
  v.distillate_density = kilograms_per_cubic_metre(1000);
  v.oil_recoverable = grams(1);
  v.charge = kilograms(1);
  v.release = release_of_half_life(minutes(10), percent(0), percent(10));
  v.flow_effect.reference = Rate::from_si(1.0 / 3600);
  v.mixing = fraction(1);
  v.hydrosol_oil = milligrams_per_litre(500);
  return v;
}

RunValues lossy() {
  RunValues v = round_figures();
  v.pot_loss = watts_per_kelvin(1);       // 80 W at boiling
  v.column_loss = watts_per_kelvin(0.5);  // 40 W
  v.hold_up = grams(200);
  return v;
}

}  // namespace

TEST_CASE("the phases of a run without loss", "[run]") {
  const Run run(round_figures());
  REQUIRE_FALSE(run.failure());
  CHECK_THAT(in_seconds(run.boil()), WithinRel(720.0, 1e-12));
  CHECK_THAT(in_seconds(run.first_drop()), WithinRel(820.0, 1e-12));
  CHECK_THAT(run.steam_made().si(), WithinRel(0.5e-3, 1e-12));
  CHECK_THAT(run.vapour().si(), WithinRel(0.5e-3, 1e-12));
  CHECK_THAT(run.distillate().si(), WithinRel(0.49e-3, 1e-12));
  CHECK_THAT(in_millilitres_per_minute(run.distillate_rate()), WithinRel(29.4, 1e-12));
  CHECK(run.phase_at(seconds(719)) == Phase::warming);
  CHECK(run.phase_at(seconds(721)) == Phase::steaming);
  CHECK(run.phase_at(seconds(821)) == Phase::running);
  CHECK_THAT(in_celsius(run.pot_temperature(seconds(360))), WithinAbs(60.0, 1e-9));
  CHECK_THAT(in_celsius(run.pot_temperature(hours(1))), WithinAbs(100.0, 1e-9));
}

TEST_CASE("water from the kettle, in a pot as cold as the room", "[run]") {
  RunValues v = round_figures();
  v.fill_excess = kelvins(60);
  // The mixture starts at 20 + 60 x 8 / 9 = 73.33 degC; then 9 kJ/K x 26.67 K / 1 kW.
  Run run(v);
  CHECK_THAT(in_celsius(run.pot_temperature(seconds(0))), WithinRel(20 + 60 * 8.0 / 9, 1e-12));
  CHECK_THAT(in_seconds(run.boil()), WithinRel(240.0, 1e-12));
  CHECK_THAT(in_seconds(run.first_drop()), WithinRel(340.0, 1e-12));
  CHECK_THAT(in_kilojoules(run.energy_at(seconds(240)).water_and_pot), WithinRel(240.0, 1e-12));
  // With a kilogram less: 20 + 60 x 4 / 5 = 68 degC, then 5 kJ/K x 32 K.
  run.refill(kilograms(1));
  CHECK_THAT(in_seconds(run.boil()), WithinRel(160.0, 1e-12));
  CHECK_THAT(in_seconds(run.first_drop()), WithinRel(260.0, 1e-12));
  // With the pot as warm as the water: 9 kJ/K x 20 K.
  v.pot_excess = kelvins(60);
  CHECK_THAT(in_seconds(Run(v).boil()), WithinRel(180.0, 1e-12));
  // With both colder than the room: 9 kJ/K x 100 K.
  v.fill_excess = v.pot_excess = kelvins(-20);
  CHECK_THAT(in_seconds(Run(v).boil()), WithinRel(900.0, 1e-12));
  // With losses, refilling a run gives the same as making a new one.
  v = lossy();
  v.fill_excess = kelvins(50);
  Run refilled(v);
  refilled.refill(kilograms(1.3));
  v.first_fill = kilograms(1.3);
  CHECK_THAT(in_seconds(refilled.boil()), WithinRel(in_seconds(Run(v).boil()), 1e-12));
}

TEST_CASE("where the water of that run is", "[run]") {
  const Run run(round_figures());
  // At first drop 50 g has condensed: 30 g is held and 20 g has dripped back.
  WaterBalance w = run.water_at(seconds(820));
  CHECK(w.distilled == grams(0));
  CHECK_THAT(in_grams(w.held), WithinRel(30.0, 1e-12));
  CHECK_THAT(in_grams(w.left), WithinRel(1970.0, 1e-12));
  // 2000 s later there has been 1000 g of vapour: 980 g was caught and 20 g was not condensed.
  w = run.water_at(seconds(2820));
  CHECK_THAT(in_grams(w.distilled), WithinRel(980.0, 1e-12));
  CHECK_THAT(in_grams(w.uncondensed), WithinRel(20.0, 1e-12));
  CHECK_THAT(in_grams(w.left), WithinRel(970.0, 1e-12));
  CHECK_THAT(in_millilitres(run.hydrosol_at(seconds(2820))), WithinRel(980.0, 1e-12));
  CHECK(run.hydrosol_at(seconds(500)) == litres(0));
  CHECK_THAT(in_seconds(run.time_of_hydrosol(millilitres(980))), WithinRel(2820.0, 1e-12));
  CHECK_THAT(in_seconds(run.time_until_left(grams(970))), WithinRel(2820.0, 1e-12));
  // The pot runs dry: 1970 g from first drop on at 0.5 g/s.
  CHECK_THAT(in_seconds(run.time_until_left(grams(0))), WithinRel(820 + 3940.0, 1e-12));
}

TEST_CASE("a lossy run, worked by hand", "[run]") {
  const Run run(lossy());
  REQUIRE_FALSE(run.failure());
  // Pot: C = 9000 J/K, UA = 1 W/K, 1000 W: t = -9000 ln(1 - 80/1000) = 750.43 s.
  CHECK_THAT(in_seconds(run.boil()), WithinRel(-9000 * std::log(0.92), 1e-12));
  // 920 W is left to make steam: 0.46 g/s.
  CHECK_THAT(run.steam_made().si(), WithinRel(0.46e-3, 1e-12));
  // Column: C = 1250, UA = 0.5, 920 W: t = -2500 ln(1 - 40/920) = 111.13 s.
  CHECK_THAT(in_seconds(run.first_drop() - run.boil()),
             WithinRel(-2500 * std::log(1 - 40.0 / 920), 1e-12));
  // 880 W is left for the condenser: 0.44 g/s.
  CHECK_THAT(run.vapour().si(), WithinRel(0.44e-3, 1e-12));
  // The charge keeps holding 0.02 g/s more until it holds 200 g.
  const double by_first_drop = 0.46 * in_seconds(run.first_drop() - run.boil());
  const Duration later = run.first_drop() + seconds(1000);
  CHECK_THAT(in_grams(run.water_at(later).held), WithinRel(by_first_drop + 20, 1e-9));
  const Duration full = run.first_drop() + seconds((200 - by_first_drop) / 0.02);
  CHECK_THAT(in_grams(run.water_at(full).held), WithinRel(200.0, 1e-9));
  // From then on only the vapour leaves the pot.
  const Mass before = run.water_at(full).left;
  CHECK_THAT(in_grams(before - run.water_at(full + seconds(100)).left), WithinRel(44.0, 1e-6));
}

TEST_CASE("water and heat are all accounted for at any time", "[run]") {
  for (const RunValues& v : {round_figures(), lossy()}) {
    const Run run(v);
    for (double s = 0; s < 6000; s += 37) {
      const WaterBalance w = run.water_at(seconds(s));
      CHECK_THAT((w.distilled + w.uncondensed + w.held + w.left).si(), WithinRel(2.0, 1e-12));
      const EnergyBalance e = run.energy_at(seconds(s));
      CHECK_THAT(e.residual().si(), WithinAbs(0.0, 1e-6));
      CHECK_THAT(e.put_in.si(), WithinAbs(1000 * s, 1e-6));
    }
  }
}

TEST_CASE("the loss shrinks to nothing without a jump", "[run]") {
  const Run none(round_figures());
  for (const double loss : {1e-14, 1e-10, 1e-6}) {
    RunValues v = round_figures();
    v.pot_loss = watts_per_kelvin(loss);
    v.column_loss = watts_per_kelvin(loss);
    const Run run(v);
    CHECK_THAT(in_seconds(run.boil()), WithinRel(in_seconds(none.boil()), 1e-6));
    CHECK_THAT(in_seconds(run.first_drop()), WithinRel(in_seconds(none.first_drop()), 1e-6));
    CHECK_THAT(run.water_at(hours(1)).left.si(),
               WithinRel(none.water_at(hours(1)).left.si(), 1e-6));
  }
}

TEST_CASE("time until a level is the inverse of the level", "[run]") {
  RunValues barely = lossy();
  barely.hold_up = kilograms(1);  // never reached
  RunValues soon = lossy();
  soon.hold_up = grams(10);  // reached before first drop
  for (const RunValues& v : {round_figures(), lossy(), barely, soon}) {
    const Run run(v);
    Duration last;
    for (double left = 1995; left >= 0; left -= 35) {
      CAPTURE(left);
      const Duration time = run.time_until_left(grams(left));
      CHECK(time >= last);
      CHECK_THAT(in_grams(run.water_at(time).left), WithinAbs(left, 1e-6));
      last = time;
    }
  }
  // A level above the starting level is reached at once.
  CHECK(Run(round_figures()).time_until_left(kilograms(3)) == seconds(0));
}

TEST_CASE("what the charge soaks up is gone from the start", "[run]") {
  RunValues v = round_figures();
  v.soaked = grams(500);
  const Run run(v);
  const WaterBalance w = run.water_at(seconds(0));
  CHECK_THAT(in_grams(w.left), WithinRel(1500.0, 1e-12));
  CHECK_THAT(in_grams(w.held), WithinRel(500.0, 1e-12));
  // The soaked water still has to be warmed.
  CHECK(run.boil() == Run(round_figures()).boil());
}

TEST_CASE("a pot that loses its heat never boils", "[run]") {
  RunValues v = round_figures();
  v.pot_loss = watts_per_kelvin(12.5);  // 1000 W at boiling
  CHECK(Run(v).failure() == RunFailure::never_boils);
  v.pot_loss = watts_per_kelvin(20);
  CHECK(Run(v).failure() == RunFailure::never_boils);
  v.pot_loss = watts_per_kelvin(12.4);
  CHECK_FALSE(Run(v).failure());
  // The pot would boil, but is then turned down below its loss.
  v.pot_loss = watts_per_kelvin(5);
  v.heat_boiling = watts(400);
  CHECK(Run(v).failure() == RunFailure::never_boils);
}

TEST_CASE("from boiling on it is the same with any fill", "[run]") {
  for (const RunValues& v : {round_figures(), lossy()}) {
    const Run run(v);
    const Boiling boiling = boiling_of(v);
    REQUIRE_FALSE(boiling.failure);
    CHECK(boiling.steam == run.steam_made());
    CHECK(boiling.vapour == run.vapour());
    CHECK_THAT(in_seconds(boiling.steaming),
               WithinRel(in_seconds(run.first_drop() - run.boil()), 1e-12));
    RunValues more = v;
    more.first_fill = kilograms(7);
    CHECK(boiling_of(more).steaming == boiling.steaming);
  }
  RunValues v = round_figures();
  v.pot_loss = watts_per_kelvin(12.5);
  CHECK(boiling_of(v).failure == RunFailure::never_boils);
  v = round_figures();
  v.heat_warming = watts(0);  // the heater is off until the pot boils, so it never does
  CHECK(boiling_of(v).failure == RunFailure::never_boils);
  v = round_figures();
  v.column_loss = watts_per_kelvin(12.5);
  CHECK(boiling_of(v).failure == RunFailure::never_at_the_top);
}

TEST_CASE("a column that loses all steam lets none through", "[run]") {
  RunValues v = round_figures();
  v.column_loss = watts_per_kelvin(12.5);
  CHECK(Run(v).failure() == RunFailure::never_at_the_top);
  v.column_loss = watts_per_kelvin(12.4);
  CHECK_FALSE(Run(v).failure());
}

TEST_CASE("oil comes from first drop on", "[run]") {
  const Run run(round_figures());
  CHECK(run.oil_vaporised_at(seconds(819)) == grams(0));
  CHECK_THAT(in_grams(run.oil_vaporised_at(run.first_drop() + minutes(10))), WithinRel(0.5, 1e-9));
  // 294 mL of hydrosol dissolves 0.147 g of it.
  CHECK_THAT(in_grams(run.oil_in_receiver_at(run.first_drop() + minutes(10))),
             WithinRel(0.5 - 0.147, 1e-9));
  const OilBalance oil = run.oil_at(run.first_drop() + minutes(10));
  CHECK_THAT(in_grams(oil.vaporised), WithinRel(0.5, 1e-9));
  CHECK_THAT(in_grams(oil.dissolved), WithinRel(0.147, 1e-9));
  CHECK_THAT(in_grams(oil.separated), WithinRel(0.353, 1e-9));
  CHECK_THAT(in_minutes(run.time_of_oil_share(percent(75)) - run.first_drop()),
             WithinRel(20.0, 1e-9));
  CHECK_FALSE(run.codistillation_limit_until());
}

TEST_CASE("separated oil stays separated but for what mixes with later water", "[run]") {
  // 29.4 mL/min dissolves 0.0147 g/min. Oil comes at ln 2 / 10 x 2^(-t/10) g/min. That falls to
  // 0.0147 g/min at t = 10 log2(0.0693147 / 0.0147) = 22.37 min. By then 0.7880 g has come over,
  // with 0.3289 g of it dissolved.
  RunValues v = round_figures();
  const double saturated = 10 * std::log2(std::log(2.0) / 10 / 0.0147);
  const double over = 1 - std::exp2(-saturated / 10);
  const double dissolved = 0.0147 * saturated;
  const auto at = [&](double mixing, double minutes_after) {
    v.mixing = fraction(mixing);
    const Run run(v);
    CHECK_THAT(in_minutes(run.saturated_until() - run.first_drop()), WithinRel(saturated, 1e-9));
    return run.oil_at(run.first_drop() + minutes(minutes_after));
  };
  for (const double mixing : {0.0, 0.3, 1.0}) {
    CHECK_THAT(in_grams(at(mixing, 10).dissolved), WithinRel(0.147, 1e-9));  // still saturated
    CHECK_THAT(in_grams(at(mixing, saturated).separated), WithinRel(over - dissolved, 1e-9));
  }
  // 40 min after first drop, 0.9375 g has come over.
  const double late = 1 - std::exp2(-4.0);
  CHECK_THAT(in_grams(at(0, 40).separated), WithinRel(over - dissolved, 1e-9));
  CHECK_THAT(in_grams(at(1, 40).separated), WithinRel(late - 0.0147 * 40, 1e-9));
  CHECK_THAT(in_grams(at(0.3, 40).separated),
             WithinRel(0.7 * (over - dissolved) + 0.3 * (late - 0.0147 * 40), 1e-9));
  // With mixing, all the oil eventually dissolves again; without mixing, it never does.
  CHECK_THAT(in_grams(at(1, 100).separated), WithinAbs(0.0, 1e-12));
  CHECK_THAT(in_grams(at(0, 1000).separated), WithinRel(over - dissolved, 1e-9));
  // If the water can dissolve more than comes from the start, no oil separates.
  v.hydrosol_oil = milligrams_per_litre(2400);
  v.mixing = fraction(0);
  CHECK(Run(v).saturated_until() == Run(v).first_drop());
  CHECK(in_grams(Run(v).oil_at(hours(1)).separated) == 0.0);
}

TEST_CASE("steam per charge sets the pace of the fast stage", "[run]") {
  RunValues v = round_figures();
  v.release = release_of_half_life(minutes(10), percent(60), percent(10));
  v.flow_effect.fast = fraction(0.7);
  v.charge = grams(900);  // 0.5 g/s of vapour gives 2 kg/(kg h)
  const Run run(v);
  CHECK_THAT(in_per_hour(run.steam_per_charge()), WithinRel(2.0, 1e-9));
  CHECK_THAT(double(run.release().fast_rate / v.release.fast_rate), WithinRel(1.7 / 1.35, 1e-9));
  CHECK(run.release().slow_rate == v.release.slow_rate);
}

TEST_CASE("the co-distillation limit holds for a while and then the plant does", "[run]") {
  RunValues v = round_figures();
  v.oil_recoverable = grams(10);
  v.oil_per_steam = percent(1);  // 0.5 g/s x 1 % = 0.3 g/min
  const Run run(v);
  const auto until = run.codistillation_limit_until();
  REQUIRE(until);
  const Duration since = *until - run.first_drop();
  // 10 (1 - 2^(-t/10)) = 0.3 t at 28.81 min, where both sides are 8.64 g.
  CHECK_THAT(in_minutes(since), WithinAbs(28.81, 0.01));
  CHECK_THAT(10 * (1 - std::exp2(-in_minutes(since) / 10)),
             WithinRel(0.3 * in_minutes(since), 1e-6));
  CHECK_THAT(in_grams(run.oil_vaporised_at(run.first_drop() + minutes(10))), WithinRel(3.0, 1e-9));
  CHECK_THAT(in_grams(run.oil_vaporised_at(run.first_drop() + minutes(60))),
             WithinRel(10 * (1 - std::exp2(-6.0)), 1e-9));
  // With plenty of steam, the limit never holds the oil back.
  v.oil_per_steam = fraction(10);
  CHECK_FALSE(Run(v).codistillation_limit_until());
}

TEST_CASE("more heat is never slower, more water never faster", "[run]") {
  Duration last = hours(100);
  for (double watts_in = 200; watts_in <= 3000; watts_in += 100) {
    RunValues v = lossy();
    v.heat_warming = watts(watts_in);
    v.heat_boiling = watts(watts_in);
    const Duration time = Run(v).time_of_hydrosol(litres(1));
    CHECK(time < last);
    last = time;
  }
  last = seconds(0);
  for (double fill = 0.5; fill < 10; fill += 0.5) {
    RunValues v = lossy();
    v.first_fill = kilograms(fill);
    CHECK(Run(v).boil() > last);
    last = Run(v).boil();
  }
}

TEST_CASE("another fill is as another run", "[run]") {
  RunValues v = lossy();
  for (const double litres_poured : {0.2, 1.0, 1.7, 12.0}) {
    Run refilled(v);
    refilled.refill(kilograms(litres_poured));
    v.first_fill = kilograms(litres_poured);
    const Run made(v);
    CHECK_THAT(refilled.boil().si(), WithinRel(made.boil().si(), 1e-12));
    CHECK_THAT(refilled.first_drop().si(), WithinRel(made.first_drop().si(), 1e-12));
    CHECK(refilled.vapour() == made.vapour());
    const Duration late = made.first_drop() + minutes(20);
    CHECK_THAT(refilled.water_at(late).left.si(), WithinRel(made.water_at(late).left.si(), 1e-9));
    CHECK_THAT(refilled.pot_temperature(made.boil() * 0.5).kelvin(),
               WithinRel(made.pot_temperature(made.boil() * 0.5).kelvin(), 1e-12));
    v = lossy();
  }
}

TEST_CASE("what is soaked at once is gone from the pot at heat on", "[run]") {
  Run run(lossy());
  const Duration late = run.first_drop() + minutes(20);
  const WaterBalance before = run.water_at(late);
  run.soak_at_once(run.values().hold_up);
  CHECK(run.values().hold_up == grams(0));
  CHECK_THAT(in_grams(run.water_at(seconds(0)).left), WithinRel(1800.0, 1e-12));
  // Without the soaking, the charge would hold at most as much water by then.
  CHECK(run.water_at(late).left <= before.left + grams(1e-9));
}
