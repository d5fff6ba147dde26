/// @file
/// Heat into the pot, heat lost from it, and the steam it makes.
///
/// The functions don't check their arguments. A diameter or latent heat of zero divides by zero;
/// the result is then infinite or not a number.
#pragma once

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

}  // namespace firstdrop
