// What a finished plan must warn of: the findings that follow from the plan's own numbers, and the
// standing ones of every run of its kind.
#pragma once

#include <optional>

#include "firstdrop/plan/plan.hpp"
#include "model/model_parameters.hpp"

namespace firstdrop {

/// Adds notes and cautions to the plan's findings, and to every finding its reason and the guidance
/// it follows, as the library's table of findings has them. `coldest_coolant` is that of the run,
/// if it has one. In brief no notes are added, and to the cautions no words.
void add_cautions(Plan& plan, const ModelParameters& parameters, const Tables& tables,
                  std::optional<Temperature> coldest_coolant, Detail detail = Detail::full);

}  // namespace firstdrop
