// Condenser and coolant: hand-worked values and limits. Comparisons with published steam-table
// figures are in tests/reference/condensing_test.cpp.
#include "physics/condenser.hpp"

#include <cmath>

#include "catch.hpp"
#include "physics/water.hpp"

using namespace firstdrop;

namespace {

constexpr Temperature boiling = celsius(100);

// The mean heat capacity that the condenser uses for coolant; the tests need it for closed forms.
SpecificHeat coolant_heat() {
  return mean_liquid_specific_heat(celsius(0.01), celsius(40));
}

CoolantVessel bucket() {
  CoolantVessel v;
  v.filling = kilograms(10);
  v.first_ice = grams(0);
  v.start = celsius(15);
  v.limit = celsius(35);
  v.ice_per_change = grams(0);
  v.room = celsius(20);
  v.loss = watts_per_kelvin(0);
  return v;
}

}  // namespace

TEST_CASE("steam gives up its latent heat and then its warmth", "[condenser]") {
  const CondensingHeat heat = condensing_heat(boiling, celsius(40));
  CHECK(heat.condensing == latent_heat(boiling));
  CHECK_THAT(heat.cooling.si(),
             WithinRel((mean_liquid_specific_heat(celsius(40), boiling) * kelvins(60)).si(), 1e-9));
  CHECK(heat.total() == heat.condensing + heat.cooling);
  CHECK(condensing_heat(boiling, boiling).cooling.si() == 0.0);
}

TEST_CASE("logarithmic mean", "[condenser]") {
  // (20 - 10) / ln 2 = 14.427.
  CHECK_THAT(in_kelvins(log_mean(kelvins(20), kelvins(10))), WithinRel(10 / std::log(2.0), 1e-12));
  CHECK_THAT(in_kelvins(log_mean(kelvins(10), kelvins(20))), WithinRel(10 / std::log(2.0), 1e-12));
  CHECK_THAT(in_kelvins(log_mean(kelvins(20), kelvins(20))), WithinRel(20.0, 1e-12));
  // Near equality it is the arithmetic mean, without loss of digits.
  for (const double gap : {1e-4, 1e-6, 1e-8, 1e-10, 1e-12}) {
    CHECK_THAT(in_kelvins(log_mean(kelvins(20 + gap), kelvins(20))), WithinRel(20 + gap / 2, 1e-7));
  }
  // It is below the arithmetic mean and above the geometric mean.
  const double mean = in_kelvins(log_mean(kelvins(80), kelvins(5)));
  CHECK(mean < 42.5);
  CHECK(mean > 20.0);
}

TEST_CASE("surface in a bath", "[condenser]") {
  // 3.6 kg/h = 1 g/s; coolant at 20 degC, distillate at 40 degC, U = 500 W/(m2 K).
  // Condensing: 2256.5 W / (500 x 80) = 0.05641 m2.
  // Cooling: about 251.6 W over the log mean of 80 and 20 K, 43.28 K: 0.01163 m2.
  const Surface surface =
      surface_in_bath(kilograms_per_hour(3.6), watts_per_square_metre_kelvin(500), boiling,
                      celsius(40), celsius(20));
  CHECK_THAT(in_square_metres(surface.condensing), WithinRel(0.05641, 1e-3));
  CHECK_THAT(in_square_metres(surface.cooling), WithinRel(0.01163, 2e-3));
  CHECK(surface.total() == surface.condensing + surface.cooling);
  // Condensing needs the same surface at any outlet temperature of the distillate.
  CHECK(condensing_in_bath(kilograms_per_hour(3.6), watts_per_square_metre_kelvin(500),
                           latent_heat(boiling), boiling, celsius(20)) == surface.condensing);
}

TEST_CASE("counterflow with no rise is a bath", "[condenser]") {
  const Surface bath = surface_in_bath(kilograms_per_hour(2), watts_per_square_metre_kelvin(700),
                                       boiling, celsius(40), celsius(20));
  const Surface flow =
      surface_in_counterflow(kilograms_per_hour(2), watts_per_square_metre_kelvin(700), boiling,
                             celsius(40), celsius(20), celsius(20));
  CHECK_THAT(in_square_metres(flow.condensing), WithinRel(in_square_metres(bath.condensing), 1e-9));
  CHECK_THAT(in_square_metres(flow.cooling), WithinRel(in_square_metres(bath.cooling), 1e-9));
  // Warmer coolant needs more surface. More steam needs proportionally more.
  const Surface warmer =
      surface_in_counterflow(kilograms_per_hour(2), watts_per_square_metre_kelvin(700), boiling,
                             celsius(40), celsius(20), celsius(60));
  CHECK(warmer.condensing > flow.condensing);
  CHECK(warmer.cooling > flow.cooling);
  const Surface twice =
      surface_in_counterflow(kilograms_per_hour(4), watts_per_square_metre_kelvin(700), boiling,
                             celsius(40), celsius(20), celsius(60));
  CHECK_THAT(in_square_metres(twice.total()),
             WithinRel(2 * in_square_metres(warmer.total()), 1e-12));
}

