// The tables: everything the planner knows before it sees a recipe.
#pragma once

#include <map>
#include <string>

#include "firstdrop/finding.hpp"
#include "firstdrop/liquid.hpp"
#include "firstdrop/plant.hpp"
#include "firstdrop/practice.hpp"
#include "firstdrop/shared.hpp"
#include "firstdrop/source.hpp"
#include "firstdrop/still.hpp"

namespace firstdrop {

struct Library {
  std::map<std::string, Source> sources;
  std::map<std::string, Liquid> liquids;
  std::map<std::string, Material> materials;
  Practice practice;
  std::map<PlantForm, FormDefaults> forms;
  std::map<std::string, ReleaseClass> release_classes;
  std::map<std::string, Shared<Plant>> plants;
  std::map<std::string, Shared<Still>> stills;
  std::map<std::string, FindingKind> findings;  ///< by their codes
};

}  // namespace firstdrop
