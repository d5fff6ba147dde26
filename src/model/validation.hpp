// What the readers see to for stills and plants of files, for those that a program makes: that
// figures have been set, as far as a run would be nonsense without them, and that what they name is
// known.
#pragma once

#include "firstdrop/tables/plant.hpp"
#include "firstdrop/tables/still.hpp"
#include "firstdrop/tables/tables.hpp"

namespace firstdrop {

/// Throws InputError with all faults, each with its pointer in the recipe.
void check_still(const Still& still, Method method, const Tables& tables);
void check_plant(const Plant& plant, const Tables& tables);

}  // namespace firstdrop
