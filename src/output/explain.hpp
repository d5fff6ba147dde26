/// @file
/// Explains every figure of a plan: its equation, its inputs and its source. Figures are in reading
/// order, so that each is explained before another uses it.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/plan/plan.hpp"
#include "firstdrop/tables/tables.hpp"
#include "output/explained_figure.hpp"
#include "quantity/equation.hpp"

namespace firstdrop {

/// Explains a plan that make_plan() made in full with these tables. The values come from the plan
/// and its workings; no run is worked out again. The tables must be complete: those read with
/// TablePart lack most of each source. A plan without a run (see Plan::run) is explained as far as
/// it goes. Throws Error for a plan without workings: one in brief, or one that make_plan() didn't
/// make.
std::vector<Chapter> explain(const Plan& plan, const Tables& tables);

/// plan_json() with the explanation of every figure under the key "explain".
std::string plan_json(const Plan& plan, const std::vector<Chapter>& explained);

/// All functions that equations may use.
const std::vector<PropertyFunction>& property_functions();

/// All sources that equations rest on.
const std::vector<EquationSource>& equation_sources();

}  // namespace firstdrop
