/// @file
/// A recipe's text that is read several times, each time with other values in it.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "firstdrop/tables/tables.hpp"
#include "readers/fields.hpp"
#include "readers/recipe_grid.hpp"

namespace firstdrop {

/// A text that is parsed as JSON once. Copies share the parsed form.
class RecipeDocument {
 public:
  /// Throws InputError if the text is not JSON; `file` names it in faults.
  RecipeDocument(std::string_view text, std::string file);

  /// Reads the recipe as read_recipe() does, with the overrides put in first, in their order.
  /// Missing objects on the way are created. A value may reach into a still or plant that the
  /// recipe names by key or file, as "still.heater.power" does. The recipe then gets a changed
  /// copy, which comes from `texts` if the still or plant is an entry of a table. A fault in an
  /// override says which option it comes from. Throws InputError as read_recipe() does.
  Recipe read(const Tables& tables, const FileReader& read_file,
              const std::vector<Override>& overrides = {}, const TableTexts& texts = {}) const;
  /// Reads it for a run with water alone: it needs no plant, and only its still, site, setting,
  /// water and limits count.
  Recipe read_without_plant(const Tables& tables, const FileReader& read_file,
                            const std::vector<Override>& overrides) const;

  /// The same faults, but those without a file get this one and their places in it. Checks of a
  /// recipe after it was read, with these arguments, know only the pointer.
  InputError located(const InputError& error, const FileReader& read_file,
                     const std::vector<Override>& overrides = {},
                     const TableTexts& texts = {}) const;

 private:
  Recipe read_for(const Reading& reading, const std::vector<Override>& overrides,
                  const TableTexts& texts) const;

  struct Parsed;
  std::shared_ptr<const Parsed> parsed_;
};

/// Throws InputError for a key that no recipe has, and for a value that no recipe can have at that
/// key. So the fault is reported once, not for each recipe. Values that depend on the rest of the
/// recipe, or on a file, pass.
void check_override(const Override& value, const Tables& tables);

}  // namespace firstdrop
