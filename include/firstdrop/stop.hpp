// When a run ends, and by which rule.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/quantity.hpp"
#include "firstdrop/run.hpp"

namespace firstdrop {

enum class StopRule {
  hydrosol,   ///< the hydrosol wanted is in the receiver
  oil,        ///< the oil wanted is in the receiver
  oil_share,  ///< the chosen share of the recoverable oil is vaporised
  time,       ///< the time wanted, or the longest time allowed
  oil_rate,   ///< a quarter hour more brings hardly any oil
  reserve,    ///< the pot has no more water to give
  cooling,    ///< the coolant is too warm
};

std::string to_string(StopRule rule);

/// What the person at the bench watches: the level in the receiver, the clock, or both; whichever
/// comes first. At least one is set.
struct Stop {
  std::optional<Volume> hydrosol;
  std::optional<Duration> clock;  ///< from heat on
};

/// The step in which a person asks whether to go on.
inline constexpr Duration quarter_hour = minutes(15);

/// When a run ends by that. Needs a run without failure.
Duration stop_time(const Run& run, const Stop& stop);

/// From when on a quarter hour brings less than `gain` (above 0) of the recoverable oil.
Duration time_of_low_gain(const Run& run, Fraction gain);

/// When this much oil has parted in the receiver; none when it never does, because the hydrosol
/// dissolves more than the steam brings.
std::optional<Duration> time_of_oil(const Run& run, Mass oil);

/// When the receiver holds the most oil that it ever will.
Duration time_of_most_oil(const Run& run);

}  // namespace firstdrop
