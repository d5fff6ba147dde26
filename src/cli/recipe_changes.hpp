// Ways out of a refused plan as changes of the recipe's keys.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/recipe_draft.hpp"
#include "firstdrop/plan/planner.hpp"

namespace firstdrop::cli {

/// A way out that the recipe alone can take.
struct RecipeChange {
  std::string text;   ///< instruction, as of WayOut
  RecipeDraft draft;  ///< the recipe with the change; its plan may be run
};

/// The recipe `draft`, which asks for `from`, changed to ask for `to`. Nothing if it can't:
/// another still, for example, isn't a change of the recipe.
std::optional<RecipeDraft> changed_draft(const RecipeDraft& draft, const Recipe& from,
                                         const Recipe& to);

/// Those ways out of a refused plan that change the recipe alone. Each was planned again as it is
/// then written.
std::vector<RecipeChange> recipe_changes(const RecipeDraft& draft, const Plan& refused,
                                         const std::vector<WayOut>& ways, const Tables& tables);

}  // namespace firstdrop::cli
