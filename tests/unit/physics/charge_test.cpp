// The charge: hand-worked values, limits and inverses.
#include "physics/charge.hpp"

#include "catch.hpp"

using namespace firstdrop;

TEST_CASE("capacity leaves the head space free", "[charge]") {
  // 1 L with a tenth of it free, at 170 g/L, holds 153 g.
  CHECK_THAT(in_grams(capacity(litres(1), percent(10), grams_per_litre(170))),
             WithinRel(153.0, 1e-12));
  CHECK(capacity(litres(1), percent(100), grams_per_litre(170)) == grams(0));
  CHECK_THAT(in_grams(capacity(litres(1), percent(0), grams_per_litre(170))),
             WithinRel(170.0, 1e-12));
}

TEST_CASE("capacity in water fills the pot with water and pieces", "[charge]") {
  // 7.5 L / (2.5 + 1/0.95) L/kg = 2.1111 kg.
  const Mass charge =
      capacity_in_water(litres(7.5), litres_per_kilogram(2.5), kilograms_per_cubic_metre(950));
  CHECK_THAT(in_kilograms(charge), WithinRel(2.1111111, 1e-7));
  const Volume used = charge * litres_per_kilogram(2.5) + charge / kilograms_per_cubic_metre(950);
  CHECK_THAT(in_litres(used), WithinRel(7.5, 1e-12));
}

TEST_CASE("runs are counted up, but not for a rounding error", "[charge]") {
  CHECK(runs_needed(grams(1000), grams(400)) == 3);
  CHECK(runs_needed(grams(800), grams(400)) == 2);
  CHECK(runs_needed(grams(800.0000001), grams(400)) == 2);
  CHECK(runs_needed(grams(801), grams(400)) == 3);
  CHECK(runs_needed(grams(1), grams(400)) == 1);
  CHECK(runs_needed(grams(0), grams(400)) == 1);
  CHECK(runs_needed(kilograms(1e12), grams(0.001)) == 1000000000);
}

TEST_CASE("dry material soaks up water, wet material holds a film", "[charge]") {
  // 100 g at 10 %: 90 g dry x 2.5 - 10 g already there = 215 g.
  CHECK_THAT(in_grams(water_held(grams(100), percent(10), fraction(2.5), percent(8))),
             WithinRel(215.0, 1e-12));
  // 100 g at 70 %: 30 x 2.5 - 70 = 5 g is less than the film of 8 g.
  CHECK_THAT(in_grams(water_held(grams(100), percent(70), fraction(2.5), percent(8))),
             WithinRel(8.0, 1e-12));
  // 100 g at 95 % soaks up nothing and holds only the film; the result is never negative.
  CHECK_THAT(in_grams(water_held(grams(100), percent(95), fraction(2.5), percent(8))),
             WithinRel(8.0, 1e-12));
  CHECK(water_held(grams(100), percent(95), fraction(2.5), percent(0)) == grams(0));
  // The wetter the charge, the less it takes up.
  Mass last = kilograms(1);
  for (double moisture = 0; moisture < 95; moisture += 5) {
    const Mass held = water_held(grams(100), percent(moisture), fraction(2.5), percent(8));
    CHECK(held <= last);
    last = held;
  }
}

TEST_CASE("heat capacity is that of dry matter and water", "[charge]") {
  // 30 g x 1.4 + 70 g x 4.19 = 42 + 293.3 = 335.3 J/K.
  CHECK_THAT(charge_heat_capacity(grams(100), percent(70), kilojoules_per_kilogram_kelvin(1.4),
                                  kilojoules_per_kilogram_kelvin(4.19))
                 .si(),
             WithinRel(335.3, 1e-12));
}

TEST_CASE("voids are what the pieces leave, never below none", "[charge]") {
  CHECK_THAT(void_fraction(grams_per_litre(190), grams_per_litre(950)).si(), WithinRel(0.8, 1e-12));
  CHECK(void_fraction(grams_per_litre(1000), grams_per_litre(950)) == fraction(0));
}

TEST_CASE("superficial velocity is that of the empty column", "[charge]") {
  // 3.6 kg/h = 1 g/s of steam at 0.5 kg/m3 is 2 L/s; over 0.01 m2 that is 0.2 m/s.
  CHECK_THAT(superficial_velocity(kilograms_per_hour(3.6), kilograms_per_cubic_metre(0.5),
                                  square_metres(0.01))
                 .si(),
             WithinRel(0.2, 1e-12));
}

TEST_CASE("pressure drop: limits and monotony", "[charge]") {
  const auto drop = [](double velocity, double voids, double size, double height) {
    return bed_pressure_drop(metres_per_second(velocity), kilograms_per_cubic_metre(0.6),
                             pascal_seconds(1.2e-5), fraction(voids), millimetres(size),
                             metres(height))
        .si();
  };
  CHECK(drop(0, 0.5, 2, 0.2) == 0.0);
  CHECK(drop(0.05, 0.5, 2, 0) == 0.0);
  CHECK_THAT(drop(0.05, 0.5, 2, 0.4), WithinRel(2 * drop(0.05, 0.5, 2, 0.2), 1e-12));
  CHECK(drop(0.05, 0.4, 2, 0.2) > drop(0.05, 0.5, 2, 0.2));
  CHECK(drop(0.05, 0.5, 1, 0.2) > drop(0.05, 0.5, 2, 0.2));
  CHECK(drop(0.06, 0.5, 2, 0.2) > drop(0.05, 0.5, 2, 0.2));
  // Slow flow is viscous: the drop is proportional to the velocity and to 1/d2.
  CHECK_THAT(drop(2e-6, 0.5, 2, 0.2), WithinRel(2 * drop(1e-6, 0.5, 2, 0.2), 1e-4));
  CHECK_THAT(drop(1e-6, 0.5, 1, 0.2), WithinRel(4 * drop(1e-6, 0.5, 2, 0.2), 1e-4));
  // Fast flow is inertial: the drop is proportional to the square of the velocity.
  CHECK_THAT(drop(2e4, 0.5, 2, 0.2), WithinRel(4 * drop(1e4, 0.5, 2, 0.2), 1e-3));
}
