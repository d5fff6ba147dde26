// The run as a small chart of characters.
#pragma once

#include <string>

#include "cli/terminal.hpp"
#include "firstdrop/plan/plan.hpp"

namespace firstdrop::cli {

/// Water in the pot with its reserve, hydrosol and oil over the time from heat on to the stop, and
/// what happens when. Lines and words tell the curves apart, not colour. No line is wider than the
/// terminal. Empty for a plan that is refused or has no run.
std::string plan_chart(const Plan& plan, const Look& look);

}  // namespace firstdrop::cli
