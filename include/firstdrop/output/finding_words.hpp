/// @file
/// Findings in words: the sentences, numbers and reasons that people and scripts read.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/plan/finding.hpp"
#include "firstdrop/quantity/units.hpp"

namespace firstdrop {

/// What was found, in one or a few sentences with its numbers. One that holds for every run has the
/// words of its row in the table of findings, and none without that row.
std::string finding_text(const Finding& finding, Units units);

/// The numbers behind a finding, for scripts. Both are in metric units.
struct FindingAmounts {
  std::optional<Amount> value;  ///< the plan's value, if it is a number
  std::optional<Amount> limit;  ///< the limit for that value
};
FindingAmounts finding_amounts(const Finding& finding);

/// How it does harm, from the table; empty if it doesn't concern safety.
std::string finding_reason(const Finding& finding);
/// Whose guidance it follows; empty if it doesn't concern safety.
std::string finding_follows(const Finding& finding);

}  // namespace firstdrop
