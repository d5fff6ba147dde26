/// @file
/// What a plan comes to, in one line: for batches, where nobody reads ten thousand whole plans.
#pragma once

#include <string>

#include "firstdrop/plan/plan.hpp"

namespace firstdrop {

/// Appends one line of JSON, without the line's end: of the keys of plan_json() those that say what
/// to load and pour, what comes when and how much, what to have ready, and what it is refused for,
/// with the same meaning; "brief": 1 in the place of "plan": 1. A refused plan has its charge and
/// its findings, no amounts to work from. Hydrosol, oil and ice are those of the typical run; where
/// there were samples, their ranges follow as in plan_json(). Numbers are in full. A plan of
/// Detail::brief has all that is needed.
void append_brief(std::string& line, const Plan& plan);

}  // namespace firstdrop
