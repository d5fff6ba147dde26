// The documents that firstdrop reads, each described once: see readers/fields.hpp.
#pragma once

#include "firstdrop/readers/recipe.hpp"
#include "readers/fields.hpp"

namespace firstdrop {

const Fields<Still>& still_fields();
const Fields<Plant>& plant_fields();
/// The release classes that a plant may name. "seed" means crushed-seed or whole-seed, depending on
/// the cut. Empty if the table couldn't be read.
std::vector<std::string> class_names(const Tables& tables);
/// The names that a key of this Key::table may have.
std::vector<std::string> names_of_table(const std::string& table, const Tables& tables);
const Fields<PlantState>& plant_state_fields();
const Fields<OilRelease>& oil_release_fields();
const Fields<Recipe>& recipe_fields();

/// One key of a recipe by its path, "site.altitude"; not one inside its plant or still. Throws
/// std::out_of_range if there is none.
const Key& recipe_key(const std::string& path);
/// The same for a still: "pot.volume".
const Key& still_key(const std::string& path);

}  // namespace firstdrop
