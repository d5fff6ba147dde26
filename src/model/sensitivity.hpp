/// @file
/// Which model parameters an outcome's uncertainty comes from.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/model/uncertainty.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "model/sample_point.hpp"

namespace firstdrop {

/// First-order sensitivities, Var(E[outcome | parameter]) / Var(outcome), from samples at these
/// points. `outcomes` has one outcome for each point, in the same order. The estimate needs no
/// further samples. It is the correlation ratio over sixteen classes of each parameter, less what
/// chance alone would give. With fewer than 128 samples there are fewer classes.
///
/// Outcomes beyond the share `clipped` from either end are first moved there, so that a rare
/// extreme doesn't dominate. Infinity counts as the largest finite outcome (or zero). Empty if all
/// outcomes are the same, or if there are fewer than sixteen.
/// Range: clipped 0 to below 0.5; no outcome may be NaN.
/// Source: K. Pearson, Proc. R. Soc. Lond. 71, 1903, pp. 288-313, for the ratio; T. L. Kelley, PNAS
/// 21, 1935, pp. 554-559, for chance; both from memory.
Sensitivities first_order_sensitivity(const std::vector<SamplePoint>& points,
                                      std::vector<double> outcomes, double clipped = 0.05);

/// What a person can do to know a parameter better, with the recipe's key that takes the result.
std::string how_to_know(Parameter parameter);

}  // namespace firstdrop
