// Warming and evaporation against worked examples: printed physics problems with their own
// constants, and figures worked out here.
#include <cmath>

#include "catch.hpp"
#include "physics/heat_balance.hpp"
#include "physics/run.hpp"
#include "physics/water.hpp"

using namespace firstdrop;

namespace {

/// A plain pot of water: no vessel, no column, no loss.
RunValues kettle(double kg, double from_c, double watts_in, double c_j_per_kg_k,
                 double latent_j_per_kg) {
  RunValues v;
  v.boiling = celsius(100);
  v.latent_heat = SpecificEnergy::from_si(latent_j_per_kg);
  v.room = celsius(from_c);
  v.water_heat = SpecificHeat::from_si(c_j_per_kg_k);
  v.first_fill = kilograms(kg);
  v.heat_warming = watts(watts_in);
  v.heat_boiling = watts(watts_in);
  v.distillate_density = kilograms_per_cubic_metre(1000);
  v.column_capacity = joules_per_kelvin(1e-9);
  v.charge = kilograms(1);
  v.release = release_of_half_life(minutes(10), percent(0), percent(10));
  v.flow_effect.reference = Rate::from_si(1.0 / 3600);
  v.mixing = fraction(1);
  return v;
}

}  // namespace

TEST_CASE("printed kettle problems, with their own constants", "[warming][reference]") {
  // assignmentexpert.com, molecular physics, question 3368: 2 kW at 90 %, 1 kg from 20 to 100 degC,
  // 4185.5 J/(kg K), 2270 kJ/kg: 186 s to the boil, 1261 s more until dry, 1447 s in all.
  const Run first(kettle(1, 20, in_watts(heat_into_pot(kilowatts(2), fraction(1), percent(90))),
                         4185.5, 2270e3));
  REQUIRE_FALSE(first.failure());
  CHECK_THAT(in_seconds(first.boil()), WithinAbs(186, 0.5));
  CHECK_THAT(in_seconds(first.time_until_left(grams(0)) - first.boil()), WithinAbs(1261, 0.5));
  CHECK_THAT(in_seconds(first.time_until_left(grams(0))), WithinAbs(1447, 1));

  // easyelimu.com, question 7176: 3 kW, 3 kg from 20 to 100 degC at 4200 J/(kg K), kettle 450 J/K,
  // 2.3 MJ/kg: 348 s to the boil, 2300 s more until dry.
  RunValues v = kettle(3, 20, 3000, 4200, 2.3e6);
  v.pot_capacity = joules_per_kelvin(450);
  const Run second(v);
  CHECK_THAT(in_seconds(second.boil()), WithinAbs(348, 0.5));
  CHECK_THAT(in_seconds(second.time_until_left(grams(0)) - second.boil()), WithinAbs(2300, 0.5));

  // univerkov.com: 1.5 kg from 20 to 100 degC, 2 kW at 84 %, 4200 J/(kg K): 300 s.
  const Run third(kettle(1.5, 20, 2000 * 0.84, 4200, 2.26e6));
  CHECK_THAT(in_seconds(third.boil()), WithinAbs(300, 0.5));

  // jiskha.com, 1312709543: 350 W on 1 kg at 40 degC, 4200 J/(kg K), 2260 kJ/kg; after an hour
  // 0.56 kg is left. The page has one slip: 1.26 - 0.252 = 0.998 MJ. With 1.008 MJ, 0.446 kg boils
  // off and 0.554 kg is left.
  const Run fourth(kettle(1, 40, 350, 4200, 2.26e6));
  CHECK_THAT(in_kilograms(fourth.water_at(hours(1)).left), WithinAbs(0.554, 0.0005));
}

TEST_CASE("the first of them with water as it is", "[warming][reference]") {
  // 2270 kJ/kg is 0.6 % above the steam table's 2256.5 at 100 degC, and 4185.5 is 0.13 % below the
  // mean of 4191. So the times become 186.3 s and 1253.6 s.
  const Run run(kettle(1, 20, 1800, mean_liquid_specific_heat(celsius(20), celsius(100)).si(),
                       latent_heat(celsius(100)).si()));
  CHECK_THAT(in_seconds(run.boil()), WithinRel(186.0, 3e-3));
  CHECK_THAT(in_seconds(run.time_until_left(grams(0)) - run.boil()), WithinRel(1261.0, 7e-3));
}

TEST_CASE("what net heat evaporates", "[warming][reference]") {
  // By hand with the steam table's 2256.5 kJ/kg at 101.325 kPa: 500 x 3.6 / 2256.5 = 0.7977 kg/h,
  // rounded to three decimals.
  const SpecificEnergy latent = latent_heat(saturation_temperature(kilopascals(101.325)));
  const auto steam = [&](double w) {
    return in_kilograms_per_hour(steam_made(watts(w), watts(0), latent));
  };
  CHECK_THAT(steam(500), WithinAbs(0.798, 0.0006));
  CHECK_THAT(steam(1000), WithinAbs(1.595, 0.0006));
  CHECK_THAT(steam(1500), WithinAbs(2.393, 0.0006));
  CHECK_THAT(steam(2000), WithinAbs(3.191, 0.0006));
  // A heat loss is subtracted in full.
  CHECK_THAT(in_kilograms_per_hour(steam_made(watts(620), watts(120), latent)),
             WithinAbs(0.798, 0.0006));
}

