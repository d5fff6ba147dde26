// Condenser and coolant against figures computed outside this project.
#include <utility>

#include "catch.hpp"
#include "physics/condenser.hpp"
#include "physics/water.hpp"

using namespace firstdrop;

namespace {

// The figures below were computed with python3-iapws (IF97) for saturated steam at 101.325 kPa.
const Temperature boiling = saturation_temperature(kilopascals(101.325));

SpecificEnergy to(double outlet_c) {
  return condensing_heat(boiling, celsius(outlet_c)).total();
}

CoolantVessel vessel(double kg) {
  CoolantVessel v;
  v.filling = kilograms(kg);
  v.first_ice = grams(0);
  v.start = celsius(5);
  v.limit = celsius(99);
  v.ice_per_change = grams(0);
  v.room = celsius(20);
  v.loss = watts_per_kelvin(0);
  return v;
}

}  // namespace

TEST_CASE("duty of condensing, by outlet temperature", "[condensing][reference]") {
  struct Row {
    double outlet_c;
    double kj_per_kg;
    double w_per_kg_h;
  };
  for (const Row& row : {Row{20, 2591.5, 719.9}, Row{25, 2570.6, 714.1}, Row{30, 2549.7, 708.2},
                         Row{35, 2528.8, 702.4}, Row{40, 2507.9, 696.6}, Row{60, 2424.3, 673.4}}) {
    CAPTURE(row.outlet_c);
    // The errors stated in water.hpp are 0.012 % of the latent heat (0.27 kJ/kg) and twice
    // 0.07 kJ/kg for the liquid. The last digit of the table rounds by 0.05.
    CHECK_THAT(in_kilojoules_per_kilogram(to(row.outlet_c)), WithinAbs(row.kj_per_kg, 0.41 + 0.05));
    CHECK_THAT(in_watts(kilograms_per_hour(1) * to(row.outlet_c)),
               WithinAbs(row.w_per_kg_h, 0.41 / 3.6 + 0.05));
  }
}

TEST_CASE("coolant per kilogram of distillate", "[condensing][reference]") {
  // With an outlet of 30 degC: 60.9, 30.5 and 20.3 kg at a rise of 10, 20 and 30 K, rounded to 0.1.
  // The figures use 4.184 kJ/(kg K), the code 4.189 (0.12 %).
  const auto kg = [](double rise) {
    return in_kilograms(
        coolant_flow(to(30) * kilograms(1) / seconds(1), celsius(15), celsius(15 + rise)) *
        seconds(1));
  };
  CHECK_THAT(kg(10), WithinAbs(60.9, 0.05 + 0.0012 * 60.9));
  CHECK_THAT(kg(20), WithinAbs(30.5, 0.05 + 0.0012 * 30.5));
  CHECK_THAT(kg(30), WithinAbs(20.3, 0.05 + 0.0012 * 20.3));
}

TEST_CASE("ice per kilogram of distillate", "[condensing][reference]") {
  // Melting only: 2549.7 / 333.55 = 7.64 kg. The constant in the code is 333.43 (0.04 %).
  CHECK_THAT(to(30) / ice_melting_heat, WithinAbs(7.64, 0.01));
  // With the melted ice warming as well, in a bath that is at its limit from the start: to
  // 20 degC 2549.7 / (333.55 + 83.9) = 6.11 kg, to 40 degC 2549.7 / (333.55 + 167.5) = 5.09 kg.
  const auto ice = [](double limit_c) {
    CoolantVessel v = vessel(20);
    v.start = celsius(limit_c);
    v.limit = celsius(limit_c);
    v.ice_per_change = kilograms(2);
    const Power duty = to(30) * kilograms_per_hour(1);
    return in_kilograms(CoolantRun(v, duty, hours(1)).ice());
  };
  CHECK_THAT(ice(20), WithinAbs(6.11, 0.01));
  CHECK_THAT(ice(40), WithinAbs(5.09, 0.01));
}

