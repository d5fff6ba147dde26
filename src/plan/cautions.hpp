// What a finished plan must warn of: findings that follow from its own numbers, and the standing
// ones that hold for every run.
#pragma once

#include <optional>

#include "firstdrop/plan/plan.hpp"
#include "model/model_parameters.hpp"

namespace firstdrop {

/// Adds notes, cautions and the refusal of an overloaded circuit to the plan's findings. Gives
/// every finding its reason and the guidance it follows, from the table of findings.
/// `coldest_coolant` is that of the run, if it has one. In brief it adds no notes, reasons or
/// guidance, and the cautions have no text.
void add_cautions(Plan& plan, const ModelParameters& parameters, const Tables& tables,
                  std::optional<Temperature> coldest_coolant, Detail detail = Detail::full);

}  // namespace firstdrop
