// The one differential equation of this library, in closed form.
//
//     C dT/dt = Q - UA (T - T_surroundings)
//
// A pot that warms up, a column that steam heats, and a coolant vessel all obey it. All functions
// stay exact as UA goes to zero.
#pragma once

#include <optional>

#include "firstdrop/quantity.hpp"

namespace firstdrop {

/// A body at one temperature, with constant heat put in and a loss in proportion to its excess
/// temperature. Incropera & DeWitt, "Fundamentals of Heat and Mass Transfer", ch. 5, lumped
/// capacitance with a constant source (from memory).
struct HeatedBody {
  HeatCapacity capacity;
  Conductance loss;
  Temperature surroundings;
  Power heat;
};

/// Time to come from `from` to `to`; none when the body never gets there. Needs capacity > 0.
std::optional<Duration> time_to_reach(const HeatedBody& body, Temperature from, Temperature to);

/// Temperature at `after` (>= 0), having started at `from`.
Temperature temperature_after(const HeatedBody& body, Temperature from, Duration after);

/// Heat lost to the surroundings up to `after`; negative when the body was the colder.
Energy heat_lost(const HeatedBody& body, Temperature from, Duration after);

/// The heat input that takes the body from `from` to `to` in exactly `time` (> 0); the body's own
/// `heat` is not looked at. This is how a measured time to boil becomes a heating power.
Power heat_for_time(const HeatedBody& body, Temperature from, Temperature to, Duration time);

}  // namespace firstdrop
