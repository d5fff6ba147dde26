// The run as a small chart of characters.
#pragma once

#include <string>

#include "cli/terminal.hpp"
#include "firstdrop/plan/plan.hpp"

namespace firstdrop::cli {

/// Water in the pot with its reserve, hydrosol and oil, from the start of heating to the stop, with
/// the events of the run. Lines and words tell the curves apart, not colour. No line is wider than
/// the terminal. Throws RefusedError for a plan that is refused or has no run.
std::string plan_chart(const Plan& plan, const Look& look);

}  // namespace firstdrop::cli
