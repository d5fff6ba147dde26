/// @file
/// The condenser must take the heat away: duty, surface, coolant and ice.
///
/// Nothing is checked but what is said to be. Where zero divides, the result is infinite or not a
/// number.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "firstdrop/physics/course.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "physics/heated_body.hpp"

namespace firstdrop {

/// Heat that a kilogram of steam gives up on its way from saturated vapour at `boiling` to
/// distillate at `outlet` (<= boiling).
struct CondensingHeat {
  SpecificEnergy condensing;  ///< latent heat
  SpecificEnergy cooling;     ///< of the condensate down to the outlet
  /// Both together.
  SpecificEnergy total() const { return condensing + cooling; }
};
/// The heat of condensing at `boiling` and cooling to `outlet`.
/// Range: both 273.16 to 647.096 K; throws RangeError outside. An outlet above `boiling` gives
/// cooling below zero. Source: latent_heat() and saturated_liquid_enthalpy().
CondensingHeat condensing_heat(Temperature boiling, Temperature outlet);

/// Logarithmic mean of two temperature differences: (a - b) / ln(a / b), for equal ones their mean.
/// Range: both above zero; one of zero gives zero. Source: textbook definition (from memory).
TemperatureDifference log_mean(TemperatureDifference a, TemperatureDifference b);

/// Condensing surface in two zones, Q / (U LMTD) each.
struct Surface {
  Area condensing;  ///< least surface at which no steam escapes
  Area cooling;     ///< more of it, for the distillate to leave at the outlet temperature
  /// Both together.
  Area total() const { return condensing + cooling; }
};

/// Surface in a vessel whose coolant is everywhere at `coolant`: ice bath, reservoir. `u` is the
/// overall heat transfer of the wall.
/// Range: coolant < outlet < boiling, u above zero; temperatures as condensing_heat(), which throws
/// RangeError. Source: Q = U A LMTD for each zone (from memory).
Surface surface_in_bath(MassFlow steam, HeatTransfer u, Temperature boiling, Temperature outlet,
                        Temperature coolant);

/// The same where that heat is known; throws nothing.
/// Range: coolant < outlet < boiling, u above zero. Source: as above.
Surface surface_in_bath(MassFlow steam, HeatTransfer u, const CondensingHeat& heat,
                        Temperature boiling, Temperature outlet, Temperature coolant);

/// The condensing zone of it alone, which does not depend on the outlet; throws nothing.
/// Range: coolant < boiling, u above zero. Source: as above.
Area condensing_in_bath(MassFlow steam, HeatTransfer u, SpecificEnergy latent_heat,
                        Temperature boiling, Temperature coolant);

/// Surface with coolant run through in counterflow from `coolant_in` to `coolant_out`: cooling zone
/// first, then condensing zone.
/// Range: coolant_in < outlet < boiling, coolant_out < boiling, u above zero; temperatures as
/// condensing_heat(), which throws RangeError. Source: as surface_in_bath().
Surface surface_in_counterflow(MassFlow steam, HeatTransfer u, Temperature boiling,
                               Temperature outlet, Temperature coolant_in, Temperature coolant_out);

/// The same where that heat is known; throws nothing.
/// Range: coolant_in < outlet < boiling, coolant_out < boiling, u above zero. Source: as above.
Surface surface_in_counterflow(MassFlow steam, HeatTransfer u, const CondensingHeat& heat,
                               Temperature boiling, Temperature outlet, Temperature coolant_in,
                               Temperature coolant_out);

/// Coolant flow that takes `duty` with this rise, with the heat capacity of water between 0 and
/// 40 °C (mean_liquid_specific_heat()).
/// Range: a rise above zero. Source: heat balance of the coolant.
MassFlow coolant_flow(Power duty, Temperature coolant_in, Temperature coolant_out);

/// Less ice than this is no ice change; it would also make a schedule endless.
inline constexpr Mass least_ice = grams(10);
/// More changes than this are not followed.
inline constexpr std::size_t most_ice_changes = 500;

/// An ice bath or a reservoir, mixed through.
struct CoolantVessel {
  Mass filling;         ///< water and ice together, above 0; as ice goes in, as much water goes out
  Mass first_ice;       ///< of it, ice at the start; more than the filling counts as all of it
  Temperature start;    ///< of the water before the ice goes in
  Temperature limit;    ///< warmest allowed, above 0 °C
  Mass ice_per_change;  ///< below 10 g: none to be had; at most 500 times
  Temperature room;     ///< around it
  Conductance loss;     ///< to the room; a cold vessel gains
};

/// What a vessel does under a constant duty: first its ice melts at 0 °C, then it warms as a
/// HeatedBody. Heat of melting: ice_melting_heat. All times count from the start of condensing.
class CoolantRun {
 public:
  /// Follows the vessel for `time`. Ice changes come when the limit is reached, each as large as
  /// the vessel takes, the last no larger than the rest of the run needs, with as much more as
  /// `beyond` takes, when nobody may be there to change ice. `planned` goes in at its time (within
  /// the run) whatever the coolant's temperature; below 10 g it is none. There are 500 changes at
  /// most; after the last, and where there is no ice, the coolant may get warmer than its limit.
  /// Range: duty above zero, times not below zero.
  CoolantRun(const CoolantVessel& vessel, Power duty, Duration time, Duration beyond = seconds(0),
             const IceChange& planned = {});
  /// The same with so much ice at each change, one after the other; but no more than the filling,
  /// and none after the last.
  CoolantRun(const CoolantVessel& vessel, Power duty, Duration time, const std::vector<Mass>& ice);

  /// Temperature at a time from 0 on; past the run without new ice.
  Temperature temperature_at(Duration time) const;
  /// Temperature at the end of the run.
  Temperature end() const { return end_; }
  /// The highest during the run.
  Temperature warmest() const { return warmest_; }
  /// Ice that went in, in order of time; without that of the first filling.
  const std::vector<IceChange>& changes() const { return changes_; }
  /// All ice, that of the first filling included.
  Mass ice() const;
  /// When the vessel first gets to its limit, if it does within the run.
  std::optional<Duration> limit_reached() const { return limit_reached_; }

 private:
  /// As the run finds it, and not followed yet.
  CoolantRun(const CoolantVessel& vessel, Power duty);
  /// `next_ice` says how much goes in at a change at this time; below 10 g there is none.
  template <class NextIce>
  void follow_changes(Duration time, NextIce next_ice, IceChange planned = {});
  void change_ice(Duration at, Mass ice, Energy before);
  Temperature warmth(Energy enthalpy) const;
  /// How long there is ice.
  Duration melts(Energy enthalpy) const;
  Energy enthalpy_after(Energy enthalpy, Duration time) const;
  Temperature follow(Energy enthalpy, Duration time) const;
  Duration time_to_limit(Energy enthalpy) const;

  // Enthalpies count from water at 0 degC.
  CoolantVessel vessel_;
  HeatedBody molten_;  // without ice
  Power melting_;      // heat that comes in while there is some
  Energy first_;
  std::vector<IceChange> changes_;
  std::vector<Energy> after_changes_;
  std::optional<Duration> limit_reached_;
  Temperature end_;
  Temperature warmest_;
};

}  // namespace firstdrop
