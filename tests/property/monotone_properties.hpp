// More of one input never gives less of what physics ties to it. These compare a plan with the same
// plan after one change.
#pragma once

#include <map>
#include <string>

#include "firstdrop/plan/plan.hpp"
#include "firstdrop/tables/tables.hpp"
#include "test_random.hpp"
#include "violation.hpp"

namespace property {

/// Number of pairs that were compared, by property.
using Pairs = std::map<std::string, long>;

/// All violations between this plan and its variants. Needs a plan with a run.
Violations monotone_violations(const firstdrop::Plan& plan, const firstdrop::Tables& tables,
                               int samples, test_random::Random& random, Pairs& pairs);

}  // namespace property
