/// @file
/// Which inputs an outcome's spread comes from.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/model/uncertainty.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "model/sample_point.hpp"

namespace firstdrop {

/// First-order variance shares, Var(E[outcome | input]) / Var(outcome), of outcomes over samples at
/// these points: one outcome for each point, in the same order. They come from the samples as they
/// are: the correlation ratio over sixteen classes of each input, fewer where there are fewer than
/// 128 samples, less what chance alone would give.
///
/// Outcomes beyond the share `clipped` from either end are moved there first, so that a rare
/// extreme does not decide; infinity counts as the largest finite one (or zero). Empty when all
/// outcomes are the same, or there are fewer than sixteen.
/// Range: clipped 0 to below 0.5; no outcome is not a number.
/// Source: K. Pearson, Proc. R. Soc. Lond. 71, 1903, pp. 288-313, for the ratio; T. L. Kelley, PNAS
/// 21, 1935, pp. 554-559, for chance; both from memory.
Sensitivities first_order_sensitivity(const std::vector<SamplePoint>& points,
                                      std::vector<double> outcomes, double clipped = 0.05);

/// What a person can do to know an input better, with the recipe's key that takes it.
std::string how_to_know(Parameter parameter);

}  // namespace firstdrop
