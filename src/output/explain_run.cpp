#include <fmt/core.h>

#include <algorithm>

#include "model/parameters_at.hpp"
#include "model/water_budget.hpp"
#include "output/explain_chapters.hpp"
#include "output/explain_figures.hpp"
#include "physics/charge.hpp"
#include "physics/heat_balance.hpp"
#include "physics/stop.hpp"
#include "physics/water.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {
namespace {

Figures first_fill(const ExplainedRun& e) {
  Figures figures;
  add(figures,
      by_rule(
          "V_fill", "water to pour in", shown_in::millilitres, e.run.water.pour,
          e.recipe().water ? "water"
          : e.hydro()
              ? "the least that keeps the worst credible case above its reserve (see "
                "that chapter), or w_herb times the charge if that is more; rounded up "
                "to a mark of the jug, but never more than the pot has room for"
              : "the least that keeps the worst credible case above its reserve (see "
                "that chapter), and that a very strong heater can't use up before a "
                "usual one reaches the stop; rounded up to a mark of the jug, but never more than "
                "the pot or the grid has room for"));
  const bool warm = e.recipe().water_temperature.has_value();
  if (warm) {
    add(figures,
        by_rule("T_pour", "temperature of that water", shown_in::celsius, e.parameters().poured,
                "water_temperature"),
        worked(equations::density_as_poured, e.parameters().pour_density));
  }
  add(figures, worked(warm ? equations::mass_as_poured : equations::poured_mass,
                      e.nominal.values().first_fill));
  return figures;
}

// The heat into the pot that the tables give.
Figures heat_of_heater(const ExplainedRun& e) {
  const RunValues& v = e.nominal.values();
  const auto text = [&](const Equation<Power>& equation) {
    return std::string(e.recipe().own.mains ? equations::heat_at_measured_mains : equation.text);
  };
  Figures figures;
  add(figures,
      given("eta", "share of the power that reaches the pot", shown_in::percent,
            e.selected().heater_efficiency),
      worked(equations::heat_warming, v.heat_warming, text(equations::heat_warming)),
      worked(equations::heat_boiling, v.heat_boiling, text(equations::heat_boiling)));
  return figures;
}

// The heat into the pot that readings of the bench give. One reading stands for both heats.
Figures heat_of_readings(const ExplainedRun& e) {
  const ModelParameters& parameters = e.parameters();
  const OwnFigures& own = e.recipe().own;
  const RunValues& v = e.nominal.values();
  const auto then = [&](Fraction setting) {
    return setting == e.recipe().setting
               ? std::string()
               : fmt::format(", scaled from the setting of {} at that time", text(setting));
  };
  const std::string by_time = fmt::format(
      "measured: the heat that brings own.boil_water to the boil in own.boil_time ({}){}",
      own.boil_time ? text(*own.boil_time) : "", then(parameters.own_boil_setting));
  const std::string by_rate =
      fmt::format("measured: the heat that gives own.distillate_rate ({}) with the losses below{}",
                  own.distillate_rate ? text(*own.distillate_rate, Units::metric) : "",
                  then(parameters.own_rate_setting));
  Figures figures;
  add(figures,
      by_rule(equations::heat_warming, v.heat_warming,
              parameters.own_boil_time ? by_time : by_rate),
      by_rule(equations::heat_boiling, v.heat_boiling, parameters.own_rate ? by_rate : by_time));
  return figures;
}

Figures heat_into_pot_figures(const ExplainedRun& e) {
  Figures figures;
  add(figures, given("P", "rated power of the heater", shown_in::watts, e.still().heater.power),
      by_rule("s", "setting of the heater", shown_in::percent, e.recipe().setting,
              "setting, or 100 %"));
  if (e.recipe().own.mains) {
    add(figures, by_rule("k_mains",
                         "power drawn at the measured mains voltage, as a share of the nameplate's",
                         shown_in::plain("%"), e.parameters().mains * 100.0,
                         "the square of own.mains divided by site.mains"));
  }
  append(figures, measured_heat(e.parameters()) ? heat_of_readings(e) : heat_of_heater(e));
  return figures;
}

Figures loss_of_pot(const ExplainedRun& e) {
  const RunValues& v = e.nominal.values();
  const Pot& pot = e.still().pot;
  Figures figures;
  if (!e.hydro())
    add(figures, given("V_pot", "volume of the pot", shown_in::millilitres, pot.volume));
  add(figures, given("d_pot", "diameter of the pot", shown_in::metres, pot.diameter),
      given("u_pot", "heat loss of the pot's surface", shown_in::watts_per_square_metre_kelvin,
            e.selected().pot_film));
  if (e.in_column()) {
    add(figures,
        given("d_col", "diameter of the column", shown_in::metres, e.still().column->diameter));
  }
  add(figures,
      worked(e.in_column() ? equations::pot_loss_around_column : equations::pot_loss, v.pot_loss),
      worked(equations::pot_loss_at_boil, v.pot_loss * (v.boiling - v.room)));
  return figures;
}

Figures capacity_of_pot(const ExplainedRun& e) {
  const RunValues& v = e.nominal.values();
  const SelectedParameters& selected = e.selected();
  const Still& still = e.still();
  Figures figures;
  add(figures,
      given("c_dry", "heat capacity of dry plant matter", shown_in::kilojoules_per_kilogram_kelvin,
            selected.dry_specific_heat),
      worked(equations::charge_heat_capacity,
             charge_heat_capacity(e.plan.charge.mass, selected.moisture.typical(),
                                  selected.dry_specific_heat.typical(), e.parameters().water_heat)),
      given("m_pot", "mass of the empty pot", shown_in::kilograms, still.pot.mass),
      given("c_pot", "heat capacity of the pot's material",
            shown_in::kilojoules_per_kilogram_kelvin,
            e.tables.materials.at(still.pot.material).specific_heat));
  const equations::Warms warms{!e.in_column() && still.grid, e.in_column(), e.hydro()};
  if (warms.grid) {
    add(figures, given("m_grid", "mass of grid and basket", shown_in::kilograms, still.grid->mass));
  }
  add(figures, worked(equations::pot_capacity, v.first_fill * v.water_heat + v.pot_capacity,
                      equations::pot_capacity_text(warms)));
  return figures;
}

std::string stop_rule_words(const Recipe& recipe, StopRule rule) {
  switch (rule) {
    case StopRule::hydrosol:
      return std::holds_alternative<RatioGoal>(recipe.goal)
                 ? "goal.ratio times m_fresh, rounded up to a mark of the jug"
                 : "goal.hydrosol divided by the number of runs, rounded up to a mark of the jug";
    case StopRule::oil:
      return "the level at which the wanted oil has separated, set so that the median outcome "
             "reaches it";
    case StopRule::oil_share:
      return "the level at which the wanted share is vaporised, rounded up to a mark of the jug";
    case StopRule::time:
      return "not reached: the time ends the run first";
    case StopRule::oil_left:
      return "where the oil still in the charge isn't worth more water and time; its share of "
             "m_rec has then fallen to oil_left_per_hydrosol for each customary amount of hydrosol "
             "caught, plus oil_left_per_hour for each hour (see design_defaults.json); rounded up "
             "to a mark of the jug";
    case StopRule::customary:
      return "the customary amount of hydrosol for such a charge (see design_defaults.json), "
             "rounded up to a mark of the jug";
    case StopRule::reserve:
      return "the highest level at which the worst credible case keeps its reserve";
    case StopRule::cooling:
      break;
  }
  return "the level at which the coolant gets too warm";
}

Figures planned_stop(const ExplainedRun& e) {
  const Stop& stop = e.run.stop;
  Figures figures;
  if (stop.hydrosol) {
    add(figures, by_rule("V_stop", "level in the receiver to stop at", shown_in::millilitres,
                         *stop.hydrosol, stop_rule_words(e.recipe(), e.run.stop_criterion)));
  }
  if (stop.clock) {
    add(figures, by_rule("t_clock", "longest time", shown_in::minutes, *stop.clock,
                         "goal.time or limits.time"));
  }
  const auto& equation = !stop.clock     ? equations::stop_by_level
                         : stop.hydrosol ? equations::stop_by_either
                                         : equations::stop_by_clock;
  add(figures, worked(equation, e.run.times.stop));
  return figures;
}

Figures changes_of_receiver(const ExplainedRun& e) {
  Figures figures;
  if (e.run.receiver_changes.empty()) return figures;
  if (!e.recipe().receiver_volume) {
    std::size_t fraction = 0;
    for (const ReceiverChange& change : e.run.receiver_changes) {
      ++fraction;
      add(figures,
          by_rule(fmt::format("V_full_{}", fraction), std::string(equations::receiver_full.name),
                  shown_in::millilitres, change.caught, "fractions, until"),
          as(worked(equations::receiver_full_at, change.at,
                    equations::receiver_full_at_text(fraction)),
             fmt::format("t_full_{}", fraction)));
    }
    return figures;
  }
  add(figures, by_rule("V_rec", "what one receiver holds", shown_in::millilitres,
                       *e.recipe().receiver_volume, "receiver_volume"));
  std::size_t number = 0;
  for (const ReceiverChange& change : e.run.receiver_changes) {
    ++number;
    add(figures,
        as(worked(equations::receiver_full, change.caught, equations::receiver_full_text(number)),
           fmt::format("V_full_{}", number)),
        as(worked(equations::receiver_full_at, change.at, equations::receiver_full_at_text(number)),
           fmt::format("t_full_{}", number)));
  }
  return figures;
}

}  // namespace

