/// @file
/// A starter recipe or still, as text for a person to edit.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace firstdrop {

/// Values of a recipe or still by the paths of their keys, each as written there:
/// {"site.altitude", "540 m"}. What is absent here is absent there.
using Starter = std::map<std::string, std::optional<std::string>>;

/// The value of the key with this path, if it has one.
std::optional<std::string> value_in(const Starter& starter, const std::string& path);

/// A plant that is like another, or like its form.
struct PlantLike {
  std::string name;
  std::string like;
};
/// "apple mint like spearmint", or none for any other text.
std::optional<PlantLike> plant_like(const std::string& text);

/// A plant of a blend, as a person names it.
struct PlantShare {
  std::string plant;  ///< a key of the table
  std::string share;  ///< with its unit: "60 %"
};
/// "60 % lavender, 40 % rosemary", with the share before or after each plant. Empty for any other
/// text.
std::vector<PlantShare> plant_shares(const std::string& text);

/// The recipe as JSON text, with its keys in the order in which a person reads them. Nothing is
/// checked here; read_recipe() checks it like any other recipe. Texts only: a key whose value is
/// not a text in JSON, such as the seed, can't be set.
std::string starter_recipe(const Starter& starter);

/// A still as JSON text, in the same way: {"pot.volume", "3 L"}. read_still() checks it.
std::string starter_still(const Starter& starter);

}  // namespace firstdrop
