/// @file
/// The charge: its volume, the water it holds, what fits, and the steam that goes through it.
///
/// Nothing is checked here but what is said to be. Where zero divides, the result is infinite or
/// not a number.
#pragma once

#include <optional>

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// The most that goes into a space of which `head_space` is left free.
/// Range: head space 0 to 1, as a share of the space. Source: definition of bulk density.
Mass capacity(Volume space, Fraction head_space, Density bulk_density);

/// The most that goes into a pot of water (hydro), up to its fill limit: each kilogram takes the
/// room of its own pieces and of `water_ratio` around them.
/// Range: particle density above zero. Source: balance of volumes; the ratio is common practice.
Mass capacity_in_water(Volume pot_to_fill_limit, SpecificVolume water_ratio,
                       Density particle_density);

/// Runs that it takes to use up `harvest`, evenly split: 1 or more, at most 1e9. A harvest that is
/// over by a billionth of a run, a rounding error, needs no further one.
/// Range: harvest not below zero, capacity above zero; with both zero the result is undefined.
/// Source: definition.
int runs_needed(Mass harvest, Mass capacity);

/// Water that a drained charge holds beyond its own moisture: dry material soaks up to `hold_up`
/// (kg per kg dry matter) in all; material that already is wetter than that holds a film only
/// (`film_hold_up`, kg per kg charge), which dry material has at least, too.
/// Range: moisture 0 to 1. Source: definition of both hold-ups, whose figures are in the tables of
/// forms and practice.
Mass water_held(Mass charge, Fraction moisture, Fraction hold_up, Fraction film_hold_up);

/// Heat capacity of a moist charge: dry matter and the water in it.
/// Range: moisture 0 to 1. Source: sum over its parts.
HeatCapacity charge_heat_capacity(Mass charge, Fraction moisture, SpecificHeat dry_matter_heat,
                                  SpecificHeat water_heat);

/// Free space between the pieces: 1 - bulk density / density of the pieces, never below zero.
/// Range: particle density above zero. Source: balance of volumes.
Fraction void_fraction(Density bulk_density, Density particle_density);

/// Steam velocity as if the column were empty.
/// Range: density and cross-section above zero. Source: definition.
Velocity superficial_velocity(MassFlow steam, Density steam_density, Area cross_section);

/// Pressure drop over a bed: 150 mu (1-e)^2 v / (e^3 d^2) + 1.75 rho (1-e) v^2 / (e^3 d), times the
/// height. `particle_size` is six times volume over surface; for thin leaf that is three times its
/// thickness.
/// Range: 0 < voids < 1, particle size above zero, particle Reynolds number / (1 - voids) up to
/// some thousands.
/// Source: S. Ergun, "Fluid flow through packed columns", Chem. Eng. Prog. 48 (1952) 89-94.
Pressure bed_pressure_drop(Velocity superficial, Density steam_density, Viscosity steam_viscosity,
                           Fraction voids, Length particle_size, Length bed_height);

/// A charge as it is packed for steam to pass.
struct Bed {
  Mass charge;           ///< all of it
  Density bulk;          ///< of the charge as it lies; above zero
  Density pieces;        ///< of the plant tissue itself; above zero
  Length particle_size;  ///< as bed_pressure_drop() wants it
  Area cross_section;    ///< that steam passes; above zero
};

/// What steam does in a bed.
struct BedFlow {
  Velocity superficial;                   ///< as if the bed were empty
  std::optional<Pressure> pressure_drop;  ///< none where nothing is left between the pieces
};

/// Steam of these properties through a bed, whose height follows from its mass.
/// Range: as the members of Bed and bed_pressure_drop() say. Source: bed_pressure_drop().
BedFlow steam_through(const Bed& bed, MassFlow steam, Density steam_density,
                      Viscosity steam_viscosity);

}  // namespace firstdrop
