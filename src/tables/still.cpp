#include "firstdrop/tables/still.hpp"

#include "tables/words.hpp"

namespace firstdrop {

std::string to_string(HeaterKind kind) {
  return word_of(kind);
}

std::string to_string(CondenserKind kind) {
  return word_of(kind);
}

bool has_invented_figures(const Still& still) {
  const auto invented = [](const auto&... figures) {
    return ((figures.evidence.known == Known::own_invention) || ...);
  };
  const auto invented_if = [&](const auto&... figures) {
    return ((figures && invented(*figures)) || ...);
  };
  const Pot& pot = still.pot;
  const Condenser& condenser = still.condenser;
  return invented(pot.volume, pot.diameter, pot.mass, pot.fill_limit, pot.minimum_water) ||
         (still.column &&
          invented(still.column->volume, still.column->diameter, still.column->mass)) ||
         (still.grid && invented(still.grid->water_below, still.grid->space, still.grid->mass)) ||
         invented(still.head.mass, still.head.surface, still.heater.power) ||
         invented_if(still.heater.efficiency) ||
         invented(condenser.surface, condenser.outlet, condenser.coolant_limit) ||
         invented_if(condenser.coolant, condenser.ice_per_change, condenser.flow_limit) ||
         invented(still.wall_hold_up);
}

}  // namespace firstdrop
