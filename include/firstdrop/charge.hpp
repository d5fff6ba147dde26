// The charge: its volume, the water it holds, what fits, and the steam that goes through it.
#pragma once

#include <optional>

#include "firstdrop/quantity.hpp"

namespace firstdrop {

/// The most that goes into a space of which `head_space` is left free.
Mass capacity(Volume space, Fraction head_space, Density bulk_density);

/// The most that goes into a pot of water (hydro): `water_ratio` litres per kilogram around it.
Mass capacity_in_water(Volume pot_to_fill_limit, SpecificVolume water_ratio,
                       Density particle_density);

/// Runs that it takes to use up `harvest`, evenly split. Needs capacity > 0.
int runs_needed(Mass harvest, Mass capacity);

/// Water that a drained charge holds beyond its own moisture: dry material soaks up to `hold_up`
/// (kg per kg dry matter) in all; material that already is wetter than that holds a film only.
Mass water_held(Mass charge, Fraction moisture, Fraction hold_up, Fraction film_hold_up);

/// Heat capacity of a moist charge: dry matter and the water in it.
HeatCapacity charge_heat_capacity(Mass charge, Fraction moisture, SpecificHeat dry_matter_heat,
                                  SpecificHeat water_heat);

/// Free space between the pieces: 1 - bulk density / density of the pieces, never below zero.
Fraction void_fraction(Density bulk_density, Density particle_density);

/// Steam velocity as if the column were empty.
Velocity superficial_velocity(MassFlow steam, Density steam_density, Area cross_section);

/// Pressure drop over a bed, by S. Ergun, "Fluid flow through packed columns", Chem. Eng. Prog. 48
/// (1952) 89-94: 150 mu (1-e)^2 v / (e^3 d^2) + 1.75 rho (1-e) v^2 / (e^3 d), times the height.
/// `particle_size` is six times volume over surface; for thin leaf that is three times its
/// thickness. Range: 0 < voids < 1, particle Reynolds number / (1 - voids) up to some thousands.
Pressure bed_pressure_drop(Velocity superficial, Density steam_density, Viscosity steam_viscosity,
                           Fraction voids, Length particle_size, Length bed_height);

/// A charge as it is packed for steam to pass.
struct Bed {
  Mass charge;
  Density bulk;
  Density pieces;        ///< of the plant tissue itself
  Length particle_size;  ///< as bed_pressure_drop() wants it
  Area cross_section;
};

struct BedFlow {
  Velocity superficial;
  std::optional<Pressure> pressure_drop;  ///< none where nothing is left between the pieces
};

/// Steam of these properties through a bed.
BedFlow steam_through(const Bed& bed, MassFlow steam, Density steam_density,
                      Viscosity steam_viscosity);

}  // namespace firstdrop
