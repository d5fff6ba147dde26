// Recipes from JSON text.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "firstdrop/library.hpp"
#include "firstdrop/library_json.hpp"
#include "firstdrop/recipe.hpp"

namespace firstdrop {

/// Gives the text of a file that a recipe names (a still's or plant's path, relative to the
/// recipe). Throws InputError when it can't. Keeps file access out of the library.
using FileReader = std::function<std::string(const std::string& path)>;

/// Reads one recipe, strictly: unknown and duplicate keys, wrong kinds, units and ranges are
/// faults, and all of them are reported at once.
/// Throws InputError; `file` names the text in its faults.
Recipe read_recipe(std::string_view text, const std::string& file, const Library& library,
                   const FileReader& read_file);

/// The plant and still that a recipe names by their keys; nothing for what it spells out or names
/// by a file, and nothing at all for a text that is no recipe. Throws nothing.
LibraryPart named_in_recipe(std::string_view text);

/// What a text is, by its marker key ("recipe": 1, "campaign": 1, "still": 1, "plant": 1).
enum class DocumentKind { recipe, campaign, still, plant, unknown };
DocumentKind document_kind(std::string_view text);

}  // namespace firstdrop
