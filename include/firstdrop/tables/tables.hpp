/// @file
/// The tables: everything the planner knows before it sees a recipe.
#pragma once

#include <map>
#include <string>

#include "firstdrop/base/shared.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/tables/design_defaults.hpp"
#include "firstdrop/tables/finding.hpp"
#include "firstdrop/tables/liquid.hpp"
#include "firstdrop/tables/plant.hpp"
#include "firstdrop/tables/still.hpp"

namespace firstdrop {

/// All tables, as read_tables() reads them; each by its keys. May be read by many threads at once.
/// What is planned with a library holds references into it: it must stay where it is.
struct Tables {
  std::map<std::string, Source> sources;                ///< bibliography
  std::map<std::string, Liquid> liquids;                ///< constituents of oils
  std::map<std::string, Material> materials;            ///< of vessels and condensers
  DesignDefaults design_defaults;                       ///< the trade's figures, and defaults
  std::map<PlantForm, FormDefaults> forms;              ///< defaults by form
  std::map<std::string, ReleaseClass> release_classes;  ///< defaults by where the oil sits
  std::map<std::string, Shared<Plant>> plants;          ///< what a recipe may name
  std::map<std::string, Shared<Still>> stills;          ///< what a recipe may name
  std::map<std::string, FindingKind> findings;          ///< by their codes
};

}  // namespace firstdrop
