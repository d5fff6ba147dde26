// What the readers see to for stills and plants of files, for those that a program makes: that
// figures have been set, as far as a run would be nonsense without them, and that what they name is
// known.
#pragma once

#include "firstdrop/tables/library.hpp"
#include "firstdrop/tables/method.hpp"
#include "firstdrop/tables/plant.hpp"
#include "firstdrop/tables/still.hpp"

namespace firstdrop {

/// Throws InputError with all faults, each with its pointer in the recipe.
void check_still(const Still& still, Method method, const Library& library);
void check_plant(const Plant& plant, const Library& library);

}  // namespace firstdrop
