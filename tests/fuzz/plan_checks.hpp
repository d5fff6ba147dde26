// What must hold of the plan of any recipe, however odd, that the readers let through.
#pragma once

#include <string_view>

#include "campaign/campaign.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/tables.hpp"

namespace firstdrop::fuzz {

/// The shipped tables, read once.
const Tables& shipped_tables();

/// Plans the recipe and writes the plan in every form there is. Either the recipe is refused as bad
/// input, or every number is finite and nothing in the output acts on a terminal or as markup.
/// Aborts where that does not hold. `input` is the text that the recipe comes from.
void check_plan(const Recipe& recipe, std::string_view input);

/// The same for a campaign; and no two of its runs take the still at once, none is outside of the
/// bench's hours and no day takes more ice than there is.
void check_campaign(const Campaign& campaign, std::string_view input);

/// A message stands on lines of its own and shows nothing that acts on a terminal.
void check_message(std::string_view text);

/// Says what does not hold, and aborts.
[[noreturn]] void broken(std::string_view what, std::string_view seen);

}  // namespace firstdrop::fuzz