TEST_CASE("counterflow in two zones", "[condensing][reference]") {
  // 1.5 kg/h from 99.97 to 30 degC, water from 15 to 35 degC: 940.2 W condensing and 122.1 W
  // cooling, together 1062.4 W. There is 45.7 kg/h of water, at 17.30 degC between the zones. The
  // log means are 73.47 and 39.65 K. The surfaces are 0.0213 m2 (U = 600) and 0.0154 m2 (U = 200).
  const MassFlow steam = kilograms_per_hour(1.5);
  const CondensingHeat heat = condensing_heat(boiling, celsius(30));
  CHECK_THAT(in_watts(steam * heat.condensing), WithinAbs(940.2, 0.2));
  // 1062.4 minus 940.2 is 122.2, so the last digit of 122.1 is one too low.
  CHECK_THAT(in_watts(steam * heat.cooling), WithinAbs(122.1, 0.1 + 0.05));
  CHECK_THAT(in_watts(steam * heat.total()), WithinAbs(1062.4, 0.41 * 1.5 / 3.6 + 0.05));
  CHECK_THAT(in_kilograms_per_hour(coolant_flow(steam * heat.total(), celsius(15), celsius(35))),
             WithinAbs(45.7, 0.05));
  const auto surface = [&](double u) {
    return surface_in_counterflow(steam, watts_per_square_metre_kelvin(u), boiling, celsius(30),
                                  celsius(15), celsius(35));
  };
  CHECK_THAT(in_square_metres(surface(600).condensing), WithinAbs(0.0213, 0.00006));
  CHECK_THAT(in_square_metres(surface(200).cooling), WithinAbs(0.0154, 0.00006));
  // The log means, worked back from the surfaces.
  const double condensing_mean =
      in_watts(steam * heat.condensing) / (600 * in_square_metres(surface(600).condensing));
  const double cooling_mean =
      in_watts(steam * heat.cooling) / (200 * in_square_metres(surface(200).cooling));
  CHECK_THAT(condensing_mean, WithinAbs(73.47, 0.01));
  CHECK_THAT(cooling_mean, WithinAbs(39.65, 0.01));
  // The second log mean confirms the temperature between the zones. Its cold end is 30 - 15 = 15 K.
  CHECK_THAT(in_kelvins(log_mean(boiling - celsius(17.30), kelvins(15))), WithinAbs(39.65, 0.01));
  // A single log mean over both zones would be 34.09 K, half that of condensing.
  CHECK_THAT(in_kelvins(log_mean(boiling - celsius(35), kelvins(15))), WithinAbs(34.09, 0.01));
}

TEST_CASE("how far a reservoir warms", "[condensing][reference]") {
  // The same 1062.4 W for an hour without loss warms 40 kg by 22.9 K, 20 kg by 45.7 K and 10 kg by
  // 91.4 K (which is out of the question for a coolant), rounded to 0.1. The figures use
  // 4184 J/(kg K), the code 4189 (0.12 %).
  for (const auto& [kg, rise] :
       {std::pair{40.0, 22.9}, std::pair{20.0, 45.7}, std::pair{10.0, 91.4}}) {
    const CoolantRun run(vessel(kg), watts(1062.4), hours(1));
    CHECK_THAT(in_kelvins(run.end() - celsius(5)), WithinAbs(rise, 0.05 + 0.0012 * rise));
  }
  // One kilogram of distillate warms 10 kg by 2549.7 / 41.89 = 60.9 K.
  const CoolantRun run(vessel(10), to(30) * kilograms_per_hour(1), hours(1));
  CHECK_THAT(in_kelvins(run.end() - celsius(5)), WithinAbs(60.9, 0.15));
}

TEST_CASE("a reservoir that loses to the room", "[condensing][reference]") {
  // dT/dt = (Q - UA (T - T_room)) / C: 20 kg from 20 degC in a room at 20 degC, 500 W, 5 W/K. It
  // levels off at 120 degC; C = 83.78 kJ/K, time constant 16756 s; after an hour 20 + 100 (1 -
  // e^-0.21485) = 39.33 degC.
  CoolantVessel v = vessel(20);
  v.start = celsius(20);
  v.loss = watts_per_kelvin(5);
  const CoolantRun run(v, watts(500), hours(1));
  CHECK_THAT(in_celsius(run.end()), WithinAbs(39.33, 0.03));
}
