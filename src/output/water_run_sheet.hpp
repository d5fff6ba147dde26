// The sheet for a run with water alone.
#pragma once

#include <string>

#include "firstdrop/output/write.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "learning/water_run_plan.hpp"

namespace firstdrop {

/// The sheet to work from. `command` is what to type afterwards, up to the options for the entries;
/// the still and site are those of the recipe.
std::string water_run_sheet(const WaterRunPlan& plan, const Recipe& recipe, const Tables& tables,
                            const std::string& command, SheetFormat format);

}  // namespace firstdrop
