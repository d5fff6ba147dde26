#include "physics/reserve.hpp"

#include <algorithm>

namespace firstdrop {

Mass water_reserve(Mass first_fill, Fraction share, Mass minimum, Mass wetting) {
  return std::max({first_fill * share, minimum, wetting});
}

Volume fill_room(Volume pot, Fraction fill_limit, Volume charge_volume) {
  return std::max(pot * fill_limit - charge_volume, litres(0));
}

Volume room_below_grid(Volume water_below, Fraction clearance) {
  return water_below * (1.0 - clearance);
}

}  // namespace firstdrop
