// More of one thing never brings less of what physics ties to it: a plan against the same with one
// thing changed.
#pragma once

#include <map>
#include <string>

#include "firstdrop/plan/plan.hpp"
#include "firstdrop/tables/tables.hpp"
#include "test_random.hpp"
#include "violation.hpp"

namespace property {

/// Pairs that were compared, by property.
using Pairs = std::map<std::string, long>;

/// All that does not hold between this plan and its variants. Needs a plan with a run.
Violations monotone_violations(const firstdrop::Plan& plan, const firstdrop::Tables& tables,
                               int samples, test_random::Random& random, Pairs& pairs);

}  // namespace property
