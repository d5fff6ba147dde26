// The files in data/schemas/ as they were compiled in.
#pragma once

#include <string_view>
#include <vector>

namespace firstdrop {

struct EmbeddedSchema {
  std::string_view file;  ///< "recipe.schema.json"
  std::string_view text;
};
/// In the order in which the build names them.
std::vector<EmbeddedSchema> embedded_schemas();

}  // namespace firstdrop
