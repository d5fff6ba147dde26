// A recipe in the making, for `firstdrop new`.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/tables.hpp"
#include "readers/starter.hpp"

namespace firstdrop::cli {

/// What is known of a recipe so far.
struct RecipeDraft {
  Starter starter;
  std::string output;  ///< the file to write to; files that the recipe names stand beside it

  /// The value of the key with this path, if it has one.
  std::optional<std::string> value(const std::string& path) const;
  /// The same draft with this value.
  RecipeDraft with(const std::string& path, std::string text) const;
};

/// The recipe as far as it goes. Throws InputError with everything that is wrong or missing.
Recipe read_draft(const RecipeDraft& draft, const Tables& tables);

/// The draft with title, state, cut and method spelled out, to show a person what can be changed.
/// Throws as read_draft() does.
RecipeDraft completed(RecipeDraft draft, const Tables& tables);

/// Fresh, unless the table has only other states of the plant; then the first of those.
std::string usual_state(const Plant& plant);
/// That of the draft's plant, of what it is like, or of its form. None for a file of one's own.
std::optional<std::string> usual_state_of(const RecipeDraft& draft, const Tables& tables);

}  // namespace firstdrop::cli
