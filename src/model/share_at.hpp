// Figures that are shares, at a place of their range.
#pragma once

#include <algorithm>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

// Wider than any moisture or share can be in a charge that still is plant.
inline constexpr Fraction most_moisture = fraction(0.97);

/// The share at p, held between 0 and `most`.
inline Fraction share_at(const Cited<Fraction>& figure, double p, Fraction most) {
  return std::clamp(figure.range.at(p), fraction(0), most);
}

}  // namespace firstdrop
