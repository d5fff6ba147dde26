/// @file
/// The course of a run: its phases, what ends it, and when ice goes in.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// The phase a run is in.
enum class Phase {
  warming,   ///< from the start of heating until the pot boils
  steaming,  ///< from boiling until the first drop
  running,   ///< from the first drop on
};
/// As JSON has it: the names above.
std::string to_string(Phase phase);

/// The stop criterion that ends a run.
enum class StopRule {
  hydrosol,   ///< the receiver holds the wanted volume of hydrosol
  oil,        ///< the receiver holds the wanted amount of oil
  oil_share,  ///< the chosen share of the recoverable oil is vaporised
  time,       ///< the wanted time, or the longest time allowed, is over
  oil_left,   ///< the oil left in the charge isn't worth more water and time
  customary,  ///< the receiver holds as much hydrosol as is customary; nothing is known of the oil
  reserve,    ///< the pot can't give more water without going into its reserve
  cooling,    ///< the coolant gets too warm
};

/// The name of the enumerator, as written in JSON.
std::string to_string(StopRule rule);

/// What the person at the bench watches: the level in the receiver, the clock, or both. The run
/// stops at whichever comes first. At least one is set.
struct Stop {
  std::optional<Volume> hydrosol;  ///< level in the receiver
  std::optional<Duration> clock;   ///< from the start of heating
};

/// One addition of ice to the coolant.
struct IceChange {
  Duration at;  ///< from the start of condensing
  Mass ice;     ///< replaces the same mass of water
};

}  // namespace firstdrop
