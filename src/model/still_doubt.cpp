#include "firstdrop/model/still_doubt.hpp"

#include <algorithm>

#include "firstdrop/tables/tables.hpp"
#include "model/empty_still.hpp"
#include "model/selected_parameters.hpp"
#include "physics/heat_balance.hpp"
#include "physics/water.hpp"

namespace firstdrop {
namespace {

// A still indoors at sea level.
constexpr Temperature room = celsius(20);
constexpr Temperature boiling = celsius(100);
constexpr Volume bucket = litres(10);

template <class T>
bool is_beyond(T value, T least, T most) {
  return value < least || value > most;
}

/// Of leafy herb; fresh, if the table has it. Any herb would do, because slips are by tens.
Density density_of_herb(const Tables& tables) {
  const auto& states = tables.forms.at(PlantForm::leafy_herb).states;
  const auto fresh = states.find(State::fresh);
  const PlantState& state = fresh == states.end() ? states.begin()->second : fresh->second;
  return state.bulk_density.front().density.typical();
}

class Doubts {
 public:
  Doubts(const Still& still, const Tables& tables)
      : still_(still),
        tables_(tables),
        limits_(tables.design_defaults.plausible),
        base_(circle_area(still.pot.diameter.typical())) {}

  std::vector<StillDoubt> find() {
    const Pot& pot = still_.pot;
    wall(doubt::Part::pot, pot.mass,
         cylinder_side(pot.volume.typical(), pot.diameter.typical()) + base_, pot.material);
    water_depth();
    Area opening = base_;
    Area wet = still_.head.surface.typical() + still_.condenser.surface.typical();
    if (still_.column) {
      const Column& column = *still_.column;
      opening = circle_area(column.diameter.typical());
      const Area side = cylinder_side(column.volume.typical(), column.diameter.typical());
      wet += side;
      herb_space(column.volume.typical(), false);
      wall(doubt::Part::column, column.mass, side + opening, column.material);
    }
    if (still_.grid) herb_space(still_.grid->space.typical(), true);
    const Area head = still_.head.surface.typical();
    if (is_beyond(head, opening * limits_.least_head, opening * limits_.most_head))
      found_.emplace_back(doubt::HeadSurface{head, opening});
    wall(doubt::Part::head, still_.head.mass, head, still_.head.material);
    heat();
    wall_film(wet);
    tap();
    return std::move(found_);
  }

 private:
  void wall(doubt::Part part, const Cited<Mass>& mass, Area surface, const std::string& material) {
    const Length thick =
        mass.typical() / tables_.materials.at(material).density.typical() / surface;
    if (is_beyond(thick, limits_.least_wall, limits_.most_wall))
      found_.emplace_back(doubt::Wall{part, mass.typical(), thick});
  }

  void water_depth() {
    const Volume water = still_.pot.minimum_water.typical();
    const Length depth = water / base_;
    if (is_beyond(depth, limits_.least_depth, limits_.most_depth))
      found_.emplace_back(doubt::WaterDepth{water, depth});
  }

  void herb_space(Volume space, bool on_grid) {
    const Volume pot = still_.pot.volume.typical();
    if (!is_beyond(space, pot * limits_.least_space, pot * limits_.most_space)) return;
    found_.emplace_back(doubt::HerbSpace{on_grid, space, space * density_of_herb(tables_)});
  }

  void heat() {
    const Method method = still_.methods.front();
    const StillParameters parameters = still_parameters(still_, method, tables_);
    const Power heat = still_.heater.power.typical() * parameters.heater_efficiency.typical();
    time_to_boil(method, parameters, heat);
    const Condenser& condenser = still_.condenser;
    const Power takes =
        parameters.condensing.typical() * condenser.surface.typical() * limits_.drop;
    if (is_beyond(takes, heat * limits_.least_condenser, heat * limits_.most_condenser))
      found_.emplace_back(doubt::CondenserHeat{condenser.surface.typical(), takes, heat});
    if (!condenser.coolant || condenser.kind == CondenserKind::run_through) return;
    const Volume coolant = condenser.coolant->typical();
    const HeatCapacity capacity =
        coolant * liquid_density(room) * mean_liquid_specific_heat(room, room + limits_.warming);
    const Duration time = capacity * limits_.warming / heat;
    if (is_beyond(time, limits_.least_warming, limits_.most_warming))
      found_.emplace_back(doubt::CoolantWarms{coolant, limits_.warming, time});
  }

  void time_to_boil(Method method, const StillParameters& parameters, Power heat) {
    const Volume water = still_.pot.fill_limit.typical() * still_.pot.volume.typical() / 2.0;
    const StillLosses losses =
        still_losses(still_, method,
                     {parameters.pot_film.typical(), parameters.column_film.typical(),
                      parameters.head_film.typical(), still_.head.surface.typical()});
    const HeatCapacity capacity =
        water * liquid_density(room) * mean_liquid_specific_heat(room, boiling) +
        still_capacities(still_, method, parameters).pot;
    const auto boil = time_to_reach({capacity, losses.pot, room, heat}, room, boiling);
    if (!boil || is_beyond(*boil, limits_.least_boil, limits_.most_boil))
      found_.emplace_back(doubt::TimeToBoil{still_.heater.power.typical(), water, boil});
  }

  void wall_film(Area wet) {
    const Mass water = still_.wall_hold_up.typical();
    const Length film = water / kilograms_per_cubic_metre(1000) / wet;
    if (water > grams(0) && is_beyond(film, limits_.least_film, limits_.most_film))
      found_.emplace_back(doubt::WallFilm{water, film});
  }

  void tap() {
    if (!still_.condenser.flow_limit) return;
    const VolumeFlow flow = still_.condenser.flow_limit->typical();
    if (is_beyond(flow, limits_.least_tap, limits_.most_tap))
      found_.emplace_back(doubt::TapFlow{flow, bucket, bucket / flow});
  }

  const Still& still_;
  const Tables& tables_;
  const PlausibleStill& limits_;
  Area base_;
  std::vector<StillDoubt> found_;
};

}  // namespace

bool is_of_same_figure(const StillDoubt& one, const StillDoubt& other) {
  if (one.index() != other.index()) return false;
  const auto* const wall = std::get_if<doubt::Wall>(&one);
  return wall == nullptr || wall->part == std::get<doubt::Wall>(other).part;
}

std::vector<StillDoubt> doubts_about(const Still& still, const Tables& tables) {
  return Doubts(still, tables).find();
}

}  // namespace firstdrop
