/// @file
/// JSON Schemas of what the program reads and writes: for editors, which complete and check by
/// them, and for whoever reads a plan by program.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/tables/tables.hpp"

namespace firstdrop {

/// The JSON Schema (draft 7) of one kind of document.
struct Schema {
  std::string key;    ///< "recipe"; its file in data/schemas is recipe.schema.json
  std::string about;  ///< in a sentence or two, for people
  /// The schema as JSON, complete by itself: what the files in data/schemas refer to in each other
  /// stands among its definitions.
  std::string text;
};

/// All of them: first what is read (recipe, still, plant, campaign), then what is written, and the
/// tables. Plants, stills, materials and liquids that a file may name are those of this library.
std::vector<Schema> schemas(const Tables& tables);

}  // namespace firstdrop
