/// @file
/// A plan on one line, for batches: in full, or in brief. Nobody reads ten thousand full plans.
#pragma once

#include <string>
#include <string_view>

#include "firstdrop/plan/plan.hpp"

namespace firstdrop {

/// Appends plan_json_line(). `set` has the values of a batch that varies keys, as JSON; unless it
/// is empty, it comes first, under the key "set".
void append_plan_line(std::string& line, const Plan& plan, std::string_view set = {});

/// Appends one line of JSON, without a line break at the end. It has the most important keys of
/// plan_json(), with the same meaning: charge, water, times, yields, coolant, energy and stop, and
/// the findings that refuse or caution. It starts with "brief": 1 instead of "plan": 1.
///
/// A refused plan has its charge and findings, but no amounts to work from. Hydrosol, oil and ice
/// are those of the nominal run. The keys of hydrosol and oil say so ("nominal_ml"), and
/// plan_json() doesn't have those keys. If there were samples, hydrosol and oil also have their
/// ranges, as in plan_json(). Numbers aren't rounded. A plan made with Detail::brief has everything
/// this needs. `set` is as above.
void append_brief(std::string& line, const Plan& plan, std::string_view set = {});

}  // namespace firstdrop
