/// @file
/// The charge: how much fits, the water it holds, and the steam that passes through it.
///
/// The functions don't check their arguments. A division by zero makes the result infinite or not a
/// number.
#pragma once

#include <optional>

#include "firstdrop/quantity/quantity.hpp"
#include "quantity/equation.hpp"

namespace firstdrop {

namespace cited {
inline constexpr EquationSource ergun{"ergun-1952", "pressure drop of the bed"};
}  // namespace cited

/// The largest charge for a space of which the share `head_space` is left free.
/// Range: head space 0 to 1, as a share of the space. Source: definition of bulk density.
Mass capacity(Volume space, Fraction head_space, Density bulk_density);
namespace equations {
inline constexpr Equation<Mass> capacity{"m_fits", "charge that fits", shown_in::grams,
                                         "V_space / 1000 * (1 - head / 100) * rho_b"};
inline constexpr Equation<Volume> charge_volume{"V_charge", "volume that the charge fills",
                                                shown_in::millilitres, "m / rho_b * 1000"};
inline constexpr Equation<Fraction> fill{"fill", "share of its space that the charge fills",
                                         shown_in::percent, "V_charge / V_space * 100"};
}  // namespace equations

/// The largest charge for a pot of water (hydro), filled to its fill limit. Each kilogram takes up
/// the volume of its own pieces plus `water_ratio` of water around them.
/// Range: particle density above zero. Source: balance of volumes; the ratio is common practice.
Mass capacity_in_water(Volume pot_to_fill_limit, SpecificVolume water_ratio,
                       Density particle_density);
namespace equations {
inline constexpr Equation<Mass> capacity_in_water{
    "m_fits", "charge that fits in the pot with its water", shown_in::grams,
    "1000 * V_pot / 1000 * fill_max / 100 / (w_herb + 1000 / rho_p)"};
inline constexpr Equation<Volume> volume_of_pieces{"V_charge", "volume of the plant pieces",
                                                   shown_in::millilitres, "m / rho_p * 1000"};
}  // namespace equations

/// Number of runs, from 1 to 1e9, that use up `harvest` in equal charges. An excess of up to a
/// billionth of a run counts as a rounding error and needs no further run.
/// Range: harvest not below zero, capacity above zero; with both zero the result is undefined.
/// Source: definition.
int runs_needed(Mass harvest, Mass capacity);
namespace equations {
inline constexpr Equation<Mass> charge_of_run{"m", "charge of one run", shown_in::grams,
                                              "m_all / n"};
inline constexpr Equation<Mass> harvest{"m_all", "charge of all runs", shown_in::grams, "m * n"};
inline constexpr Equation<Mass> charge_used{"m_runs", "charge of all runs", shown_in::grams,
                                            "m * n"};
inline constexpr Equation<Mass> charge_left_over{"m_over", "charge left over", shown_in::grams,
                                                 "m_all - m_runs"};
}  // namespace equations

/// Water that a drained charge holds beyond its own moisture. Dry material soaks up water until it
/// holds `hold_up` in total (kg per kg dry matter). Material that is already wetter holds only a
/// film (`film_hold_up`, kg per kg charge). The film is also the least that dry material holds.
/// Range: moisture 0 to 1. Source: definition of both hold-ups; their figures are in the tables of
/// plant forms and of design defaults.
Mass water_held(Mass charge, Fraction moisture, Fraction hold_up, Fraction film_hold_up);
namespace equations {
inline constexpr Equation<Mass> soaked{"m_soak", "water that the charge can take up",
                                       shown_in::grams,
                                       "max(m_dry * hold - m * x / 100, m * film)"};
}  // namespace equations

/// Heat capacity of a moist charge: its dry matter and the water in it.
/// Range: moisture 0 to 1. Source: sum of the two parts.
HeatCapacity charge_heat_capacity(Mass charge, Fraction moisture, SpecificHeat dry_matter_heat,
                                  SpecificHeat water_heat);
namespace equations {
inline constexpr Equation<HeatCapacity> charge_heat_capacity{
    "C_charge", "heat capacity of the charge", shown_in::kilojoules_per_kelvin,
    "(m_dry * c_dry + m * x / 100 * c_w) / 1000"};
}  // namespace equations

/// Share of free space between the pieces: 1 - bulk density / particle density, never below zero.
/// Range: particle density above zero. Source: balance of volumes.
Fraction void_fraction(Density bulk_density, Density particle_density);
namespace equations {
inline constexpr Equation<Fraction> void_fraction{"e", "share of free space in the bed",
                                                  shown_in::ratio("m3/m3"), "1 - rho_b / rho_p"};
}  // namespace equations

/// Steam velocity in the cross-section of the empty column.
/// Range: density and cross-section above zero. Source: definition.
Velocity superficial_velocity(MassFlow steam, Density steam_density, Area cross_section);
namespace equations {
inline constexpr Equation<Velocity> steam_velocity{"v", "steam velocity, as if the bed were empty",
                                                   shown_in::centimetres_per_second,
                                                   "S / 60 / 1000 / rho_s / A_bed * 100"};
}  // namespace equations

/// Pressure drop over a bed: 150 mu (1-e)^2 v / (e^3 d^2) + 1.75 rho (1-e) v^2 / (e^3 d), times the
/// height. `particle_size` is six times volume over surface. For a thin leaf, that is three times
/// its thickness.
/// Range: 0 < voids < 1, particle size above zero, particle Reynolds number / (1 - voids) up to
/// a few thousand.
/// Source: S. Ergun, "Fluid flow through packed columns", Chem. Eng. Prog. 48 (1952) 89-94.
Pressure bed_pressure_drop(Velocity superficial, Density steam_density, Viscosity steam_viscosity,
                           Fraction voids, Length particle_size, Length bed_height);
namespace equations {
inline constexpr Equation<Pressure> bed_pressure_drop{
    "p_bed", "pressure drop of the bed", shown_in::pascals,
    "(150 * mu_s * (1 - e) ^ 2 / e ^ 3 * v / 100 / (d_p / 1000) ^ 2 + 1.75 * rho_s * (1 - "
    "e) / e ^ 3 * (v / 100) ^ 2 / (d_p / 1000)) * m / rho_b / 1000 / A_bed",
    cited::ergun};
}  // namespace equations

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
