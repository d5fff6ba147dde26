/// @file
/// A run drawn over its time: water in the pot, hydrosol, oil, coolant, and what happens when.
#pragma once

#include <string>
#include <string_view>

#include "firstdrop/plan/plan.hpp"

namespace firstdrop {

/// One `svg` element that stands in an HTML page or alone, 186 mm wide and 54 mm high, for black
/// ink on white paper. It needs nothing from outside, has no script and no style sheet, and says in
/// words what it shows, for readers who cannot see it. `id` begins every id in it: two pictures in
/// one page need two of them (letters, digits and hyphens, a letter first).
///
/// Bands reach from the 10th to the 90th percentile: that of oil at every level or time of the
/// typical run; that of hydrosol between the early and the late course, from the first drop to the
/// stop. Empty for a plan that is refused or has no run: nobody shall work from it.
std::string run_picture(const Plan& plan, std::string_view id = "run-picture");

}  // namespace firstdrop
