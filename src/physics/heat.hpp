/// @file
/// Heat into the pot, heat lost from it, and the steam that is made.
///
/// Nothing is checked here. A diameter or latent heat of zero divides by zero: the result is
/// infinite or not a number.
#pragma once

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// Heat that reaches the water and the pot: efficiency x rated power x setting.
/// Range: setting and efficiency 0 to 1. Source: definition of the efficiency, whose figure is the
/// still's or that of its kind of heater in the table of practice.
Power heat_into_pot(Power rated, Fraction setting, Fraction efficiency);

/// Height of a cylinder of this volume and inside diameter.
/// Range: diameter above zero. Source: geometry.
Length cylinder_height(Volume volume, Length diameter);

/// Side wall of a cylinder of this volume and inside diameter, without base and top.
/// Range: diameter above zero. Source: geometry.
Area cylinder_side(Volume volume, Length diameter);

/// Heat loss per kelvin of a vessel that stands on the hot plate: side wall and top, without its
/// base. `covered` is the part of the top that a column stands on; more than the top counts as all
/// of it.
/// Range: diameter above zero. Source: Newton's law of cooling, film coefficient times surface.
Conductance pot_loss(HeatTransfer film, Volume volume, Length diameter, Area covered);

/// Heat loss per kelvin of a column with its head on top: side wall, and the head's surface.
/// Range: diameter above zero. Source: as pot_loss().
Conductance column_loss(HeatTransfer column_film, Volume volume, Length diameter,
                        HeatTransfer head_film, Area head_surface);

/// Steam made by heat that is left over at boiling: (Q - L) / h_fg; zero where more is lost than
/// comes in.
/// Range: latent heat above zero. Source: heat balance of a pot that boils.
MassFlow steam_made(Power heat, Power loss, SpecificEnergy latent_heat);

}  // namespace firstdrop
