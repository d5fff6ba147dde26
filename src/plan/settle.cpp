#include "plan/settle.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace firstdrop {
namespace {

Settled refused_for(std::optional<Finding> why, Settled settled) {
  settled.refusal = std::move(why);
  settled.refused = true;
  return settled;
}

// Decides what follows from the charge. If the water of the charge has no room, a lighter one is
// tried once.
Settled settle_run(const Planning& p, ChargeChoice charge, double aim, bool may_be_lighter,
                   Mass fill) {
  Settled settled;
  settled.charge = std::move(charge);
  settled.fill = fill;
  settled.most_charge = settled.charge.charge;
  settled.heater = check_heater(p, settled.charge.charge);
  settled.refused = any_refuses(settled.heater);
  if (settled.refused) return settled;

  settled.stop = choose_stop(p, settled.charge, aim);
  if (const auto why = settled.stop.refusal) return refused_for(why, std::move(settled));

  WaterChoice water = choose_water(p, settled.charge, settled.stop);
  if (water.refusal && !p.recipe.water && may_be_lighter && p.hydro() && !p.recipe.charge) {
    if (const auto lighter = lighter_charge(p, settled.charge.charge, settled.stop.stop)) {
      const Mass full = p.water.poured_mass(p.water.room(settled.charge.charge));
      settled.charge.charge = *lighter;
      // The heater must be checked again: with a lighter charge, a measured time to boil stands for
      // less heat.
      return settle_run(p, std::move(settled.charge), aim, false, full);
    }
  }
  settled.fill = water.fill;
  settled.most_charge = std::max(water.most_charge, settled.charge.charge);
  settled.stop.stop = water.stop;
  settled.stop.rule = water.rule;
  settled.has_run = !water.refusal || water.refused_but_described;
  if (water.refusal) return refused_for(std::move(water.refusal), std::move(settled));
  return settled;
}

}  // namespace

Settled settle(const Planning& p, Sharing sharing, double aim) {
  ChargeChoice charge = choose_charge(p, sharing, aim);
  if (charge.refusal) {
    Settled settled;
    settled.charge = std::move(charge);
    settled.most_charge = settled.charge.charge;
    const auto why = settled.charge.refusal;
    return refused_for(why, std::move(settled));
  }
  return settle_run(p, std::move(charge), aim, true, Mass());
}

}  // namespace firstdrop
