/// @file
/// The course of a run in words: its phases, what ends it, when ice goes in.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// Where a run is.
enum class Phase {
  warming,   ///< heat on until the pot boils
  steaming,  ///< then until the first drop
  running,   ///< from the first drop on
};

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

/// Ice that goes into the coolant.
struct IceChange {
  Duration at;  ///< from the start of condensing
  Mass ice;     ///< in place of as much water
};

}  // namespace firstdrop
