#include "cli/recipe_draft.hpp"

#include <fmt/core.h>

#include <utility>

#include "base/text_layout.hpp"
#include "base/words.hpp"
#include "cli/files.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "tables/words.hpp"

namespace firstdrop::cli {

std::optional<std::string> RecipeDraft::value(const std::string& path) const {
  return value_in(starter, path);
}

RecipeDraft RecipeDraft::with(const std::string& path, std::string text) const {
  RecipeDraft changed = *this;
  changed.starter[path] = std::move(text);
  return changed;
}

Recipe read_draft(const RecipeDraft& draft, const Tables& tables) {
  return read_recipe(starter_recipe(draft.starter), "", tables, reader_beside(draft.output));
}

std::string usual_state(const Plant& plant) {
  const bool fresh = plant.states.empty() || plant.states.contains(State::fresh);
  return to_string(fresh ? State::fresh : plant.states.begin()->first);
}

std::optional<std::string> usual_state_of(const RecipeDraft& draft, const Tables& tables) {
  std::string key = draft.value("plant").value_or("");
  if (const auto unlisted = plant_like(key)) key = unlisted->like;
  const auto plant = tables.plants.find(key);
  if (plant != tables.plants.end()) return usual_state(plant->second);
  const auto form = value_of<PlantForm>(key);
  const auto defaults = form ? tables.forms.find(*form) : tables.forms.end();
  if (defaults == tables.forms.end()) return std::nullopt;
  Plant any;
  any.states = defaults->second.states;
  return usual_state(any);
}

RecipeDraft completed(RecipeDraft draft, const Tables& tables) {
  if (!draft.value("state")) draft.starter["state"] = usual_state_of(draft, tables);
  const Recipe recipe = read_draft(draft, tables);
  draft.starter["state"] = to_string(recipe.state);
  draft.starter["cut"] = to_string(recipe.cut);
  draft.starter["method"] = to_string(recipe.method_used());
  if (!draft.value("title")) {
    draft.starter["title"] =
        fmt::format("{}, {}", capitalised(recipe.plant->name), to_string(recipe.state));
  }
  return draft;
}

}  // namespace firstdrop::cli
