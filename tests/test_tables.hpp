// The shipped tables, read once for all tests, and plain recipes over them.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/readers/tables_json.hpp"

inline const firstdrop::Tables& shipped_tables() {
  static const firstdrop::Tables tables = firstdrop::read_tables(firstdrop::embedded_table_texts());
  return tables;
}

/// One plain recipe for every shipped still, each of its methods, and every shipped plant that
/// isn't refused (or each plant in `plants`). Everything optional is left out.
inline std::vector<firstdrop::Recipe> plain_recipes(const std::vector<std::string>& plants = {}) {
  const firstdrop::Tables& tables = shipped_tables();
  std::vector<std::string> keys = plants;
  if (keys.empty()) {
    for (const auto& [key, plant] : tables.plants)
      if (!firstdrop::is_refused(plant)) keys.push_back(key);
  }
  std::vector<firstdrop::Recipe> recipes;
  for (const auto& [still_key, still] : tables.stills) {
    for (const firstdrop::Method method : still->methods) {
      for (const std::string& key : keys) {
        firstdrop::Recipe recipe;
        recipe.plant = tables.plants.at(key);
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
