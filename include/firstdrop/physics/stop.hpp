/// @file
/// When a run ends, and by which rule.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/physics/run.hpp"
#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// By what a run is ended.
enum class StopRule {
  hydrosol,   ///< the hydrosol wanted is in the receiver
  oil,        ///< the oil wanted is in the receiver
  oil_share,  ///< the chosen share of the recoverable oil is vaporised
  time,       ///< the time wanted, or the longest time allowed
  oil_left,   ///< the oil still in the charge isn't worth more water and time
  reserve,    ///< the pot has no more water to give
  cooling,    ///< the coolant is too warm
};

/// As JSON has it: the names above.
std::string to_string(StopRule rule);

/// What the person at the bench watches: the level in the receiver, the clock, or both; whichever
/// comes first. At least one is set.
struct Stop {
  std::optional<Volume> hydrosol;  ///< level in the receiver
  std::optional<Duration> clock;   ///< from heat on
};

/// The step in which a person asks whether to go on.
inline constexpr Duration quarter_hour = minutes(15);

/// When a run ends by that, from heat on. Needs a run without failure and a stop with one of the
/// two set.
Duration stop_time(const Run& run, const Stop& stop);

/// From when on a quarter hour brings less than `gain` of the recoverable oil: first drop at the
/// earliest. Without recoverable oil, when all but a ten-thousandth would be over.
/// Range: a gain above 0; needs a run without failure. Source: the oil over time is concave, so the
/// gain only falls.
Duration time_of_low_gain(const Run& run, Fraction gain);

/// When the share of the recoverable oil that is still in the charge has fallen to the share that
/// may stay there, which starts at zero at first drop and grows by `allowance` per unit time. The
/// one only falls and the other only rises, so they cross once, and the crossing moves continuously
/// with every input. Range: allowance above 0; needs a run without failure.
Duration time_of_balance(const Run& run, Rate allowance);

/// When this much oil has first parted in the receiver; none when it never does, because there is
/// less or the hydrosol dissolves more than the steam brings. Needs a run without failure.
std::optional<Duration> time_of_oil(const Run& run, Mass oil);

/// When the receiver holds the most oil that it ever will; at the latest when all but a
/// ten-thousandth of it is over. Needs a run without failure.
Duration time_of_most_oil(const Run& run);

}  // namespace firstdrop
