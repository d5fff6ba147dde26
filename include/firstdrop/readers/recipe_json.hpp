/// @file
/// Recipes from JSON text.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "firstdrop/tables/tables.hpp"

namespace firstdrop {

/// Returns the text of a file that a recipe names: the path of a still or plant, relative to the
/// recipe. Throws InputError if it can't. It keeps file access out of the library. If it is empty,
/// no files can be read, and naming one is a fault.
using FileReader = std::function<std::string(const std::string& path)>;

/// Reads one recipe strictly. Unknown and duplicate keys, wrong kinds, wrong units and values out
/// of range are faults, and all of them are reported at once.
/// Plants and stills come from the tables, from the text itself, or from files through `read_file`.
/// Throws InputError with all faults (at most a hundred, and the number of any others). `file`
/// names the text in them.
Recipe read_recipe(std::string_view text, const std::string& file, const Tables& tables,
                   const FileReader& read_file);

/// The texts of a recipe's keys "plant" and "still": keys of the tables, or names of files. Of a
/// plant that is spelled out it takes what it is like, and of a still nothing. A text that isn't
/// JSON gives none. Throws nothing.
TablePart named_in_recipe(std::string_view text);

/// The kind of a document, by its marker key ("recipe": 1, "campaign": 1, "still": 1, "plant": 1).
enum class DocumentKind {
  recipe,    ///< for read_recipe()
  campaign,  ///< for read_campaign()
  still,     ///< for read_still()
  plant,     ///< for read_plant()
  unknown,   ///< none of these, or not JSON
};
/// Looks only at the keys of the outermost object; the readers check the rest. Throws nothing.
DocumentKind document_kind(std::string_view text);

}  // namespace firstdrop
