/// @file
/// The water that must stay in the pot, and the most water that fits in it.
#pragma once

#include "firstdrop/quantity/quantity.hpp"
#include "quantity/equation.hpp"

namespace firstdrop {

/// Water that must stay in the pot: the largest of a share of the first fill, the still's own
/// minimum over its base or element, and (hydro) the water that keeps the charge wetted. It is
/// negative only if all three are.
/// Range: share 0 to 1; not checked. Source: the share is common practice; the minimum comes from
/// the still.
Mass water_reserve(Mass first_fill, Fraction share, Mass minimum, Mass wetting);
namespace equations {
inline constexpr Equation<Volume> reserve{"V_res", "reserve: water that must stay in the pot",
                                          shown_in::millilitres,
                                          "max(V_fill * reserve_share / 100, V_min)"};
/// With the charge in the water.
inline constexpr Equation<Volume> reserve_in_water{
    reserve.symbol, reserve.name, reserve.unit,
    "max(V_fill * reserve_share / 100, V_min, wet * m)"};
}  // namespace equations

/// The largest volume of cold water that the pot may be filled with; never negative.
/// `charge_volume` is the volume of the pieces in the water (hydro), and zero otherwise.
/// Range: fill limit 0 to 1, as a share of the pot; not checked. Source: balance of volumes.
Volume fill_room(Volume pot, Fraction fill_limit, Volume charge_volume);

/// The largest volume of water under a grid. The clearance keeps boiling water from wetting the
/// charge.
/// Range: clearance 0 to 1, as a share of `water_below`; not checked. Source: common practice.
Volume room_below_grid(Volume water_below, Fraction clearance);

}  // namespace firstdrop
