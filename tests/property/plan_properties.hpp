// What must hold of every plan, and of every accepted plan in its worst credible case and at any
// sample point.
#pragma once

#include <optional>

#include "firstdrop/plan/plan.hpp"
#include "firstdrop/tables/tables.hpp"
#include "model/model_parameters.hpp"
#include "model/parameters_at.hpp"
#include "test_random.hpp"
#include "violation.hpp"

namespace property {

/// The values behind a plan with a run, made again from its recipe.
struct Basis {
  firstdrop::ModelParameters parameters;
  firstdrop::Mass charge;
  firstdrop::Mass fill;
  /// Temperature of water and pot at the start of heating; none: as the recipe says.
  std::optional<firstdrop::Temperature> start = {};
  /// The run at this point, with its heat multiplied by `heat`.
  firstdrop::Run run(const firstdrop::SamplePoint& point, double heat = 1.0) const {
    firstdrop::RunValues values = firstdrop::run_values_at(parameters, point, charge, fill);
    values.heat_warming = values.heat_warming * heat;
    values.heat_boiling = values.heat_boiling * heat;
    if (start) values.fill_excess = values.pot_excess = *start - values.room;
    return firstdrop::Run(values);
  }
};
Basis basis_of(const firstdrop::Plan& plan, const firstdrop::Tables& tables);

/// All violations of the plan's properties. `random` draws sample points.
Violations plan_violations(const firstdrop::Plan& plan, const firstdrop::Tables& tables,
                           test_random::Random& random);

}  // namespace property
