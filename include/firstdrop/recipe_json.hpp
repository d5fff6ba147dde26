// Recipes from JSON text.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "firstdrop/library.hpp"
#include "firstdrop/library_json.hpp"
#include "firstdrop/recipe.hpp"
#include "firstdrop/recipe_grid.hpp"

namespace firstdrop {

/// Gives the text of a file that a recipe names (a still's or plant's path, relative to the
/// recipe). Throws InputError when it can't. Keeps file access out of the library.
using FileReader = std::function<std::string(const std::string& path)>;

/// Reads one recipe, strictly: unknown and duplicate keys, wrong kinds, units and ranges are
/// faults, and all of them are reported at once.
/// Throws InputError; `file` names the text in its faults.
Recipe read_recipe(std::string_view text, const std::string& file, const Library& library,
                   const FileReader& read_file);

/// A recipe's text that is read more than once, each time with other values in it.
class RecipeDocument {
 public:
  /// Throws InputError when the text is no JSON; `file` names it in faults.
  RecipeDocument(std::string_view text, std::string file);

  /// As read_recipe() reads it, with each of these values put in its place first, in their order;
  /// objects on the way that are not there are made. A value may reach into a still or plant that
  /// the recipe names by its key or file, as "still.heater.power" does: then a copy of its own is
  /// changed, which comes from `tables` if it is one of the table's. A fault in such a value says
  /// which option it comes from.
  Recipe read(const Library& library, const FileReader& read_file,
              const std::vector<Override>& overrides = {}, const LibraryTexts& tables = {}) const;

 private:
  struct Parsed;
  std::shared_ptr<const Parsed> parsed_;
};

/// Throws InputError for a value that no recipe can have at that key, and for a key that no recipe
/// has, so that it is said once and not for each recipe. What depends on the rest of the recipe, or
/// on a file, passes.
void check_override(const Override& value, const Library& library);

/// The plant and still that a recipe names by their keys; nothing for what it spells out or names
/// by a file, and nothing at all for a text that is no recipe. Throws nothing.
LibraryPart named_in_recipe(std::string_view text);

/// What a text is, by its marker key ("recipe": 1, "still": 1, "plant": 1).
enum class DocumentKind { recipe, still, plant, unknown };
DocumentKind document_kind(std::string_view text);

}  // namespace firstdrop
