/// @file
/// The own figures and the sources that a plan rests on.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/tables.hpp"
#include "model/model_parameters.hpp"

namespace firstdrop {

/// Names of the table figures that the recipe's own figures replace; empty if it has none.
std::vector<std::string> replaced_figures(const OwnFigures& own);

/// Keys of the sources of every figure that a plan with these parameters rests on.
std::set<std::string> sources_of(const ModelParameters& parameters, const Tables& tables);

}  // namespace firstdrop
