/// @file
/// The charge: how much fits, the water it holds, and the steam that passes through it.
///
/// The functions don't check their arguments. A division by zero makes the result infinite or not a
/// number.
#pragma once

#include <optional>

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// The largest charge for a space of which the share `head_space` is left free.
/// Range: head space 0 to 1, as a share of the space. Source: definition of bulk density.
Mass capacity(Volume space, Fraction head_space, Density bulk_density);

/// The largest charge for a pot of water (hydro), filled to its fill limit. Each kilogram takes up
/// the volume of its own pieces plus `water_ratio` of water around them.
/// Range: particle density above zero. Source: balance of volumes; the ratio is common practice.
Mass capacity_in_water(Volume pot_to_fill_limit, SpecificVolume water_ratio,
                       Density particle_density);

/// Number of runs, from 1 to 1e9, that use up `harvest` in equal charges. An excess of up to a
/// billionth of a run counts as a rounding error and needs no further run.
/// Range: harvest not below zero, capacity above zero; with both zero the result is undefined.
/// Source: definition.
int runs_needed(Mass harvest, Mass capacity);

/// Water that a drained charge holds beyond its own moisture. Dry material soaks up water until it
/// holds `hold_up` in total (kg per kg dry matter). Material that is already wetter holds only a
/// film (`film_hold_up`, kg per kg charge). The film is also the least that dry material holds.
/// Range: moisture 0 to 1. Source: definition of both hold-ups; their figures are in the tables of
/// plant forms and of design defaults.
Mass water_held(Mass charge, Fraction moisture, Fraction hold_up, Fraction film_hold_up);

/// Heat capacity of a moist charge: its dry matter and the water in it.
/// Range: moisture 0 to 1. Source: sum of the two parts.
HeatCapacity charge_heat_capacity(Mass charge, Fraction moisture, SpecificHeat dry_matter_heat,
                                  SpecificHeat water_heat);

/// Share of free space between the pieces: 1 - bulk density / particle density, never below zero.
/// Range: particle density above zero. Source: balance of volumes.
Fraction void_fraction(Density bulk_density, Density particle_density);

/// Steam velocity in the cross-section of the empty column.
/// Range: density and cross-section above zero. Source: definition.
Velocity superficial_velocity(MassFlow steam, Density steam_density, Area cross_section);

/// Pressure drop over a bed: 150 mu (1-e)^2 v / (e^3 d^2) + 1.75 rho (1-e) v^2 / (e^3 d), times the
/// height. `particle_size` is six times volume over surface. For a thin leaf, that is three times
/// its thickness.
/// Range: 0 < voids < 1, particle size above zero, particle Reynolds number / (1 - voids) up to
/// a few thousand.
/// Source: S. Ergun, "Fluid flow through packed columns", Chem. Eng. Prog. 48 (1952) 89-94.
Pressure bed_pressure_drop(Velocity superficial, Density steam_density, Viscosity steam_viscosity,
                           Fraction voids, Length particle_size, Length bed_height);

/// A packed charge that steam passes through.
struct Bed {
  Mass charge;           ///< its total mass
  Density bulk;          ///< bulk density of the packed charge; above zero
  Density pieces;        ///< density of the plant tissue itself; above zero
  Length particle_size;  ///< as defined by bed_pressure_drop()
  Area cross_section;    ///< cross-section open to the steam; above zero
};

/// Flow of steam through a bed.
struct BedFlow {
  Velocity superficial;                   ///< as if the bed were empty
  std::optional<Pressure> pressure_drop;  ///< none when there are no voids between the pieces
};

/// Velocity and pressure drop of steam in a bed. The bed's height follows from its mass, bulk
/// density and cross-section.
/// Range: as for the members of Bed and bed_pressure_drop(). Source: bed_pressure_drop().
BedFlow steam_through(const Bed& bed, MassFlow steam, Density steam_density,
                      Viscosity steam_viscosity);

}  // namespace firstdrop
