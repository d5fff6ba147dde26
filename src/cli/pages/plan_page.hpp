// A plan as a page for the terminal: the short answer first, details under it.
#pragma once

#include <string>

#include "cli/terminal.hpp"
#include "firstdrop/plan/plan.hpp"

namespace firstdrop::cli {

std::string plan_page(const Plan& plan, const Look& look);

/// The short answer alone, with the cautions that go with it.
std::string plan_answer(const Plan& plan, const Look& look);

/// Its head alone: title, verdict, and what refuses it.
std::string plan_head(const Plan& plan, const Look& look);

}  // namespace firstdrop::cli
