#include "cli/recipe_changes.hpp"

#include <fmt/core.h>

#include <utility>
#include <variant>

#include "firstdrop/base/error.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop::cli {
namespace {

/// The key of the goal and its value as the recipe would have them; none for the whole harvest.
std::optional<std::pair<std::string, std::string>> goal_key(const Recipe& recipe) {
  const Units units = recipe.units;
  if (const auto* hydrosol = std::get_if<HydrosolGoal>(&recipe.goal))
    return {{"goal.hydrosol", text(hydrosol->volume, units)}};
  if (const auto* ratio = std::get_if<RatioGoal>(&recipe.goal))
    return {{"goal.ratio",
             fmt::format("{:.1f} L/kg", in_litres_per_kilogram(ratio->hydrosol_per_fresh))}};
  if (const auto* share = std::get_if<OilShareGoal>(&recipe.goal))
    return {{"goal.oil_share", text(share->share)}};
  if (const auto* time = std::get_if<TimeGoal>(&recipe.goal))
    return {{"goal.time", text(time->time)}};
  if (const auto* oil = std::get_if<OilGoal>(&recipe.goal)) {
    const auto* mass = std::get_if<Mass>(&oil->amount);
    return {{"goal.oil",
             mass != nullptr
                 ? fmt::format("{:.3g} g", in_grams(*mass))
                 : fmt::format("{:.3g} mL", in_millilitres(std::get<Volume>(oil->amount)))}};
  }
  return std::nullopt;
}

}  // namespace

std::optional<RecipeDraft> changed_draft(const RecipeDraft& draft, const Recipe& from,
                                         const Recipe& to) {
  if (!to.still.is_same_as(from.still)) return std::nullopt;
  RecipeDraft changed = draft;
  const auto put = [&](const char* path, const auto& before, const auto& after) {
    if (before == after) return;
    if (after)
      changed.starter[path] = text(*after, to.units);
    else
      changed.starter[path].reset();
  };
  put("charge", from.charge, to.charge);
  put("water", from.water, to.water);
  put("setting", std::optional(from.setting), std::optional(to.setting));
  put("site.coolant", from.site.coolant, to.site.coolant);
  put("goal.confidence", from.confidence, to.confidence);
  put("limits.time", from.limits.time, to.limits.time);
  put("limits.absence", std::optional(from.limits.absence), std::optional(to.limits.absence));
  const auto goal = goal_key(to);
  if (goal != goal_key(from)) {
    for (const char* key :
         {"goal.hydrosol", "goal.ratio", "goal.oil", "goal.oil_share", "goal.time"})
      changed.starter[key].reset();
    if (goal) changed.starter[goal->first] = goal->second;
  }
  return changed;
}

std::vector<RecipeChange> recipe_changes(const RecipeDraft& draft, const Plan& refused,
                                         const std::vector<WayOut>& ways, const Tables& tables) {
  std::vector<RecipeChange> changes;
  for (const WayOut& way : ways) {
    auto changed = changed_draft(draft, refused.recipe, way.recipe);
    if (!changed) continue;
    try {
      // The text of an amount is rounded, so the plan is made from it once more.
      const Plan plan = make_plan(read_draft(*changed, tables), tables);
      if (plan.verdict != Verdict::refused) changes.push_back({way.text, std::move(*changed)});
    } catch (const InputError&) {
      continue;  // what the change needs can't be written in a recipe
    }
  }
  return changes;
}

}  // namespace firstdrop::cli
