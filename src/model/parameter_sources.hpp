/// @file
/// What the figures of a plan rest on.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/tables.hpp"
#include "model/model_parameters.hpp"

namespace firstdrop {

/// Which of the tables' figures a recipe's own ones beat, in words; empty when it has none.
std::vector<std::string> own_notes(const OwnFigures& own);

/// The keys of the sources of all figures that a plan of these inputs rests on.
std::set<std::string> sources_of(const ModelParameters& parameters, const Tables& tables);

}  // namespace firstdrop
