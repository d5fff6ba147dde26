// What the condenser of a still needs in a run with water alone.
#pragma once

#include <optional>

#include "firstdrop/quantity/quantity.hpp"
#include "learning/water_run.hpp"

namespace firstdrop {

struct WaterRunCooling {
  std::optional<VolumeFlow> flow;  ///< from the tap; none for a bath or a bucket
  Mass ice;                        ///< in all; zero: none is needed
  Mass ice_at_once;                ///< in the first filling of a bath, and at each change
  bool ice_before_stop = false;    ///< as much shortly before the last mark, warm or not
};

/// The cooling with the strongest heater, which makes this much steam, until so much has come.
/// None if the coolant gets too warm: by its limit where there is no ice, or by what condenses all
/// steam if the person comes so late to the last mark. `uncondensed` is the share of the steam that
/// the condenser doesn't catch.
std::optional<WaterRunCooling> water_run_cooling(const WaterRunSetup& setup, MassFlow steam,
                                                 Fraction uncondensed, Mass distillate,
                                                 Duration absence, const Tables& tables);

/// When that ice goes in: at this share of the last mark. Our choice.
inline constexpr double ice_mark = 0.9;

/// Whether the condenser takes all that steam with coolant this warm: inequality 8 of
/// model/worst_case.hpp.
bool condenses(const WaterRunSetup& setup, MassFlow steam, Temperature coolant,
               const Tables& tables);

}  // namespace firstdrop
