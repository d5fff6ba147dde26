// Checks recipes, stills and plants that a program makes by the bounds and rules that the reader
// applies to files.
#pragma once

#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/tables.hpp"

namespace firstdrop {

// Each throws InputError with all faults, at the pointers that a recipe's file would have.

/// Checks everything but the recipe's plant and still.
void check_recipe(const Recipe& recipe, const Tables& tables);
void check_still(const Still& still, const Tables& tables);
void check_plant(const Plant& plant, const Tables& tables);

}  // namespace firstdrop
