// A brief plan must say what the full plan says.
#pragma once

#include "firstdrop/plan/planner.hpp"
#include "violation.hpp"

namespace property {

/// Plans the recipe of `whole` again in brief, once with `samples` samples and once with none.
/// Compares every figure with the JSON of the full plan. `maker` has planned all recipes before it,
/// so that its cache is tested as well.
Violations brief_violations(const firstdrop::Plan& whole, firstdrop::PlanMaker& maker, int samples);

}  // namespace property
