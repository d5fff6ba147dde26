// Shares at a quantile of their range.
#pragma once

#include <algorithm>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

// Above the moisture of any charge that is still plant material.
inline constexpr Fraction most_moisture = fraction(0.97);

/// The share at quantile p, clamped to between 0 and `most`.
inline Fraction share_at(const Cited<Fraction>& figure, double p, Fraction most) {
  return std::clamp(figure.range.at(p), fraction(0), most);
}

}  // namespace firstdrop
