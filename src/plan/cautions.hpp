// What a plan must warn of and should tell: findings that follow from its own numbers, and those
// that hold for every run.
#pragma once

#include <optional>

#include "firstdrop/plan/plan.hpp"
#include "plan/planning.hpp"

namespace firstdrop {

/// Adds notes, cautions and the refusal of an overloaded circuit to a plan that has its charge and,
/// if there is one, its run. Gives every finding its row of the table of findings, and adds the
/// sources of all guidance. `coldest_coolant` is that of the run, if it has one. In brief it adds
/// no notes and no rows.
void add_cautions(Plan& plan, const Planning& p, std::optional<Temperature> coldest_coolant);

}  // namespace firstdrop
