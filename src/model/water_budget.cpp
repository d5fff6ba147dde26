#include "model/water_budget.hpp"

#include <algorithm>

#include "base/root.hpp"
#include "physics/reserve.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {

Volume WaterBudget::pieces(Mass charge) const {
  return hydro() ? charge / defaults_.particle_density.typical() : litres(0);
}

Volume WaterBudget::room(Mass charge) const {
  const Volume room = fill_room(pot_, fill_limit_, pieces(charge));
  if (parameters_.recipe.method_used() != Method::water_and_steam) return room;
  const Volume below = least_of(parameters_.recipe.still->grid->water_below);
  return std::min(room, room_below_grid(below, defaults_.grid_clearance.typical()));
}

Mass WaterBudget::reserve(Mass charge, Mass fill) const {
  const Mass wetting = hydro() ? as_mass(charge * defaults_.hydro_wetting.typical()) : grams(0);
  return water_reserve(fill, defaults_.reserve_share.typical(), least_water_, wetting);
}

Mass WaterBudget::worst_margin(Mass charge, Mass fill, const Stop& stop, Duration lateness) const {
  const Run worst = worst_case(charge).run(fill, stop, lateness);
  if (worst.failure()) return fill;  // nothing ever boils off
  return worst.water_at(stop_time(worst, stop) + lateness).left - reserve(charge, fill);
}

const WorstCase& WaterBudget::worst_case(Mass charge) const {
  if (!worst_case_) {
    worst_case_.emplace(parameters_, charge);
  } else if (charge_ != charge) {
    worst_case_->reload(charge);
  }
  charge_ = charge;
  return *worst_case_;
}

std::optional<Mass> WaterBudget::least_fill(Mass charge, const Stop& stop,
                                            Duration lateness) const {
  const Mass most = poured_mass(room(charge));
  const auto lacking = [&](Mass fill) { return -worst_margin(charge, fill, stop, lateness).si(); };
  const double at_most = lacking(most);
  if (at_most > 0.0) return std::nullopt;
  const double at_none = lacking(grams(0));
  if (at_none < 0.0) return grams(0);
  return bracket_root(grams(0), most, lacking, at_none, at_most).first_no;
}

Volume WaterBudget::most_hydrosol(Mass charge, Mass fill, std::optional<Duration> clock,
                                  Duration lateness) const {
  const Volume most = largest(litres(0), as_volume(fill), [&](Volume volume) {
    return worst_margin(charge, fill, Stop{volume, clock}, lateness).si();
  });
  return neat_down(most, parameters_.recipe.units);
}

Duration WaterBudget::worst_time_until(Mass left, Mass charge, Mass fill, const Run& worst,
                                       Duration at_least) const {
  const Duration by_stop = worst.time_until_left(left);
  // By then, charge and walls can have taken up more than by the stop of `worst`. So repeat with a
  // stop at that time.
  const Stop then{std::nullopt, by_stop};
  const Run longer = worst_case(charge).run(fill, then, seconds(0));
  return std::max(std::min(by_stop, longer.time_until_left(left)), at_least);
}

}  // namespace firstdrop
