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

/// Gives the text of a file that a recipe names (a still's or plant's path, relative to the
/// recipe). Throws InputError when it can't. Keeps file access out of the library.
/// An empty one is a reader of no files: their names are faults then.
using FileReader = std::function<std::string(const std::string& path)>;

/// Reads one recipe, strictly: unknown and duplicate keys, wrong kinds, units and ranges are
/// faults, and all of them are reported at once.
/// Plants and stills come from the library, from the text, or by `read_file` from files.
/// Throws InputError with all faults (a hundred at most, and how many more there are); `file` names
/// the text in them.
Recipe read_recipe(std::string_view text, const std::string& file, const Tables& tables,
                   const FileReader& read_file);

/// The plant and still that a recipe names by their keys; nothing for what it spells out or names
/// by a file, and nothing at all for a text that is no recipe. Throws nothing.
TablePart named_in_recipe(std::string_view text);

/// What a text is, by its marker key ("recipe": 1, "campaign": 1, "still": 1, "plant": 1).
enum class DocumentKind {
  recipe,    ///< for read_recipe()
  campaign,  ///< for read_campaign()
  still,     ///< for read_still()
  plant,     ///< for read_plant()
  unknown,   ///< none of these, or no JSON
};
/// Looks at the keys of the outermost object only; whether the rest is good, the readers say.
/// Throws nothing.
DocumentKind document_kind(std::string_view text);

}  // namespace firstdrop
