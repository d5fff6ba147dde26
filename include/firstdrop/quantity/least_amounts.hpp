/// @file
/// The least amounts that recipes, campaigns, stills and plants may have. Anything smaller is a
/// slip of the unit or of the number: no still is that small, no scale or jug shows it. The readers
/// of files and gather_inputs() both refuse it.
///
/// Source: common practice, no source. Each lies far below anything that is distilled at a table.
#pragma once

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// A lower bound, and how people write it.
template <class Q>
struct Least {
  Q amount;           ///< the smallest that is taken
  const char* words;  ///< the same as text
};

/// Bounds of what a recipe or a campaign asks for, and of what was measured for it.
namespace least {

/// `charge`, and a campaign's `harvest`.
inline constexpr Least<Mass> herb = {grams(1), "1 g"};
/// `water`, `own.boil_water`, and hydrosol that is wanted.
inline constexpr Least<Volume> water = {millilitres(10), "10 mL"};
/// `goal.ratio`.
inline constexpr Least<SpecificVolume> ratio = {litres_per_kilogram(0.1), "0.1 L/kg"};
/// Oil that is wanted, by volume. Less than a drop, for a share of one run among many.
inline constexpr Least<Volume> oil_volume = {millilitres(0.001), "0.001 mL"};
/// Oil that is wanted, by mass.
inline constexpr Least<Mass> oil_mass = {grams(0.001), "0.001 g"};
/// Share of the oil that is wanted.
inline constexpr Least<Fraction> oil_share = {percent(1), "1 %"};
/// `goal.time`, `limits.time` and `own.boil_time`.
inline constexpr Least<Duration> run_time = {minutes(1), "1 min"};
/// `setting`.
inline constexpr Least<Fraction> setting = {percent(1), "1 %"};
/// How densely herb lies, in a recipe or a plant.
inline constexpr Least<Density> bulk_density = {grams_per_litre(1), "1 g/L"};
/// Oil in the herb, in a recipe or a plant: a hundredth of what roses hold.
inline constexpr Least<Fraction> oil_content = {percent(0.0001), "0.0001 %"};
/// `own.distillate_rate`.
inline constexpr Least<VolumeFlow> distillate = {millilitres_per_minute(0.1), "0.1 mL/min"};
/// `receiver`.
inline constexpr Least<Volume> receiver = {millilitres(10), "10 mL"};

// --- of a still

/// Room of a pot, column, grid or bath.
inline constexpr Least<Volume> vessel_volume = {millilitres(10), "10 mL"};
/// Inside, of a pot or column.
inline constexpr Least<Length> vessel_diameter = {millimetres(5), "5 mm"};
/// Of an empty pot, column or head.
inline constexpr Least<Mass> vessel_mass = {grams(1), "1 g"};
/// Of a head or condenser.
inline constexpr Least<Area> surface = {square_metres(1e-4), "1 cm2"};
/// Of a heater.
inline constexpr Least<Power> heater_power = {watts(10), "10 W"};
/// Of a heater, and how full a pot may be.
inline constexpr Least<Fraction> still_share = {percent(1), "1 %"};
/// Of a tap.
inline constexpr Least<VolumeFlow> tap = {millilitres_per_minute(1), "1 mL/min"};

// --- of a plant

/// In which half of the oil comes.
inline constexpr Least<Duration> half_life = {seconds(1), "1 s"};
/// Oil in the herb by volume.
inline constexpr Least<SpecificVolume> oil_volume_content = {litres_per_kilogram(1e-6),
                                                             "0.001 mL/kg"};
/// Of the oil that a still gets.
inline constexpr Least<Fraction> recovered = {percent(1), "1 %"};

/// Steam per charge, at which a release was measured.
inline constexpr Least<Rate> steam_flow = {Rate::from_si(0.001 / 3600.0), "0.001 1/h"};

}  // namespace least
}  // namespace firstdrop
