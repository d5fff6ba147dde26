/// @file
/// Points in the ranges of the model's parameters.
#pragma once

#include <array>
#include <cstddef>

#include "firstdrop/model/parameter.hpp"

namespace firstdrop {

/// A place in every range, as cumulative probability: 0 the least, 0.5 typical, 1 the most.
class SamplePoint {
 public:
  /// The least of all.
  SamplePoint() = default;
  /// Places in the order of Input, each 0 to 1.
  explicit SamplePoint(const std::array<double, parameter_count>& at) : at_(at) {}
  /// The middle of all.
  static SamplePoint medians();
  /// The place of one input.
  double operator[](Parameter input) const { return at_[static_cast<std::size_t>(input)]; }
  /// Puts one input at p, 0 to 1.
  SamplePoint& set(Parameter input, double p);

 private:
  std::array<double, parameter_count> at_{};
};

}  // namespace firstdrop
