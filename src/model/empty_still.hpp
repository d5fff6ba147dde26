/// @file
/// Heat capacity and heat loss of a still with no charge in it, from its sizes and materials.
#pragma once

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/tables/still.hpp"
#include "model/selected_parameters.hpp"

namespace firstdrop {

/// Heat capacities of the parts that warm up. The still must have the parts that the method needs.
struct StillCapacities {
  HeatCapacity pot;     ///< with the grid and basket that hang in it; without its water
  HeatCapacity head;    ///< lid, dome and vapour path
  HeatCapacity column;  ///< zero unless by steam
};
/// At this quantile of the masses.
StillCapacities still_capacities(const Still& still, Method method,
                                 const StillParameters& parameters, double quantile = 0.5);

/// Heat transfer from each part to the room, and the surface of the head.
struct StillFilms {
  HeatTransfer pot;
  HeatTransfer column;  ///< counts only by steam
  HeatTransfer head;
  Area head_surface;
};
/// Heat losses per kelvin.
struct StillLosses {
  Conductance pot;
  Conductance column;  ///< of column and head; of the head alone unless by steam
};
StillLosses still_losses(const Still& still, Method method, const StillFilms& films);

}  // namespace firstdrop
