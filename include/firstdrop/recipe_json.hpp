// Recipes from JSON text.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "firstdrop/library.hpp"
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

/// What a text is, by its marker key ("recipe": 1, "still": 1, "plant": 1).
enum class DocumentKind { recipe, still, plant, unknown };
DocumentKind document_kind(std::string_view text);

}  // namespace firstdrop
