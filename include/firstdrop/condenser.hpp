// The condenser must take the heat away: duty, surface, coolant and ice.
#pragma once

#include <optional>
#include <vector>

#include "firstdrop/quantity.hpp"

namespace firstdrop {

/// Heat that a kilogram of steam gives up on its way from saturated vapour at `boiling` to
/// distillate at `outlet` (<= boiling).
struct CondensingHeat {
  SpecificEnergy condensing;  ///< latent heat
  SpecificEnergy cooling;     ///< of the condensate down to the outlet
  SpecificEnergy total() const { return condensing + cooling; }
};
CondensingHeat condensing_heat(Temperature boiling, Temperature outlet);

/// Logarithmic mean of two temperature differences (both > 0).
TemperatureDifference log_mean(TemperatureDifference a, TemperatureDifference b);

/// Condensing surface in two zones, Q / (U LMTD) each.
struct Surface {
  Area condensing;  ///< least surface at which no steam escapes
  Area cooling;     ///< more of it, for the distillate to leave at the outlet temperature
  Area total() const { return condensing + cooling; }
};

/// In a vessel whose coolant is everywhere at `coolant` (< outlet < boiling): ice bath, reservoir.
Surface surface_in_bath(MassFlow steam, HeatTransfer u, Temperature boiling, Temperature outlet,
                        Temperature coolant);

/// The same where that heat is known.
Surface surface_in_bath(MassFlow steam, HeatTransfer u, const CondensingHeat& heat,
                        Temperature boiling, Temperature outlet, Temperature coolant);

/// With coolant run through in counterflow from `coolant_in` to `coolant_out` (in < outlet,
/// out < boiling): cooling zone first, then condensing zone.
Surface surface_in_counterflow(MassFlow steam, HeatTransfer u, Temperature boiling,
                               Temperature outlet, Temperature coolant_in, Temperature coolant_out);

/// Coolant flow that takes `duty` with this rise. Needs a rise above zero.
MassFlow coolant_flow(Power duty, Temperature coolant_in, Temperature coolant_out);

/// Less ice than this is no ice change; it would also make a schedule endless.
inline constexpr Mass least_ice = grams(10);

/// An ice bath or a reservoir, mixed through.
struct CoolantVessel {
  Mass filling;         ///< water and ice together; stays the same, water goes out as ice goes in
  Mass first_ice;       ///< of it, ice at the start
  Temperature start;    ///< of the water before the ice goes in
  Temperature limit;    ///< warmest allowed
  Mass ice_per_change;  ///< below 10 g: none to be had; at most 500 times
  Temperature room;
  Conductance loss;  ///< to the room; a cold vessel gains
};

struct IceChange {
  Duration at;  ///< from the start of condensing
  Mass ice;
};

/// What a vessel does under a constant duty.
class CoolantRun {
 public:
  /// Follows the vessel for `time`. Ice changes come when the limit is reached, each as large as
  /// the vessel takes, the last no larger than the rest of the run needs, with as much more as
  /// `beyond` takes, when nobody may be there to change ice. `planned` goes in at its time (within
  /// the run) whatever the coolant's temperature; below 10 g it is none.
  CoolantRun(const CoolantVessel& vessel, Power duty, Duration time, Duration beyond = seconds(0),
             const IceChange& planned = {});
  /// The same with so much ice at each change, whatever the vessel would take; none after the last.
  CoolantRun(const CoolantVessel& vessel, Power duty, Duration time, const std::vector<Mass>& ice);

  Temperature temperature_at(Duration time) const;  ///< from 0; past the run without new ice
  Temperature end() const { return end_; }
  Temperature warmest() const { return warmest_; }
  const std::vector<IceChange>& changes() const { return changes_; }
  Mass ice() const;  ///< all of it, the first filling included
  /// When the vessel first gets to its limit, if it does within the run.
  std::optional<Duration> limit_reached() const { return limit_reached_; }

 private:
  // From `begin` on the vessel holds enthalpy `enthalpy`, counted from water at 0 degC.
  struct Stretch {
    Duration begin;
    Energy enthalpy;
  };
  /// `next_ice` says how much goes in at a change at this time; below 10 g there is none.
  template <class NextIce>
  void follow_changes(Duration time, NextIce next_ice, IceChange planned = {});
  void change_ice(Duration at, Mass ice, Energy before);
  Energy enthalpy_after(Energy enthalpy, Duration time) const;
  Temperature follow(Energy enthalpy, Duration time) const;
  Duration time_to_limit(Energy enthalpy) const;

  CoolantVessel vessel_;
  Power duty_;
  std::vector<Stretch> stretches_;
  std::vector<IceChange> changes_;
  std::optional<Duration> limit_reached_;
  Temperature end_;
  Temperature warmest_;
};

}  // namespace firstdrop
