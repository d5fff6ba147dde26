// What must hold of every single plan, and of every accepted one at its worst credible case and at
// any point of its input ranges.
#pragma once

#include "firstdrop/inputs.hpp"
#include "firstdrop/plan.hpp"
#include "test_random.hpp"
#include "violation.hpp"

namespace property {

/// The values that a plan with a run rests on, made once more from its recipe.
struct Basis {
  firstdrop::Inputs inputs;
  firstdrop::Mass charge;
  firstdrop::Mass fill;
  firstdrop::Run run(const firstdrop::Point& point) const {
    return firstdrop::Run(firstdrop::values_at(inputs, point, charge, fill));
  }
};
Basis basis_of(const firstdrop::Plan& plan, const firstdrop::Library& library);

/// All that does not hold. `random` draws places in the ranges.
Violations plan_violations(const firstdrop::Plan& plan, const firstdrop::Library& library,
                           test_random::Random& random);

}  // namespace property
