// Heat into the pot, heat lost from it, and the steam that is made.
#pragma once

#include "firstdrop/quantity.hpp"

namespace firstdrop {

/// Heat that reaches the water and the pot: efficiency x rated power x setting.
Power heat_into_pot(Power rated, Fraction setting, Fraction efficiency);

/// Height of a cylinder of this volume and diameter (> 0).
Length cylinder_height(Volume volume, Length diameter);

/// Side wall of a cylinder of this volume and diameter (> 0).
Area cylinder_side(Volume volume, Length diameter);

/// Heat loss per kelvin of a vessel that stands on the hot plate: side wall and top, without its
/// base. `covered` is the part of the top that a column stands on.
Conductance pot_loss(HeatTransfer film, Volume volume, Length diameter, Area covered);

/// Heat loss per kelvin of a column with its head on top: side wall, and the head's surface.
Conductance column_loss(HeatTransfer column_film, Volume volume, Length diameter,
                        HeatTransfer head_film, Area head_surface);

/// Steam made by heat that is left over at boiling: (Q - L) / h_fg, never below zero.
MassFlow steam_made(Power heat, Power loss, SpecificEnergy latent_heat);

}  // namespace firstdrop
