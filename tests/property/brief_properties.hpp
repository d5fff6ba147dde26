// A plan in brief must say what the whole plan says.
#pragma once

#include "firstdrop/plan/planner.hpp"
#include "violation.hpp"

namespace property {

/// Plans the recipe of `whole` once more, in brief, with as many samples and with none, by a maker
/// that has planned all recipes before it; and compares every figure with the whole plan's JSON.
Violations brief_violations(const firstdrop::Plan& whole, firstdrop::PlanMaker& maker, int samples);

}  // namespace property
