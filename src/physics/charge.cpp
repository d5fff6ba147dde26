#include "physics/charge.hpp"

#include <algorithm>
#include <cmath>

#include "physics/basis.hpp"

namespace firstdrop {

Mass capacity(Volume space, Fraction head_space, Density bulk_density) {
  return space * (1.0 - head_space) * bulk_density;
}

Mass capacity_in_water(Volume pot_to_fill_limit, SpecificVolume water_ratio,
                       Density particle_density) {
  return pot_to_fill_limit / (water_ratio + 1.0 / particle_density);
}

int runs_needed(Mass harvest, Mass capacity) {
  // The 1e-9 keeps a rounding error from adding a run.
  const double runs = std::ceil(harvest / capacity - 1e-9);
  return static_cast<int>(std::clamp(runs, 1.0, 1e9));
}

Mass water_held(Mass charge, Fraction moisture, Fraction hold_up, Fraction film_hold_up) {
  const Mass soaked = dry_matter(charge, moisture) * hold_up - charge * moisture;
  return std::max(soaked, charge * film_hold_up);
}

HeatCapacity charge_heat_capacity(Mass charge, Fraction moisture, SpecificHeat dry_matter_heat,
                                  SpecificHeat water_heat) {
  return dry_matter(charge, moisture) * dry_matter_heat + charge * moisture * water_heat;
}

Fraction void_fraction(Density bulk_density, Density particle_density) {
  return std::max(fraction(0), fraction(1.0 - bulk_density / particle_density));
}

Velocity superficial_velocity(MassFlow steam, Density steam_density, Area cross_section) {
  return steam / steam_density / cross_section;
}

Pressure bed_pressure_drop(Velocity v, Density rho, Viscosity mu, Fraction voids,
                           Length particle_size, Length bed_height) {
  const double e = voids;
  const double e3 = e * e * e;
  const double solid = 1.0 - e;
  const auto viscous = 150.0 * solid * solid / e3 * (mu * v / (particle_size * particle_size));
  const auto inertial = 1.75 * solid / e3 * (rho * v * v / particle_size);
  return (viscous + inertial) * bed_height;
}

BedFlow steam_through(const Bed& bed, MassFlow steam, Density steam_density,
                      Viscosity steam_viscosity) {
  BedFlow flow;
  flow.superficial = superficial_velocity(steam, steam_density, bed.cross_section);
  const Fraction voids = void_fraction(bed.bulk, bed.pieces);
  if (voids > fraction(0)) {
    flow.pressure_drop =
        bed_pressure_drop(flow.superficial, steam_density, steam_viscosity, voids,
                          bed.particle_size, bed.charge / bed.bulk / bed.cross_section);
  }
  return flow;
}

}  // namespace firstdrop
