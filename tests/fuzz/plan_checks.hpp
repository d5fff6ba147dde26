// Checks for the plan of any recipe that the readers accept, however odd it is.
#pragma once

#include <string_view>

#include "campaign/campaign.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/tables.hpp"

namespace firstdrop::fuzz {

/// The shipped tables, read once.
const Tables& shipped_tables();

/// Plans the recipe and writes the plan in every output format. Either the recipe is rejected as
/// bad input, or every number is finite and nothing in the output acts on a terminal or as markup.
/// Aborts otherwise. `input` is the text that the recipe comes from.
void check_plan(const Recipe& recipe, std::string_view input);

/// Makes the same checks for a campaign. It also checks that no two of its runs overlap, that no
/// run is outside the bench's hours, and that no day needs more ice than there is.
void check_campaign(const Campaign& campaign, std::string_view input);

/// Checks that a message isn't empty and has nothing that acts on a terminal. Aborts otherwise.
void check_message(std::string_view text);

/// Prints on standard error what is wrong and the text where it was seen, then aborts.
[[noreturn]] void broken(std::string_view what, std::string_view seen);

}  // namespace firstdrop::fuzz
