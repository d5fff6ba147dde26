// The documents that firstdrop reads, each described once: see readers/fields.hpp.
#pragma once

#include "readers/fields.hpp"

namespace firstdrop {

const Fields<Still>& still_fields();
const Fields<Plant>& plant_fields();
const Fields<PlantState>& plant_state_fields();
const Fields<OilRelease>& oil_release_fields();
const Fields<Recipe>& recipe_fields();

}  // namespace firstdrop
