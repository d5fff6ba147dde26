// What a finished plan must warn of: the standing cautions of a method and still, and the findings
// that follow from the plan's own numbers.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "firstdrop/inputs.hpp"
#include "firstdrop/plan.hpp"

namespace firstdrop {

/// Short sentences that hold for every such run.
std::vector<std::string> standing_cautions(const Recipe& recipe);

/// Adds notes and cautions to the plan's findings. `coldest_coolant` is that of the run, if it has
/// one.
void add_cautions(Plan& plan, const Inputs& inputs, const Library& library,
                  std::optional<Temperature> coldest_coolant);

}  // namespace firstdrop
