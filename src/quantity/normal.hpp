// Percentiles of a normal distribution in standard deviations.
#pragma once

namespace firstdrop {

/// From the median to P90. Source: table of the normal distribution, from memory; std::erf()
/// agrees.
inline constexpr double p90_in_sd = 1.2815515655446;
/// From P10 to P90, and from the median to the bound of a range, which is twice as far as P90.
inline constexpr double bound_in_sd = 2 * p90_in_sd;

}  // namespace firstdrop
