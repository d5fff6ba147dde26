// What must hold of every single plan, and of every accepted one at its worst credible case and at
// any point of its input ranges.
#pragma once

#include <optional>

#include "firstdrop/plan/plan.hpp"
#include "firstdrop/tables/tables.hpp"
#include "model/model_parameters.hpp"
#include "model/parameters_at.hpp"
#include "test_random.hpp"
#include "violation.hpp"

namespace property {

/// The values that a plan with a run rests on, made once more from its recipe.
struct Basis {
  firstdrop::ModelParameters parameters;
  firstdrop::Mass charge;
  firstdrop::Mass fill;
  /// Of water and pot at heat on; none: as the recipe says.
  std::optional<firstdrop::Temperature> start = {};
  /// With so many times the heat that the point means.
  firstdrop::Run run(const firstdrop::SamplePoint& point, double heat = 1.0) const {
    firstdrop::RunValues values = firstdrop::run_values_at(parameters, point, charge, fill);
    values.heat_warming = values.heat_warming * heat;
    values.heat_boiling = values.heat_boiling * heat;
    if (start) values.fill_excess = values.pot_excess = *start - values.room;
    return firstdrop::Run(values);
  }
};
Basis basis_of(const firstdrop::Plan& plan, const firstdrop::Tables& tables);

/// All that does not hold. `random` draws places in the ranges.
Violations plan_violations(const firstdrop::Plan& plan, const firstdrop::Tables& tables,
                           test_random::Random& random);

}  // namespace property