TEST_CASE("coolant flow takes the duty with its rise", "[condenser]") {
  // 838 W / (4.19 kJ/(kg K) x 20 K) = 10 g/s = 0.6 kg/min. The tolerance of 0.1 % is for the
  // heat capacity.
  CHECK_THAT(coolant_flow(watts(838), celsius(15), celsius(35)).si(), WithinRel(0.010, 1e-3));
}

TEST_CASE("a bucket without ice warms to its limit", "[condenser]") {
  // 10 kg x 4.19 x 20 K = 838 kJ, which takes about 838 s at 1 kW.
  const CoolantRun run(bucket(), kilowatts(1), minutes(30));
  REQUIRE(run.limit_reached());
  const double expected = (kilograms(10) * coolant_heat() * kelvins(20) / kilowatts(1)).si();
  CHECK_THAT(in_seconds(*run.limit_reached()), WithinRel(expected, 1e-9));
  CHECK_THAT(expected, WithinRel(838.0, 1e-3));
  CHECK(run.changes().empty());
  CHECK(run.ice() == grams(0));
  // It keeps warming past its limit.
  CHECK(run.end() > celsius(35));
  CHECK(run.warmest() == run.end());
  CHECK_THAT(in_celsius(run.temperature_at(seconds(expected))), WithinAbs(35.0, 1e-6));
  CHECK_THAT(in_celsius(run.temperature_at(seconds(0))), WithinAbs(15.0, 1e-9));
}

TEST_CASE("a run that ends before the limit never reaches it", "[condenser]") {
  const CoolantRun run(bucket(), kilowatts(1), seconds(400));
  CHECK_FALSE(run.limit_reached());
  CHECK_THAT(
      in_celsius(run.end()),
      WithinAbs(15 + (kilowatts(1) * seconds(400) / (kilograms(10) * coolant_heat())).si(), 1e-9));
  const CoolantRun none(bucket(), kilowatts(1), seconds(0));
  CHECK_FALSE(none.limit_reached());
  CHECK_THAT(in_celsius(none.end()), WithinAbs(15.0, 1e-9));
  CHECK_THAT(in_celsius(none.warmest()), WithinAbs(15.0, 1e-9));
}

TEST_CASE("a vessel that sheds the duty to the room levels off", "[condenser]") {
  CoolantVessel v = bucket();
  v.loss = watts_per_kelvin(20);  // 200 W levels off at 30 degC
  const CoolantRun run(v, watts(200), hours(100));
  CHECK_FALSE(run.limit_reached());
  CHECK_THAT(in_celsius(run.end()), WithinAbs(30.0, 1e-6));
}

TEST_CASE("ice keeps a bath at the ice point until it is gone", "[condenser]") {
  CoolantVessel v = bucket();
  v.start = celsius(10);
  v.first_ice = kilograms(2);
  // 8 kg of water at 10 degC gives 335 kJ and 2 kg of ice takes 667 kJ. So 332 kJ of melting is
  // left.
  const Energy water = kilograms(8) * coolant_heat() * kelvins(10);
  const Energy left = kilograms(2) * ice_melting_heat - water;
  const double melts = (left / kilowatts(1)).si();
  CHECK_THAT(melts, WithinRel(332.0, 5e-3));
  const CoolantRun run(v, kilowatts(1), minutes(60));
  CHECK_THAT(in_celsius(run.temperature_at(seconds(0))), WithinAbs(0.0, 1e-9));
  CHECK_THAT(in_celsius(run.temperature_at(seconds(melts * 0.999))), WithinAbs(0.0, 1e-9));
  CHECK(run.temperature_at(seconds(melts * 1.01)) > celsius(0));
  CHECK(run.ice() == kilograms(2));
  // From there to the limit: 10 kg x 35 K.
  REQUIRE(run.limit_reached());
  const double expected =
      melts + (kilograms(10) * coolant_heat() * kelvins(35) / kilowatts(1)).si();
  CHECK_THAT(in_seconds(*run.limit_reached()), WithinRel(expected, 1e-9));
}

