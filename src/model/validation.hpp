// Validation of stills and plants that a program makes, as the readers do it for files. It checks
// that the figures a run depends on are set and within bounds, and that the names in them are known
// to the tables.
#pragma once

#include "firstdrop/tables/plant.hpp"
#include "firstdrop/tables/still.hpp"
#include "firstdrop/tables/tables.hpp"

namespace firstdrop {

/// Throws InputError with all faults, each with its pointer in the recipe.
void check_still(const Still& still, Method method, const Tables& tables);
void check_plant(const Plant& plant, const Tables& tables);

}  // namespace firstdrop
