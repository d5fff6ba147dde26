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

namespace {

// The first state, fresh before others, in which the draft can be read.
std::optional<std::string> usual_state_of_blend(const RecipeDraft& draft, const Tables& tables) {
  for (const Word<State>& state : words_of<State>) {
    try {
      read_draft(draft.with("state", state.word), tables);
      return state.word;
    } catch (const InputError&) {
      continue;
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::string> usual_state_of(const RecipeDraft& draft, const Tables& tables) {
  std::string key = draft.value("plant").value_or("");
  if (const auto unlisted = plant_like(key)) key = unlisted->like;
  if (!plant_shares(key).empty()) return usual_state_of_blend(draft, tables);
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