TEST_CASE("how long five litres take", "[warming][reference]") {
  // 5 kg from 20 to 99.97 degC, water only: 5 x 4.191 x 79.97 = 1675.9 kJ. At 2 kW and 85, 74 and
  // 40 % that takes 985.8, 1132.4 and 2094.9 s = 16.4, 18.9 and 34.9 min.
  const Temperature boiling = saturation_temperature(kilopascals(101.325));
  const auto warm = [&](double efficiency) {
    const HeatedBody pot{kilograms(5) * mean_liquid_specific_heat(celsius(20), boiling),
                         watts_per_kelvin(0), celsius(20),
                         heat_into_pot(kilowatts(2), fraction(1), fraction(efficiency))};
    return in_minutes(*time_to_reach(pot, celsius(20), boiling));
  };
  CHECK_THAT(warm(0.85), WithinAbs(16.4, 0.06));
  CHECK_THAT(warm(0.74), WithinAbs(18.9, 0.06));
  CHECK_THAT(warm(0.40), WithinAbs(34.9, 0.06));
}

TEST_CASE("the same with loss, worked out by hand", "[warming][reference]") {
  // 5 kg in 2 kg of steel (477 J/(kg K)): C = 20955 + 954 = 21909 J/K. UA = 1.5 W/K: 120 W at the
  // boil. Q = 1480 W: t = -(21909 / 1.5) ln(1 - 1.5 x 79.97 / 1480) = 14606 x 0.08453 = 1234.6 s.
  // Without loss it would be 21909 x 79.97 / 1480 = 1183.8 s. Taking the loss at its mean, 60 W,
  // gives the time to within a per cent: 1183.8 x 1480 / 1420 = 1233.8 s.
  const HeatedBody pot{joules_per_kelvin(21909), watts_per_kelvin(1.5), celsius(20), watts(1480)};
  const auto time = time_to_reach(pot, celsius(20), celsius(99.97));
  REQUIRE(time);
  CHECK_THAT(in_seconds(*time), WithinAbs(1234.6, 0.6));
  CHECK_THAT(in_seconds(*time), WithinRel(1233.8, 0.01));
}

TEST_CASE("a bench still's rule of thumb", "[warming][reference]") {
  // 1 kW at 74 % with 120 W lost leaves 620 W: 0.989 kg/h, "about a kilogram an hour".
  const Temperature boiling = saturation_temperature(kilopascals(101.325));
  CHECK_THAT(in_kilograms_per_hour(steam_made(heat_into_pot(kilowatts(1), fraction(1), percent(74)),
                                              watts(120), latent_heat(boiling))),
             WithinAbs(0.989, 0.001));
  // 1.5 kg of water in 1.2 kg of steel, 20 to 99.97 degC, 1.5 W/K: C = 6287 + 572 = 6859 J/K,
  // t = -(6859 / 1.5) ln(1 - 119.96 / 740) = 4572.7 x 0.17690 = 808.9 s, "about a quarter hour".
  const HeatedBody pot{joules_per_kelvin(6859), watts_per_kelvin(1.5), celsius(20), watts(740)};
  CHECK_THAT(in_seconds(*time_to_reach(pot, celsius(20), boiling)), WithinAbs(808.9, 1.0));
}

TEST_CASE("heat loss of a pot of common size", "[warming][reference]") {
  // 0.20 m wide, 0.25 m high: wall 0.157, lid 0.031 m2. Natural convection and radiation of bare
  // steel at 100 degC, computed elsewhere with the equations of S. W. Churchill and H. H. S. Chu
  // (1975), give 7.5 W/(m2 K) from the wall and 10.2 from the lid. 0.157 x 7.5 + 0.031 x 10.2 =
  // 1.498 W/K, which is 120 W at 80 K.
  const Volume volume = circle_area(metres(0.20)) * metres(0.25);
  const double wall = in_square_metres(cylinder_side(volume, metres(0.20)));
  CHECK_THAT(wall, WithinAbs(0.157, 0.0005));
  CHECK_THAT(in_square_metres(circle_area(metres(0.20))), WithinAbs(0.031, 0.0005));
  // The library uses one film coefficient for both. At 7.5 that is (0.157 + 0.031) x 7.5 x 80 =
  // 113 W, 6 % less.
  CHECK_THAT(
      80 *
          pot_loss(watts_per_square_metre_kelvin(7.5), volume, metres(0.20), square_metres(0)).si(),
      WithinRel(120.0, 0.06));
}
