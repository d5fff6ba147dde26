#include <fmt/core.h>

#include <algorithm>

#include "model/parameters_at.hpp"
#include "output/explain_chapters.hpp"
#include "output/explain_figures.hpp"
#include "physics/charge.hpp"
#include "physics/condenser.hpp"
#include "physics/water.hpp"
#include "plan/describe_run.hpp"

namespace firstdrop {
namespace {

Figures coolant_that_runs_through(const CoolingPlan& c) {
  Figures figures;
  if (!c.flow) {
    add(figures, by_rule(equations::coolant_flow, VolumeFlow(),
                         "not worked out, because no flow of this coolant is enough"));
    return figures;
  }
  add(figures, worked(equations::coolant_flow, *c.flow),
      by_rule("F_hot", "coolant flow in the upper-bound heater case", shown_in::litres_per_minute,
              *c.flow_most,
              "by the same equation, with the most heat into the pot and the least heat loss"),
      worked(equations::coolant_used, *c.coolant_used));
  return figures;
}

Figures warming_of_bath(const CoolingPlan& c) {
  Figures figures;
  if (c.reservoir_end) {
    const bool simple = !c.ice && !c.reservoir_limit;
    const auto& equation = equations::coolant_end;
    add(figures, simple ? worked(equation, *c.reservoir_end)
                        : by_rule(equation, *c.reservoir_end,
                                  "it warms by Q_c minus the loss of its surface, from each ice "
                                  "change to the next"));
  }
  if (c.reservoir_limit) {
    add(figures,
        by_rule("t_max", "time when the coolant first reaches its limit", shown_in::minutes,
                *c.reservoir_limit, "it warms by Q_c minus the loss of its surface"));
  }
  return figures;
}

Figures changes_of_ice(const CoolingPlan& c) {
  Figures figures;
  std::size_t number = 0;
  for (const IceChange& change : c.ice_changes) {
    ++number;
    add(figures,
        by_rule(fmt::format("t_ice_{}", number), "ice change, from the start of heating",
                shown_in::minutes, change.at,
                "the coolant is at its limit, or would pass it while you are late"),
        by_rule(fmt::format("m_ice_{}", number), "ice in that change", shown_in::kilograms,
                change.ice,
                "as much as one change may have; the last has only what the run still needs"));
  }
  return figures;
}

ExplainedFigure ice_in_all(Mass ice) {
  ExplainedFigure all =
      by_rule("M_ice", "total ice", shown_in::kilograms, ice,
              fmt::format("each time the coolant reaches its limit, ice replaces as much water at "
                          "that temperature; a kilogram takes up {} kJ as it melts, and then "
                          "warms; the last change has only what the run still needs",
                          in_kilojoules_per_kilogram(ice_melting_heat)));
  all.evidence = {"", {std::string(cited::sr1.key), std::string(cited::ice.key)}, Known::computed};
  return all;
}

Figures coolant_in_vessel(const ExplainedRun& e) {
  const Condenser& condenser = e.still().condenser;
  const CoolingPlan& c = e.run.cooling;
  Figures figures;
  add(figures,
      given("V_bath", "volume of coolant in its vessel", shown_in::litres, *condenser.coolant),
      given("u_bath", "heat loss of that vessel's surface", shown_in::watts_per_square_metre_kelvin,
            e.defaults().bath_loss),
      worked(equations::vessel_surface, vessel_surface(condenser.coolant->typical())));
  append(figures, warming_of_bath(c));
  if (c.ice) {
    add(figures,
        given("m_ice", "most ice in one change", shown_in::kilograms, *condenser.ice_per_change));
    if (c.first_ice) {
      add(figures,
          by_rule("M_first", "ice in the bath at the first drop", shown_in::kilograms, *c.first_ice,
                  "ice_per_change of the still, or as much as the bath holds"));
    }
    append(figures, changes_of_ice(c));
    add(figures, ice_in_all(*c.ice));
  }
  if (c.ice_ready) {
    add(figures, by_rule("M_ready", "ice to have ready", shown_in::kilograms, *c.ice_ready,
                         "what the coolant needs with the strongest or the weakest heater, "
                         "whichever is more, in whole pieces as you weigh them out"));
  }
  return figures;
}

Figures condensing_surface(const ExplainedRun& e) {
  const CoolingPlan& c = e.run.cooling;
  Figures figures;
  add(figures,
      given("U_c", "heat transfer of the condensing wall", shown_in::watts_per_square_metre_kelvin,
            e.selected().condensing),
      given("A_c", "condensing surface of the still", shown_in::square_metres,
            e.still().condenser.surface));
  if (c.surface_needed <= square_metres(0)) return figures;
  add(figures,
      by_rule("A_need", "condensing surface needed", shown_in::square_metres, c.surface_needed,
              "heat divided by U_c and by the logarithmic mean temperature difference, for the "
              "condensing zone plus the cooling zone, at the warmest coolant of the run"));
  if (c.distillate) {
    add(figures,
        given("dT_app", "least temperature difference between distillate and coolant",
              shown_in::kelvins, e.defaults().approach),
        by_rule(
            "T_dist", "warmest distillate at the outlet", shown_in::celsius, *c.distillate,
            "T_out, or the warmest coolant there plus dT_app if that is more; never above T_boil"));
  }
  return figures;
}

}  // namespace

Chapter explain_steam(const ExplainedRun& e) {
  const RatesPlan& rates = e.run.rates;
  Chapter chapter{"Steam through the charge", {}};
  if (!rates.steam_velocity || !rates.bed_pressure_drop) return chapter;
  const Temperature boiling = e.parameters().boiling;
  add(chapter.figures,
      worked(e.in_column() ? equations::area_of_column : equations::area_of_pot,
             bed_area(e.still(), e.recipe().method_used())),
      worked(equations::density_of_steam, saturated_vapour_density(boiling)),
      worked(equations::viscosity_of_steam, saturated_vapour_viscosity(boiling)),
      worked(equations::steam_velocity, *rates.steam_velocity),
      given("rho_p", "density of the plant pieces themselves", shown_in::grams_per_litre,
            e.defaults().particle_density),
      worked(equations::void_fraction, void_fraction(e.selected().bulk_density.typical(),
                                                     e.defaults().particle_density.typical())),
      given("d_p", "size of the plant pieces: six times their volume over their surface",
            shown_in::millimetres, e.defaults().particle_size.at(e.recipe().cut)),
      worked(equations::bed_pressure_drop, *rates.bed_pressure_drop));
  return chapter;
}

Chapter explain_coolant(const ExplainedRun& e) {
  const Condenser& condenser = e.still().condenser;
  const CoolingPlan& c = e.run.cooling;
  Figures figures;
  add(figures,
      given("T_out", "temperature of the distillate at the outlet", shown_in::celsius,
            condenser.outlet),
      given("T_max", "warmest coolant allowed", shown_in::celsius, condenser.coolant_limit),
      worked(equations::duty, c.duty));
  append(figures, condenser.kind == CondenserKind::run_through ? coolant_that_runs_through(c)
                                                               : coolant_in_vessel(e));
  append(figures, condensing_surface(e));
  return {"The coolant", std::move(figures)};
}

Chapter explain_energy(const ExplainedRun& e) {
  const Recipe& recipe = e.recipe();
  const EnergyPlan& energy = e.run.energy;
  const auto& equation = e.still().heater.kind == HeaterKind::gas_burner ? equations::energy_of_gas
                                                                         : equations::energy;
  const auto in_currency = [&](ExplainedFigure cost) {
    cost.value.unit = recipe.prices.currency;
    return cost;
  };
  Figures figures;
  add(figures,
      worked(equation, energy.plug,
             std::string(recipe.own.mains ? equations::energy_at_measured_mains : equation.text)));
  if (energy.energy_cost) {
    add(figures,
        by_rule("price_e", "price of energy", shown_in::plain("per kWh"),
                *recipe.prices.energy_per_kwh, "prices.energy_per_kwh"),
        in_currency(worked(equations::energy_cost, *energy.energy_cost)));
  }
  if (energy.plant_cost) {
    add(figures,
        by_rule("price_m", "price of the plant material", shown_in::plain("per kg"),
                *recipe.prices.plant_per_kg, "prices.plant_per_kg"),
        in_currency(worked(equations::plant_cost, *energy.plant_cost)));
  }
  return {"Energy and cost", std::move(figures)};
}

}  // namespace firstdrop
