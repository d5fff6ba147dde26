// An explained plan as text for people.
#pragma once

#include <string>
#include <vector>

#include "cli/terminal.hpp"
#include "firstdrop/plan/plan.hpp"
#include "output/explain.hpp"

namespace firstdrop::cli {

std::string explain_page(const Plan& plan, const std::vector<Chapter>& chapters,
                         const Tables& tables, const Look& look);

}  // namespace firstdrop::cli
