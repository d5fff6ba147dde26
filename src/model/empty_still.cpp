#include "model/empty_still.hpp"

#include "physics/heat_balance.hpp"

namespace firstdrop {

StillCapacities still_capacities(const Still& still, Method method,
                                 const StillParameters& parameters, double quantile) {
  StillCapacities capacities;
  capacities.pot = positive_at(still.pot.mass, quantile) * parameters.pot_specific_heat;
  capacities.head = positive_at(still.head.mass, quantile) * parameters.head_specific_heat;
  if (method == Method::steam)
    capacities.column = positive_at(still.column->mass, quantile) * parameters.column_specific_heat;
  else if (still.grid)
    capacities.pot += positive_at(still.grid->mass, quantile) * parameters.pot_specific_heat;
  return capacities;
}

StillLosses still_losses(const Still& still, Method method, const StillFilms& films) {
  const Volume pot_volume = still.pot.volume.typical();
  const Length pot_diameter = still.pot.diameter.typical();
  if (method != Method::steam) {
    return {pot_loss(films.pot, pot_volume, pot_diameter, circle_area(pot_diameter)),
            films.head * films.head_surface};
  }
  const Length diameter = still.column->diameter.typical();
  return {pot_loss(films.pot, pot_volume, pot_diameter, circle_area(diameter)),
          column_loss(films.column, still.column->volume.typical(), diameter, films.head,
                      films.head_surface)};
}

}  // namespace firstdrop
