/// @file
/// A recipe's text that is read more than once, each time with other values in it.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "firstdrop/tables/tables.hpp"
#include "readers/recipe_grid.hpp"

namespace firstdrop {

/// The text, taken apart as JSON once. Copies share what was taken apart.
class RecipeDocument {
 public:
  /// Throws InputError when the text is no JSON; `file` names it in faults.
  RecipeDocument(std::string_view text, std::string file);

  /// As read_recipe() reads it, with each of these values put in its place first, in their order;
  /// objects on the way that are not there are made. A value may reach into a still or plant that
  /// the recipe names by its key or file, as "still.heater.power" does: then a copy of its own is
  /// changed, which comes from `tables` if it is one of the table's. A fault in such a value says
  /// which option it comes from. Throws InputError as read_recipe() does.
  Recipe read(const Tables& tables, const FileReader& read_file,
              const std::vector<Override>& overrides = {}, const TableTexts& texts = {}) const;

 private:
  struct Parsed;
  std::shared_ptr<const Parsed> parsed_;
};

/// Throws InputError for a value that no recipe can have at that key, and for a key that no recipe
/// has, so that it is said once and not for each recipe. What depends on the rest of the recipe, or
/// on a file, passes.
void check_override(const Override& value, const Tables& tables);

}  // namespace firstdrop
