// A plan as a page for the terminal: the short answer first, then the details.
#pragma once

#include <string>

#include "cli/terminal.hpp"
#include "firstdrop/plan/plan.hpp"

namespace firstdrop::cli {

std::string plan_page(const Plan& plan, const Look& look);

/// Only the short answer, with the cautions that go with it.
std::string plan_answer(const Plan& plan, const Look& look);

/// Only the head: title, verdict, and for a refused plan the reasons and ways out.
std::string plan_head(const Plan& plan, const Look& look);

}  // namespace firstdrop::cli
