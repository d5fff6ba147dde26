/// @file
/// The one differential equation of this library, in closed form.
///
///     C dT/dt = Q - UA (T - T_surroundings)
///
/// A pot that warms up, a column that steam heats, and a coolant vessel all obey it. All functions
/// stay exact as UA goes to zero. Nothing is checked.
#pragma once

#include <optional>

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// A body at one temperature, with constant heat put in and a loss in proportion to its excess
/// temperature. Incropera & DeWitt, "Fundamentals of Heat and Mass Transfer", ch. 5, lumped
/// capacitance with a constant source (from memory).
struct HeatedBody {
  HeatCapacity capacity;     ///< C, above zero
  Conductance loss;          ///< UA to the surroundings; not below zero
  Temperature surroundings;  ///< may be the warmer
  Power heat;                ///< Q put in; may be below zero
};

/// Time to come from `from` to `to`, up or down; zero when they are the same, none when the body
/// never gets there: it stands still, moves away, or levels off short of it or just at it.
/// Range: capacity above zero. Source: see HeatedBody.
std::optional<Duration> time_to_reach(const HeatedBody& body, Temperature from, Temperature to);

/// Temperature at `after`, having started at `from`.
/// Range: capacity above zero, after >= 0. Source: see HeatedBody.
Temperature temperature_after(const HeatedBody& body, Temperature from, Duration after);

/// Heat lost to the surroundings up to `after`; negative when the body was the colder. With what
/// the body has taken up it sums to the heat put in.
/// Range: capacity above zero, after >= 0. Source: see HeatedBody.
Energy heat_lost(const HeatedBody& body, Temperature from, Duration after);

/// The heat input that takes the body from `from` to `to` in exactly `time`; the body's own `heat`
/// is not looked at. This is how a measured time to boil becomes a heating power.
/// Range: capacity and time above zero. Source: see HeatedBody; undoes time_to_reach().
Power heat_for_time(const HeatedBody& body, Temperature from, Temperature to, Duration time);

}  // namespace firstdrop
