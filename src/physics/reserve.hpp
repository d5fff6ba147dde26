/// @file
/// The water that must stay in the pot, and the room that the water has.
#pragma once

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// Water that must be left in the pot: the largest of a share of the first fill, the still's own
/// minimum over its base or element, and (hydro) what keeps the charge wetted. Never below zero if
/// one of the three is not.
/// Range: share 0 to 1; not checked. Source: the share is common practice, the minimum the still's.
Mass water_reserve(Mass first_fill, Fraction share, Mass minimum, Mass wetting);

/// The most water that the pot may be filled with, cold. `charge_volume` is that of the pieces in
/// the water (hydro), else zero. Never below zero.
/// Range: fill limit 0 to 1, as a share of the pot; not checked. Source: balance of volumes.
Volume fill_room(Volume pot, Fraction fill_limit, Volume charge_volume);

/// The most water under a grid, with a clearance so that boiling does not wet the charge.
/// Range: clearance 0 to 1, as a share of that space; not checked. Source: common practice.
Volume room_below_grid(Volume water_below, Fraction clearance);

}  // namespace firstdrop
