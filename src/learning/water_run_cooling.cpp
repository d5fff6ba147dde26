#include "learning/water_run_cooling.hpp"

#include <algorithm>

#include "model/selected_parameters.hpp"
#include "physics/condenser.hpp"

namespace firstdrop {
namespace {

CoolantVessel vessel_of(const WaterRunSetup& setup, const DesignDefaults& defaults) {
  const Condenser& condenser = setup.still.condenser;
  const Volume least = least_of(*condenser.coolant);
  CoolantVessel vessel;
  vessel.filling = least * setup.water.fill_density;
  vessel.ice_per_change = condenser.ice_per_change ? condenser.ice_per_change->typical() : grams(0);
  if (condenser.kind == CondenserKind::ice_bath)
    vessel.first_ice = std::min(vessel.ice_per_change, vessel.filling);
  vessel.start = setup.coolant;
  vessel.limit = condenser.coolant_limit.typical();
  vessel.room = setup.water.room;
  // The least heat is lost to a room that is colder than the coolant, and the most taken from a
  // warmer one.
  const HeatTransfer film =
      vessel.limit > vessel.room ? least_of(defaults.bath_loss) : most_of(defaults.bath_loss);
  vessel.loss = film * vessel_surface(least);
  return vessel;
}

}  // namespace

bool condenses(const WaterRunSetup& setup, MassFlow steam, Temperature coolant,
               const Tables& tables) {
  const Condenser& condenser = setup.still.condenser;
  const Temperature warmest =
      setup.water.boiling - tables.design_defaults.least_difference.typical();
  if (coolant >= warmest) return false;
  const HeatTransfer u = least_of(tables.materials.at(condenser.wall).condensing);
  if (condenser.kind == CondenserKind::run_through) {
    // It cools the distillate first, down to nearly its own temperature.
    const Temperature outlet = coolant + kelvins(0.01);
    return surface_in_counterflow(steam, u, setup.water.boiling, outlet, coolant,
                                  condenser.coolant_limit.typical())
               .condensing <= least_of(condenser.surface);
  }
  return condensing_in_bath(steam, u, setup.water.latent_heat, setup.water.boiling, coolant) <=
         least_of(condenser.surface);
}

std::optional<WaterRunCooling> water_run_cooling(const WaterRunSetup& setup, MassFlow steam,
                                                 Fraction uncondensed, Mass distillate,
                                                 Duration absence, const Tables& tables) {
  const Condenser& condenser = setup.still.condenser;
  // The distillate may leave as cold as the coolant.
  const Temperature coldest = std::max(setup.coolant, celsius(0.01));
  const Power duty = steam * condensing_heat(setup.water.boiling, coldest).total();
  const Temperature limit = condenser.coolant_limit.typical();
  if (setup.coolant >= limit) return std::nullopt;
  WaterRunCooling cooling;
  if (condenser.kind == CondenserKind::run_through) {
    cooling.flow = coolant_flow(duty, setup.coolant, limit) / setup.water.fill_density;
    if (*cooling.flow > least_of(*condenser.flow_limit)) return std::nullopt;
    return cooling;
  }
  const CoolantVessel vessel = vessel_of(setup, tables.design_defaults);
  const Duration drips = distillate / (1.0 - uncondensed) / steam;
  const CoolantRun run(vessel, duty, drips, absence);
  cooling.ice = run.ice();
  cooling.ice_at_once = vessel.ice_per_change;
  const bool has_ice = vessel.ice_per_change >= least_ice;
  if (run.limit_reached() && !has_ice) return std::nullopt;
  if (!run.limit_reached() && condenses(setup, steam, run.temperature_at(drips + absence), tables))
    return cooling;
  if (!has_ice) return std::nullopt;
  // The coolant may be at its limit when this ice goes in, which lasts beyond the last mark.
  CoolantVessel late = vessel;
  late.first_ice = std::min(vessel.ice_per_change, vessel.filling);
  late.start = limit;
  late.ice_per_change = grams(0);
  const Duration after_ice = drips * (1.0 - ice_mark) + absence;
  const Temperature warmest = CoolantRun(late, duty, after_ice).end();
  cooling.ice_before_stop = true;
  cooling.ice = cooling.ice + late.first_ice;
  if (!condenses(setup, steam, warmest, tables)) return std::nullopt;
  return cooling;
}

}  // namespace firstdrop
