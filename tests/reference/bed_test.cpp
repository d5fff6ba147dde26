// Ergun's equation against another implementation and against rows computed outside this project.
#include "catch.hpp"
#include "physics/charge.hpp"
#include "physics/water.hpp"

using namespace firstdrop;

TEST_CASE("pressure drop against the library fluids", "[bed][reference]") {
  // github.com/CalebBell/fluids, commit 091070e, Ergun docstring and test: particles 8e-4 m, voids
  // 0.4, 1e-3 m/s, 1000 kg/m3, 1e-3 Pa s, 1 m: 1338.867 Pa (printed to 1e-3).
  const Pressure drop =
      bed_pressure_drop(metres_per_second(1e-3), kilograms_per_cubic_metre(1000),
                        pascal_seconds(1e-3), fraction(0.4), millimetres(0.8), metres(1));
  CHECK_THAT(in_pascals(drop), WithinAbs(1338.867, 0.0006));
  // By hand: 150 x 1e-3 x 0.36 x 1e-3 / (0.064 x 6.4e-7) = 1318.359; 1.75 x 1000 x 0.6 x 1e-6 /
  // (0.064 x 8e-4) = 20.508.
  CHECK_THAT(in_pascals(drop), WithinAbs(1318.359 + 20.508, 0.001));
}

TEST_CASE("steam through herb and through powder", "[bed][reference]") {
  // Steam at 100 degC, 0.5981 kg/m3 and 1.2232e-5 Pa s, computed outside this project: velocity to
  // three digits, kg/(h m2), Pa to two or three digits.
  struct Row {
    double kg_h, diameter, size_mm, voids, height;
    double velocity, velocity_digit, per_area, pascals, pascals_digit;
  };
  for (const Row& row : {Row{1, 0.20, 5, 0.5, 0.2, 0.0148, 5e-5, 31.8, 0.47, 0.005},
                         Row{3, 0.20, 5, 0.5, 0.2, 0.0443, 5e-5, 95.5, 1.63, 0.005},
                         Row{3, 0.20, 2, 0.4, 0.3, 0.0443, 5e-5, 95.5, 37.2, 0.05},
                         Row{4, 0.15, 1, 0.35, 0.3, 0.105, 5e-4, 226, 623, 0.5}}) {
    CAPTURE(row.kg_h, row.size_mm);
    const Area area = circle_area(metres(row.diameter));
    const Velocity velocity =
        superficial_velocity(kilograms_per_hour(row.kg_h), kilograms_per_cubic_metre(0.5981), area);
    CHECK_THAT(velocity.si(), WithinAbs(row.velocity, 1.01 * row.velocity_digit));
    CHECK_THAT(row.kg_h / in_square_metres(area), WithinAbs(row.per_area, 0.5));
    const Pressure drop =
        bed_pressure_drop(velocity, kilograms_per_cubic_metre(0.5981), pascal_seconds(1.2232e-5),
                          fraction(row.voids), millimetres(row.size_mm), metres(row.height));
    CHECK_THAT(in_pascals(drop), WithinAbs(row.pascals, 1.01 * row.pascals_digit));
    // With density and viscosity of steam from water.hpp, whose stated errors are 0.014 and 0.9 %.
    const Density steam = saturated_vapour_density(celsius(100));
    const Pressure own =
        bed_pressure_drop(superficial_velocity(kilograms_per_hour(row.kg_h), steam, area), steam,
                          saturated_vapour_viscosity(celsius(100)), fraction(row.voids),
                          millimetres(row.size_mm), metres(row.height));
    CHECK_THAT(in_pascals(own), WithinRel(in_pascals(drop), 0.012));
  }
}

TEST_CASE("voids of a plant bed", "[bed][reference]") {
  // A paper on supercritical extraction that could not be identified further gives 1046 kg/m3 for
  // the solid, 411.8 kg/m3 in bulk and voids of 0.6: 1 - 411.8 / 1046 = 0.606.
  CHECK_THAT(void_fraction(kilograms_per_cubic_metre(411.8), kilograms_per_cubic_metre(1046)).si(),
             WithinAbs(0.606, 0.0005));
}