TEST_CASE("ice that warm water melts at once only chills it", "[condenser]") {
  CoolantVessel v = bucket();
  v.start = celsius(30);
  v.first_ice = kilograms(1);
  // 9 kg at 30 degC and 1 kg of ice: (9 x 30 - 333.43 / 4.189) / 10 = 19.04 degC.
  const CoolantRun run(v, watts(1), seconds(0));
  CHECK_THAT(in_celsius(run.temperature_at(seconds(0))), WithinAbs(19.04, 0.01));
}

TEST_CASE("each change swaps warm water for ice", "[condenser]") {
  CoolantVessel v = bucket();
  v.start = celsius(35);  // at its limit from the start
  v.ice_per_change = kilograms(1);
  // A change takes 333.43 + 4.189 x 35 = 480.0 kJ, so at 1 kW there is one every 480 s. In 1200 s
  // they come at 0, 480 and 960 s. The last has to last half the time and has half the ice.
  const CoolantRun run(v, kilowatts(1), seconds(1200));
  const double swap = (ice_melting_heat + coolant_heat() * kelvins(35)).si() / 1e3;
  CHECK_THAT(swap, WithinRel(480.0, 1e-3));
  REQUIRE(run.changes().size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK_THAT(in_seconds(run.changes()[i].at), WithinAbs(static_cast<double>(i) * swap, 1e-6));
  }
  CHECK(run.changes()[0].ice == kilograms(1));
  CHECK(run.changes()[1].ice == kilograms(1));
  CHECK_THAT(in_kilograms(run.changes()[2].ice), WithinRel(1200 / swap - 2, 1e-6));
  CHECK_THAT(in_kilograms(run.ice()), WithinRel(1200 / swap, 1e-6));
  CHECK(run.warmest() <= v.limit);
  CHECK_THAT(in_celsius(run.end()), WithinAbs(35.0, 1e-3));
  CHECK(*run.limit_reached() == seconds(0));
}

TEST_CASE("with ice the coolant never passes its limit", "[condenser]") {
  for (const double loss : {0.0, 2.0, 10.0}) {
    for (const double room : {10.0, 25.0, 45.0}) {
      CoolantVessel v = bucket();
      v.first_ice = kilograms(1);
      v.ice_per_change = kilograms(0.7);
      v.loss = watts_per_kelvin(loss);
      v.room = celsius(room);
      const CoolantRun run(v, kilowatts(1), hours(2));
      CAPTURE(loss, room);
      CHECK(run.warmest() <= v.limit + kelvins(1e-9));
      for (double s = 0; s <= 7200; s += 60) {
        CHECK(run.temperature_at(seconds(s)) <= v.limit + kelvins(1e-6));
        CHECK(run.temperature_at(seconds(s)) >= celsius(0));
      }
      Mass sum = v.first_ice;
      Duration last = seconds(-1);
      for (const IceChange& change : run.changes()) {
        CHECK(change.at > last);
        CHECK(change.ice <= v.ice_per_change);
        sum += change.ice;
        last = change.at;
      }
      CHECK_THAT(in_kilograms(run.ice()), WithinRel(in_kilograms(sum), 1e-12));
    }
  }
}

TEST_CASE("a crumb of ice is no ice", "[condenser]") {
  CoolantVessel v = bucket();
  v.ice_per_change = grams(9);
  CHECK(CoolantRun(v, kilowatts(1), hours(1)).changes().empty());
}

TEST_CASE("a warmer room never needs less ice", "[condenser]") {
  CoolantVessel v = bucket();
  v.ice_per_change = kilograms(1);
  v.loss = watts_per_kelvin(3);
  Mass last;
  for (double room = 5; room <= 40; room += 5) {
    v.room = celsius(room);
    const Mass ice = CoolantRun(v, kilowatts(1), hours(1)).ice();
    CHECK(ice >= last);
    last = ice;
  }
}

