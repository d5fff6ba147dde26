/// @file
/// The heat balance: heat into the pot, heat lost to the room, the steam that is made, and how a
/// body warms in between. There is one differential equation, solved in closed form:
///
///     C dT/dt = Q - UA (T - T_surroundings)
///
/// It describes a pot that warms up, a column that steam heats, and a coolant vessel. Everything
/// that uses it stays exact as UA goes to zero.
///
/// The functions don't check their arguments. Where one divides by zero, the result is infinite or
/// not a number.
#pragma once

#include <optional>

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// Heat that reaches the water and the pot: efficiency x rated power x setting.
/// Range: setting and efficiency 0 to 1. Source: definition of the efficiency. Its figure comes
/// from the still, or else from the design defaults for its kind of heater.
Power heat_into_pot(Power rated, Fraction setting, Fraction efficiency);

/// Height of a cylinder of this volume and inside diameter.
/// Range: diameter above zero. Source: geometry.
Length cylinder_height(Volume volume, Length diameter);

/// Side wall of a cylinder of this volume and inside diameter, without base and top.
/// Range: diameter above zero. Source: geometry.
Area cylinder_side(Volume volume, Length diameter);

/// Heat loss per kelvin of a vessel on a hot plate, through its side wall and top but not its base.
/// `covered` is the area of the top that a column stands on; it is capped at the area of the top.
/// Range: diameter above zero. Source: Newton's law of cooling, film coefficient times surface.
Conductance pot_loss(HeatTransfer film, Volume volume, Length diameter, Area covered);

/// Heat loss per kelvin of a column and the head on top of it, through the column's side wall and
/// the head's surface.
/// Range: diameter above zero. Source: as for pot_loss().
Conductance column_loss(HeatTransfer column_film, Volume volume, Length diameter,
                        HeatTransfer head_film, Area head_surface);

/// Steam made by the net heat at boiling: (Q - L) / h_fg; zero when the loss exceeds the heat.
/// Range: latent heat above zero. Source: heat balance of a boiling pot.
MassFlow steam_made(Power heat, Power loss, SpecificEnergy latent_heat);

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
