// What the reader sees to for recipes of files, for those that a program makes: the same bounds.
#pragma once

#include "firstdrop/readers/recipe.hpp"

namespace firstdrop {

/// Throws InputError with the first amount that is out of its bounds (readers/bounds.hpp), or what
/// the method, the plant's states or the goal don't go with. Pointers are those of a recipe's file.
void check_recipe(const Recipe& recipe);

}  // namespace firstdrop
