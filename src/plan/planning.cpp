#include "plan/planning.hpp"

#include <algorithm>

#include "model/worst_case.hpp"
#include "physics/stop.hpp"

namespace firstdrop {

NominalRuns::NominalRuns(const ModelParameters& parameters)
    : at_medians_(parameters, SamplePoint::medians()) {}

Run NominalRuns::of(Mass charge, Mass fill) const {
  if (!cached_ || charge_ != charge) {
    charge_ = charge;
    cached_.emplace(at_medians_.of(charge, fill));
  }
  Run run = *cached_;
  run.refill(fill);
  return run;
}

RunValues NominalRuns::weakest(Mass charge, Mass fill) const {
  ParametersAt values = at_medians_;
  values.move_heat(SamplePoint::medians().set(Parameter::heater, 0).set(Parameter::heat_loss, 1));
  return values.of(charge, fill);
}

Planning::Planning(const ModelParameters& of_recipe, const Tables& all_tables,
                   const Sampling& how_sampled, Detail how_much)
    : parameters(of_recipe),
      tables(all_tables),
      recipe(of_recipe.recipe),
      still(of_recipe.recipe.still),
      defaults(all_tables.design_defaults),
      water(of_recipe, all_tables.design_defaults),
      nominal(of_recipe),
      sampling(how_sampled),
      detail(how_much) {}

Duration Planning::lateness() const {
  return longest_lateness(parameters);
}

Mass fill_to_judge_by(const Planning& p, Mass charge) {
  return p.water.poured_mass(p.recipe.water ? *p.recipe.water : p.water.room(charge));
}

bool element_in_water(const Still& still) {
  return still.heater.kind == HeaterKind::immersed_element;
}

Mass as_fresh(const Planning& p, Mass charge) {
  return charge * p.parameters.selected->as_fresh;
}

std::optional<Volume> hydrosol_asked(const Planning& p, Mass charge) {
  if (const auto* goal = std::get_if<HydrosolGoal>(&p.recipe.goal)) return goal->volume;
  if (const auto* goal = std::get_if<RatioGoal>(&p.recipe.goal)) {
    return goal->hydrosol_per_fresh * as_fresh(p, charge);
  }
  return std::nullopt;
}

Mass oil_asked(const Planning& p, const OilGoal& goal) {
  if (const auto* mass = std::get_if<Mass>(&goal.amount)) return *mass;
  return std::get<Volume>(goal.amount) * p.parameters.selected->oil_density.typical();
}

Duration default_end(const Planning& p, const Run& run, Mass charge) {
  const SelectedParameters& selected = p.parameters.selected;
  const Volume customary = charge * selected.customary_hydrosol.typical();
  const Duration shortest = run.time_of_hydrosol(p.defaults.least_run.typical());
  if (!selected.has_oil) return std::max(run.time_of_hydrosol(customary), shortest);
  const Rate allowance =
      p.defaults.oil_left_per_hydrosol.typical() * (run.distillate_rate() / customary) +
      p.defaults.oil_left_per_hour.typical() / hours(1);
  return std::max(time_of_balance(run, allowance), shortest);
}

std::optional<Volume> level_of_oil(const Planning& p, Mass charge, Mass oil) {
  const Run run = p.nominal.of(charge, p.water.poured_mass(p.water.room(charge)));
  if (run.failure()) return std::nullopt;
  const auto reached = time_of_oil(run, oil);
  if (!reached) return std::nullopt;
  const Volume level = run.hydrosol_at(*reached);
  // Past its maximum, the oil in the receiver falls again. Then the level isn't rounded up.
  const bool holds = run.oil_in_receiver_at(run.time_of_hydrosol(p.neat_up(level))) >= oil;
  return holds ? p.neat_up(level) : level;
}

Run upper_heater_run(const Planning& p, Mass charge, Mass fill) {
  return Run(upper_heater_values(p.parameters, charge, fill));
}

}  // namespace firstdrop
