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

/// All tables, as read_tables() reads them, each by its keys. Many threads may read them at once.
/// Whatever is planned with the tables refers to them, so they must outlive it and must not be
/// moved.
struct Tables {
  std::map<std::string, Source> sources;      ///< bibliography
  std::map<std::string, Liquid> liquids;      ///< oil constituents
  std::map<std::string, Material> materials;  ///< of vessels and condensers
  DesignDefaults design_defaults;             ///< rules of thumb, and defaults for all plants
  std::map<PlantForm, FormDefaults> forms;    ///< defaults by form of the material
  std::map<std::string, ReleaseClass> release_classes;  ///< defaults by where the oil sits
  std::map<std::string, Shared<Plant>> plants;          ///< plants that a recipe may name
  std::map<std::string, Shared<Still>> stills;          ///< stills that a recipe may name
  std::map<std::string, Shared<FindingKind>> findings;  ///< kinds of findings, by code
};

}  // namespace firstdrop
