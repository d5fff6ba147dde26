/// @file
/// How a run with water alone is to be done, and what to expect of it.
#pragma once

#include <array>
#include <optional>
#include <variant>

#include "firstdrop/quantity/units.hpp"
#include "learning/water_run.hpp"
#include "learning/water_run_cooling.hpp"

namespace firstdrop {

/// A level in the jug at which the time is to be written down.
struct TimedMark {
  Volume level;
  Range<Duration> at;  ///< from the start of heating
};

struct WaterRunPlan {
  Volume fill;           ///< water to pour in, as measured at its temperature
  Mass fill_mass;        ///< the same by weight
  Range<Duration> boil;  ///< from the start of heating
  Range<Duration> first_drop;
  Duration none_by;  ///< no drop by then: something is wrong, or the heater is too weak
  std::array<TimedMark, 3> marks;  ///< heat off at the last
  bool drawn_less = false;         ///< the last mark is lower than usual, or the pot could run dry
  bool cooled_less = false;        ///< it is lower still, or the coolant would get too warm
  WaterRunCooling cooling;         ///< with the strongest heater
  Volume left_at_worst;  ///< in the pot with the strongest heater and the person at their latest
  Volume reserve;        ///< that must stay in the pot
  VolumeFlow most_distillate;  ///< with the strongest heater
};

/// Why a still can't do such a run as asked.
enum class NoWaterRun {
  too_weak,       ///< the heater might not bring a drop at this setting
  too_little,     ///< the water doesn't last for enough distillate
  pot_overfull,   ///< the fill is more than the pot may be filled with
  steam_escapes,  ///< the condenser can't take all the steam of the strongest heater
  coolant_warms,  ///< the coolant gets too warm before enough distillate has come
};

/// Half of the water that the pot may be filled with, on a mark of the jug.
Volume usual_water_run_fill(const Still& still, Units units);

/// Plans the run. `absence` is how late the person may be at the last mark. The setup's fill must
/// be set. Ranges follow from those of the still's own figures, or else of the defaults. The worst
/// case is that of the hotter of the two.
std::variant<WaterRunPlan, NoWaterRun> plan_water_run(const WaterRunSetup& setup, Duration absence,
                                                      Units units, const Tables& tables);

}  // namespace firstdrop
