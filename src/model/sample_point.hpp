/// @file
/// Sample points: a quantile for each parameter of the model.
#pragma once

#include <array>
#include <cstddef>

#include "firstdrop/model/parameter.hpp"

namespace firstdrop {

/// A quantile for each parameter: 0 is the lower bound of its range, 0.5 the median, 1 the upper
/// bound.
class SamplePoint {
 public:
  /// Every parameter at its lower bound.
  SamplePoint() = default;
  /// Quantiles in the order of Parameter, each 0 to 1.
  explicit SamplePoint(const std::array<double, parameter_count>& at) : at_(at) {}
  /// Every parameter at its median.
  static SamplePoint medians();
  /// The quantile of one parameter.
  double operator[](Parameter input) const { return at_[static_cast<std::size_t>(input)]; }
  /// Sets the quantile of one parameter to p, 0 to 1.
  SamplePoint& set(Parameter input, double p);

 private:
  std::array<double, parameter_count> at_{};
};

}  // namespace firstdrop