TEST_CASE("the last change of ice minds a late stop", "[condenser]") {
  CoolantVessel v = bucket();
  v.start = celsius(35);
  v.ice_per_change = kilograms(1);
  // As above, changes come at 0, 480 and 960 s. The last has to last for the remaining 240 s of the
  // run and 120 s more, so it is 360 / 480 kg.
  const CoolantRun exact(v, kilowatts(1), seconds(1200));
  const CoolantRun late(v, kilowatts(1), seconds(1200), seconds(120));
  const double swap = (ice_melting_heat + coolant_heat() * kelvins(35)).si() / 1e3;
  REQUIRE(late.changes().size() == 3);
  CHECK(late.changes()[0].ice == kilograms(1));
  CHECK_THAT(in_kilograms(late.changes()[2].ice), WithinRel(1320 / swap - 2, 1e-6));
  CHECK_THAT(in_celsius(late.temperature_at(seconds(1320))), WithinAbs(35.0, 1e-3));
  CHECK(late.end() < celsius(33));  // the extra ice for a late stop keeps it cooler
  CHECK(exact.temperature_at(seconds(1320)) > celsius(37));
  // The last change is no larger than the others, and there is none after the run.
  const CoolantRun long_after(v, kilowatts(1), seconds(1200), hours(2));
  REQUIRE(long_after.changes().size() == 3);
  CHECK(long_after.changes()[2].ice == kilograms(1));
}

TEST_CASE("ice by a given schedule", "[condenser]") {
  CoolantVessel v = bucket();
  v.start = celsius(35);
  v.ice_per_change = grams(0);  // ignored with a given schedule
  // As above, one kilogram lasts 480 s and half a kilogram 240 s. Then there is no ice left.
  const double swap = (ice_melting_heat + coolant_heat() * kelvins(35)).si() / 1e3;
  const std::vector<Mass> ice = {kilograms(1), kilograms(0.5)};
  const CoolantRun run(v, kilowatts(1), seconds(1000), ice);
  REQUIRE(run.changes().size() == 2);
  CHECK(run.changes()[0].ice == kilograms(1));
  CHECK_THAT(in_seconds(run.changes()[1].at), WithinRel(swap, 1e-9));
  CHECK(run.changes()[1].ice == kilograms(0.5));
  CHECK_THAT(in_celsius(run.temperature_at(seconds(1.5 * swap))), WithinAbs(35.0, 1e-6));
  CHECK(run.end() > v.limit + kelvins(5));
  CHECK(run.warmest() == run.end());
  // A shorter run does not use up the schedule.
  CHECK(CoolantRun(v, kilowatts(1), seconds(400), ice).changes().size() == 1);
  CHECK(CoolantRun(v, kilowatts(1), seconds(400), std::vector<Mass>{}).changes().empty());
}

TEST_CASE("ice that goes in at its time", "[condenser]") {
  // Water between 0 and 40 degC has 4.19 kJ/(kg K) (steam tables: 167.5 kJ/kg at 40 degC).
  CoolantVessel v = bucket();
  v.loss = watts_per_kelvin(0);
  const CoolantRun plain(v, kilowatts(1), seconds(300));
  const IceChange planned{seconds(200), grams(500)};
  const CoolantRun run(v, kilowatts(1), seconds(300), seconds(0), planned);
  REQUIRE(run.changes().size() == plain.changes().size() + 1);
  CHECK_THAT(in_grams(run.ice() - plain.ice()), WithinRel(500.0, 1e-12));
  const Temperature before = run.temperature_at(seconds(199.999));
  const Temperature after = run.temperature_at(seconds(200.001));
  CHECK_THAT(in_kelvins(before - plain.temperature_at(seconds(199.999))), WithinAbs(0, 1e-9));
  // Half a kilogram of ice replaces half a kilogram of water at that temperature.
  const double capacity_kj_per_k = in_kilograms(v.filling) * 4.19;
  const double taken_kj = 0.5 * (333.6 + 4.19 * in_celsius(before));
  CHECK_THAT(in_kelvins(before - after), WithinRel(taken_kj / capacity_kj_per_k, 1e-3));
  // It then warms as fast as without the ice, because there is no heat loss.
  CHECK_THAT(in_kelvins(run.end() - after),
             WithinRel(in_kelvins(plain.end() - plain.temperature_at(seconds(200.001))), 1e-9));
  // Less than 10 g is ignored, and ice is capped at the filling.
  CHECK(CoolantRun(v, kilowatts(1), seconds(300), seconds(0), {seconds(200), grams(9)})
            .changes()
            .size() == plain.changes().size());
  CHECK(CoolantRun(v, kilowatts(1), seconds(300), seconds(0), {seconds(200), v.filling * 2.0})
            .changes()
            .back()
            .ice == v.filling);
}
