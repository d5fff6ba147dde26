// The chapters of an explanation, in reading order. Each figure comes after those that it uses, in
// this chapter or an earlier one. A chapter without figures has nothing to explain.
#pragma once

#include "firstdrop/plan/plan.hpp"
#include "firstdrop/tables/tables.hpp"
#include "output/explained_figure.hpp"
#include "physics/run.hpp"
#include "plan/workings.hpp"

namespace firstdrop {

/// A plan to explain, with what it was worked out from.
struct ExplainedPlan {
  const Plan& plan;
  const Workings& workings;
  const Tables& tables;

  const Recipe& recipe() const { return plan.recipe; }
  const Still& still() const { return plan.recipe.still; }
  const DesignDefaults& defaults() const { return tables.design_defaults; }
  const ModelParameters& parameters() const { return workings.parameters; }
  const SelectedParameters& selected() const { return workings.parameters.selected; }
  bool hydro() const { return plan.recipe.method_used() == Method::hydro; }
  bool in_column() const { return plan.recipe.method_used() == Method::steam; }
};

/// The same for a plan with a run.
struct ExplainedRun : ExplainedPlan {
  const RunPlan& run;
  const Run& nominal;  ///< without failure
  const Run& worst;    ///< may have a failure
};

/// @{
/// One chapter each.
Chapter explain_place(const ExplainedPlan& e);
Chapter explain_charge(const ExplainedPlan& e);
Chapter explain_pot(const ExplainedRun& e);
Chapter explain_column(const ExplainedRun& e);
Chapter explain_stop(const ExplainedRun& e);
Chapter explain_oil(const ExplainedRun& e);
Chapter explain_water(const ExplainedRun& e);
Chapter explain_worst_case(const ExplainedRun& e);
Chapter explain_steam(const ExplainedRun& e);
Chapter explain_coolant(const ExplainedRun& e);
Chapter explain_energy(const ExplainedRun& e);
Chapter explain_ranges(const ExplainedRun& e);
Chapter explain_sensitivities(const ExplainedRun& e);
/// @}

}  // namespace firstdrop
