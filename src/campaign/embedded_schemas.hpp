// The files of data/schemas/, compiled into the library: what firstdrop writes.
#pragma once

#include <string_view>
#include <vector>

namespace firstdrop {

struct EmbeddedSchema {
  std::string_view file;  ///< "recipe.schema.json"
  std::string_view text;
};
/// All embedded schemas, in the order in which the build lists them.
std::vector<EmbeddedSchema> embedded_schemas();

}  // namespace firstdrop
