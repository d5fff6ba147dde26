// The example recipes, on which the benches are run.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "firstdrop/readers/recipe_json.hpp"
#include "test_tables.hpp"

struct Example {
  std::string name;
  std::string text;
  firstdrop::Recipe recipe;
};

inline std::vector<Example> examples() {
  std::vector<Example> all;
  for (const auto& entry : std::filesystem::directory_iterator(FIRSTDROP_SOURCE_DIR "/examples")) {
    std::ostringstream text;
    if (entry.path().extension() == ".json") text << std::ifstream(entry.path()).rdbuf();
    if (firstdrop::document_kind(text.str()) != firstdrop::DocumentKind::recipe) continue;
    const std::string name = entry.path().stem().string();
    all.push_back(
        {name, text.str(), firstdrop::read_recipe(text.str(), name, shipped_tables(), {})});
  }
  std::sort(all.begin(), all.end(),
            [](const Example& a, const Example& b) { return a.name < b.name; });
  return all;
}
