#include <algorithm>

#include "output/explain_chapters.hpp"
#include "output/explain_figures.hpp"
#include "physics/basis.hpp"
#include "physics/charge.hpp"
#include "physics/water.hpp"
#include "readers/plant_parameters.hpp"

namespace firstdrop {
namespace {

// What fits into a pot whose water the charge lies in.
Figures room_in_water(const ExplainedPlan& e) {
  Figures figures;
  add(figures, given("V_pot", "volume of the pot", shown_in::millilitres, e.still().pot.volume),
      given("fill_max", "share of the pot that may be filled", shown_in::percent,
            e.still().pot.fill_limit),
      given("w_herb", "water poured around each kilogram of charge", shown_in::litres_per_kilogram,
            e.defaults().hydro_water.at(e.recipe().state)),
      given("rho_p", "density of the plant pieces themselves", shown_in::grams_per_litre,
            e.defaults().particle_density),
      worked(equations::capacity_in_water, e.workings.capacity.typical));
  return figures;
}

// The bulk density itself. Where it is scaled from another cut, that cut's bulk density and the
// factors for scaling.
Figures bulk_density(const ExplainedPlan& e) {
  const SelectedParameters& selected = e.selected();
  const auto& as_shown = equations::scaled_bulk_density;
  if (!selected.scaled_bulk_density) {
    return {given(std::string(as_shown.symbol), std::string(as_shown.name), as_shown.unit,
                  selected.bulk_density)};
  }
  const BulkDensity& other = *selected.scaled_bulk_density;
  const auto& relative = e.defaults().cut_density;
  Figures figures;
  add(figures,
      given("rho_other", "bulk density of " + to_string(other.cut) + " material",
            shown_in::grams_per_litre, other.density),
      given("k_other", "that cut's density relative to chopped", shown_in::ratio("g/g"),
            relative.at(other.cut)),
      given("k_cut", "this cut's density relative to chopped", shown_in::ratio("g/g"),
            relative.at(e.recipe().cut)),
      with_range(worked(as_shown, selected.bulk_density.typical()),
                 in_unit(as_shown.unit, selected.bulk_density.range)));
  return figures;
}

// What fits into a column, or above a grid.
Figures room_in_space(const ExplainedPlan& e) {
  Figures figures;
  add(figures,
      e.in_column()
          ? given("V_space", "volume of the column", shown_in::millilitres,
                  e.still().column->volume)
          : given("V_space", "volume above the grid", shown_in::millilitres, e.still().grid->space),
      given("head", "share left free above the charge", shown_in::percent,
            e.defaults().head_space));
  append(figures, bulk_density(e));
  add(figures, with_range(worked(equations::capacity, e.workings.capacity.typical),
                          in_unit(equations::capacity.unit, e.workings.capacity)));
  return figures;
}

// How a harvest of given mass is shared out over runs.
Figures runs_of_harvest(const ExplainedPlan& e) {
  const ChargePlan& c = e.plan.charge;
  const bool rest = c.rest > grams(0);
  Figures figures;
  add(figures, by_rule("m_all", "harvest", shown_in::grams, *e.recipe().charge, "charge"),
      by_rule("n", "runs", shown_in::plain(""), c.runs,
              rest ? "full runs; what is left over is too little for another"
                   : "the fewest equal runs that fit"));
  const auto& mass = equations::charge_of_run;
  if (finding_of<found::TooManyRuns>(e.plan.findings) != nullptr) {
    add(figures,
        by_rule(mass, c.mass, "as much as one run holds; the harvest would take too many runs"));
  } else if (rest) {
    add(figures, by_rule(mass, c.mass, "what fits, rounded down to a mark of a kitchen scale"),
        worked(equations::charge_used, c.harvest), worked(equations::charge_left_over, c.rest));
  } else if (c.mass > grams(0)) {
    add(figures, worked(mass, c.mass));
  } else {
    add(figures, by_rule(mass, grams(0), "not settled; the findings say why the plan is refused"));
  }
  return figures;
}

// How many runs there are where the recipe doesn't say how much herb there is.
Figures runs_as_needed(const ExplainedPlan& e) {
  const ChargePlan& c = e.plan.charge;
  Figures figures;
  add(figures,
      by_rule("n", "runs", shown_in::plain(""), c.runs, "one, or as many as the goal needs"),
      by_rule(equations::charge_of_run, c.mass,
              has_oil_figures(e.recipe().plant)
                  ? "what fits, rounded down to a mark of a kitchen scale; less if the pot's water "
                    "or an oil goal needs less"
                  : "what fits, rounded down to a mark of a kitchen scale; less if the pot's water "
                    "needs less"),
      worked(equations::harvest, c.harvest));
  return figures;
}

// Its water, and the room that it takes.
Figures nature_of_charge(const ExplainedPlan& e) {
  const ChargePlan& c = e.plan.charge;
  Figures figures;
  add(figures, given("x", "moisture of the charge", shown_in::percent, e.selected().moisture),
      worked(equations::dry_matter, c.dry_matter));
  if (c.as_fresh != c.mass) {
    add(figures,
        given("x_cut", "moisture of the herb when freshly cut", shown_in::percent,
              e.selected().fresh_moisture),
        worked(equations::as_fresh, c.as_fresh));
  } else {
    add(figures, worked(equations::already_fresh, c.as_fresh));
  }
  if (e.hydro()) {
    add(figures, worked(equations::volume_of_pieces, c.volume));
  } else {
    add(figures, worked(equations::charge_volume, c.volume), worked(equations::fill, c.fill));
  }
  return figures;
}

}  // namespace

Chapter explain_place(const ExplainedPlan& e) {
  const Site& site = e.recipe().site;
  const ModelParameters& parameters = e.parameters();
  Figures figures;
  if (site.pressure) {
    add(figures, by_rule(equations::ambient, e.plan.ambient, "site.pressure"));
  } else {
    add(figures,
        by_rule("h", "altitude", shown_in::metres, site.altitude.value_or(metres(0)),
                site.altitude ? "site.altitude" : "none given, so sea level"),
        worked(equations::ambient, e.plan.ambient));
  }
  add(figures, worked(equations::boiling, e.plan.boiling),
      worked(equations::heat_of_boiling, e.plan.latent_heat),
      by_rule("T_room", "temperature of the room, the still and the charge at the start",
              shown_in::celsius, site.room, "site.room, or 20 °C"),
      by_rule("T_cool", "temperature of the coolant at the start", shown_in::celsius,
              parameters.coolant, "site.coolant, or the room"),
      worked(equations::water_heat, parameters.water_heat),
      worked(equations::density_at_room, parameters.fill_density));
  return {"The place", std::move(figures)};
}

Chapter explain_charge(const ExplainedPlan& e) {
  const ChargePlan& c = e.plan.charge;
  Figures figures = e.hydro() ? room_in_water(e) : room_in_space(e);
  append(figures, e.recipe().charge ? runs_of_harvest(e) : runs_as_needed(e));
  if (c.most > c.mass) {
    add(figures,
        by_rule("m_most", "largest charge for the same water and stop", shown_in::grams, c.most,
                "with it, the pot still keeps its reserve in the worst credible case"));
  }
  append(figures, nature_of_charge(e));
  return {"The charge", std::move(figures)};
}

}  // namespace firstdrop
