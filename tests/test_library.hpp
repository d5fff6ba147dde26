// The shipped tables, read once for all tests, and plain recipes over them.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/readers/library_json.hpp"
#include "firstdrop/readers/recipe.hpp"

inline const firstdrop::Library& shipped_library() {
  static const firstdrop::Library library =
      firstdrop::read_library(firstdrop::embedded_library_texts());
  return library;
}

/// One recipe for every shipped still, each of its methods and every shipped plant, or each of
/// these plants. Whatever else a recipe may say is left out.
inline std::vector<firstdrop::Recipe> plain_recipes(const std::vector<std::string>& plants = {}) {
  const firstdrop::Library& library = shipped_library();
  std::vector<std::string> keys = plants;
  if (keys.empty()) {
    for (const auto& [key, plant] : library.plants) keys.push_back(key);
  }
  std::vector<firstdrop::Recipe> recipes;
  for (const auto& [still_key, still] : library.stills) {
    for (const firstdrop::Method method : still->methods) {
      for (const std::string& key : keys) {
        firstdrop::Recipe recipe;
        recipe.plant = library.plants.at(key);
        recipe.state = recipe.plant->states.begin()->first;
        recipe.cut = firstdrop::default_cut(recipe.plant, recipe.state);
        recipe.still = still;
        recipe.method = method;
        recipes.push_back(recipe);
      }
    }
  }
  return recipes;
}
