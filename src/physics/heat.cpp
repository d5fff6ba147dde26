#include "physics/heat.hpp"

#include <algorithm>
#include <numbers>

namespace firstdrop {

Power heat_into_pot(Power rated, Fraction setting, Fraction efficiency) {
  return rated * setting * efficiency;
}

Length cylinder_height(Volume volume, Length diameter) {
  return volume / circle_area(diameter);
}

Area cylinder_side(Volume volume, Length diameter) {
  return std::numbers::pi * diameter * cylinder_height(volume, diameter);
}

Conductance pot_loss(HeatTransfer film, Volume volume, Length diameter, Area covered) {
  const Area top = std::max(circle_area(diameter) - covered, square_metres(0));
  return film * (cylinder_side(volume, diameter) + top);
}

Conductance column_loss(HeatTransfer column_film, Volume volume, Length diameter,
                        HeatTransfer head_film, Area head_surface) {
  return column_film * cylinder_side(volume, diameter) + head_film * head_surface;
}

MassFlow steam_made(Power heat, Power loss, SpecificEnergy latent_heat) {
  return std::max(heat - loss, watts(0)) / latent_heat;
}

}  // namespace firstdrop
