// The questions of `firstdrop new` to a person at the terminal.
#pragma once

#include <optional>
#include <string>

#include "cli/recipe_draft.hpp"
#include "firstdrop/plan/plan.hpp"
#include "firstdrop/tables/tables.hpp"

namespace firstdrop::cli {

/// Asks for what the draft lacks, except for the file to write to.
RecipeDraft interviewed(RecipeDraft draft, const Tables& tables);

/// Says why the plan of this draft is refused, and offers the changes of the recipe that help.
/// Returns the draft with the one that the person takes; nothing if there is none, or if they keep
/// the recipe as it is.
std::optional<RecipeDraft> asked_for_way_out(const RecipeDraft& draft, const Plan& refused,
                                             const Tables& tables);

/// The draft with the file to write to. It is asked for if the recipe would otherwise be lost among
/// the answers on a terminal.
RecipeDraft with_file(RecipeDraft draft, bool force, const Tables& tables);

}  // namespace firstdrop::cli
