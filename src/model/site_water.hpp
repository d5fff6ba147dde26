/// @file
/// Water at the site of a still.
#pragma once

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// Properties of water that depend only on air pressure and room temperature.
struct SiteWater {
  Pressure ambient;                 ///< pressure for which these hold
  Temperature room;                 ///< room temperature for which these hold
  Temperature boiling;              ///< of water at that pressure
  SpecificEnergy latent_heat;       ///< at that temperature
  SpecificEnergy boiling_enthalpy;  ///< of liquid water at that temperature
  SpecificHeat water_heat;          ///< mean from room to boiling
  SpecificHeat distillate_heat;     ///< mean from the ice point to boiling
  Density fill_density;             ///< of water at room temperature
};
SiteWater site_water(Pressure ambient, Temperature room);

}  // namespace firstdrop
