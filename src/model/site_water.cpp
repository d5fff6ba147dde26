#include "model/site_water.hpp"

#include "physics/water.hpp"

namespace firstdrop {

SiteWater site_water(Pressure ambient, Temperature room) {
  SiteWater water;
  water.ambient = ambient;
  water.room = room;
  water.boiling = saturation_temperature(ambient);
  water.latent_heat = latent_heat(water.boiling);
  water.boiling_enthalpy = saturated_liquid_enthalpy(water.boiling);
  water.water_heat = mean_liquid_specific_heat(room, water.boiling);
  water.distillate_heat = mean_liquid_specific_heat(celsius(0.01), water.boiling);
  water.fill_density = liquid_density(room);
  return water;
}

}  // namespace firstdrop
