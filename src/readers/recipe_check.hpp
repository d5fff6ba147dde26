// Checks recipes that a program makes against the bounds that the reader applies to files.
#pragma once

#include "firstdrop/readers/recipe.hpp"

namespace firstdrop {

/// Throws InputError with the first amount that is out of its bounds (readers/field_bounds.hpp).
/// Also checks that the still has the parts for the method and its coolant, that the plant has the
/// state, and that the goal allows a confidence. Pointers are those of a recipe's file.
void check_recipe(const Recipe& recipe);

}  // namespace firstdrop