Chapter explain_pot(const ExplainedRun& e) {
  Figures figures = first_fill(e);
  append(figures, heat_into_pot_figures(e));
  append(figures, loss_of_pot(e));
  append(figures, capacity_of_pot(e));
  const bool warm = e.recipe().water_temperature.has_value();
  if (warm) add(figures, worked(equations::mixed_start, e.nominal.pot_temperature({})));
  add(figures, worked(warm ? equations::boil_from_start : equations::boil, e.nominal.boil()),
      worked(equations::steam_made, e.nominal.steam_made()));
  return {"The pot comes to the boil", std::move(figures)};
}

Chapter explain_column(const ExplainedRun& e) {
  const Run& run = e.nominal;
  const RunValues& v = run.values();
  const Still& still = e.still();
  Figures figures;
  add(figures,
      given("u_head", "heat loss of lid and vapour path", shown_in::watts_per_square_metre_kelvin,
            e.selected().head_film),
      given("A_head", "surface of lid and vapour path", shown_in::square_metres,
            still.head.surface),
      given("m_head", "mass of lid and vapour path", shown_in::kilograms, still.head.mass),
      given("c_head", "heat capacity of their material", shown_in::kilojoules_per_kilogram_kelvin,
            e.tables.materials.at(still.head.material).specific_heat));
  if (e.in_column()) {
    add(figures,
        given("u_col", "heat loss of the column's wall", shown_in::watts_per_square_metre_kelvin,
              e.selected().column_film),
        given("m_col", "mass of the empty column", shown_in::kilograms, still.column->mass),
        given("c_col", "heat capacity of the column's material",
              shown_in::kilojoules_per_kilogram_kelvin,
              e.tables.materials.at(still.column->material).specific_heat));
  }
  add(figures, worked(e.in_column() ? equations::column_loss : equations::head_loss, v.column_loss),
      worked(equations::column_loss_at_boil, v.column_loss * (v.boiling - v.room)),
      worked(equations::column_capacity, v.column_capacity,
             equations::column_capacity_text({false, e.in_column(), e.hydro()})),
      worked(equations::steaming, run.first_drop() - run.boil()),
      worked(equations::whole_loss, e.run.rates.heat_lost),
      worked(equations::first_drop, run.first_drop()), worked(equations::vapour, run.vapour()),
      given("vent", "uncondensed vapour loss", shown_in::percent, e.selected().uncondensed_loss),
      worked(equations::distillate, run.distillate_rate()));
  return {"Steam heats all that is above the pot, then the first drop comes", std::move(figures)};
}

Chapter explain_stop(const ExplainedRun& e) {
  Figures figures = planned_stop(e);
  if (const auto& cut = e.recipe().plant->usual_cut; cut && cut->time) {
    add(figures, given("t_usual", "how long published runs take from the first drop",
                       shown_in::minutes, *cut->time));
  }
  const Duration stop = e.run.times.stop;
  add(figures, worked(equations::distilling, std::max(stop - e.nominal.first_drop(), seconds(0))),
      worked(equations::hydrosol, e.nominal.hydrosol_at(stop)));
  append(figures, changes_of_receiver(e));
  return {"The stop", std::move(figures)};
}

}  // namespace firstdrop
