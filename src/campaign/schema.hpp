/// @file
/// JSON Schemas of what the program reads and writes. Editors use them to complete and check files;
/// programs that read a plan can rely on them.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/tables/tables.hpp"

namespace firstdrop {

/// The JSON Schema (draft 7) of one kind of document.
struct Schema {
  std::string key;    ///< "recipe"
  std::string about;  ///< one or two sentences for people
  /// The schema as JSON, complete in itself: its definitions include whatever it refers to.
  std::string text;
};

/// All schemas: first those of what is read (recipe, still, plant, campaign), then those of what is
/// written, then that of the tables. The plants, stills, materials, liquids and release classes
/// that a file may name are those of `tables`.
std::vector<Schema> schemas(const Tables& tables);

}  // namespace firstdrop
