/// @file
/// The one differential equation of this library, in closed form.
///
///     C dT/dt = Q - UA (T - T_surroundings)
///
/// It describes a pot that warms up, a column that steam heats, and a coolant vessel. All functions
/// stay exact as UA goes to zero. They don't check their arguments.
#pragma once

#include <optional>

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// A body at one temperature, with a constant heat input and a loss proportional to its excess
/// temperature. Source: Incropera & DeWitt, "Fundamentals of Heat and Mass Transfer", ch. 5, lumped
/// capacitance with a constant source (from memory).
struct HeatedBody {
  HeatCapacity capacity;     ///< C, above zero
  Conductance loss;          ///< UA to the surroundings; not below zero
  Temperature surroundings;  ///< may be warmer than the body
  Power heat;                ///< heat input Q; may be negative
};

/// Time to warm or cool from `from` to `to`; zero when they are equal. None when the body never
/// gets there, because its temperature stays constant, moves away, or levels off before or at `to`.
/// Range: capacity above zero. Source: see HeatedBody.
std::optional<Duration> time_to_reach(const HeatedBody& body, Temperature from, Temperature to);

/// Temperature after the time `after`, starting at `from`.
/// Range: capacity above zero, after >= 0. Source: see HeatedBody.
Temperature temperature_after(const HeatedBody& body, Temperature from, Duration after);

/// Heat lost to the surroundings during the time `after`; negative if it gained heat from them.
/// Together with the heat stored in the body it equals the heat put in.
/// Range: capacity above zero, after >= 0. Source: see HeatedBody.
Energy heat_lost(const HeatedBody& body, Temperature from, Duration after);

/// The heat input that brings the body from `from` to `to` in exactly `time`; `body.heat` is
/// ignored. This turns a measured time to boil into a heating power.
/// Range: capacity and time above zero. Source: see HeatedBody; the inverse of time_to_reach().
Power heat_for_time(const HeatedBody& body, Temperature from, Temperature to, Duration time);

}  // namespace firstdrop
