/// @file
/// Where the sample points of the uncertain parameters lie.
#pragma once

#include <array>
#include <cstdint>

#include "firstdrop/model/uncertainty.hpp"
#include "model/sample_point.hpp"

namespace firstdrop {

/// Mirrors the digits of `index` in `base` at the radix point: 6 = 110 in base 2 gives 0.011 =
/// 0.375. The result is in [0, 1).
/// Range: base > 1, and an index whose mirrored digits fit 64 bits (far beyond any number of
/// samples). Source: J. G. van der Corput's sequence (from memory).
double radical_inverse(std::uint64_t index, unsigned base);

/// Halton's sequence (J. H. Halton, Numerische Mathematik 2, 1960, pp. 84-90), with one prime base
/// for each parameter. The seed shifts the whole sequence modulo one (R. Cranley and T. N. L.
/// Patterson, SIAM Journal on Numerical Analysis 13, 1976, pp. 904-914; both from memory). Any
/// point can be computed from its index, so threads can share out the samples. The same seed and
/// index give the same point to the last bit.
///
/// Why this sequence: tests/bench/convergence compares it with others on shipped stills and plants.
class SamplePoints {
 public:
  /// The sequence for a seed, which may be any number.
  explicit SamplePoints(std::uint64_t seed);
  /// The point with this index, from 0. Each quantile is in [0, 1).
  SamplePoint operator[](std::uint64_t index) const;

 private:
  std::array<double, parameter_count> shift_{};
};

/// The same sampling, but with the default number of samples if it has none. It is for results that
/// need samples even when no ranges are wanted, such as whether a goal is met often enough.
constexpr Sampling enough_samples(const Sampling& sampling) {
  Sampling enough = sampling;
  if (enough.samples == 0) enough.samples = default_samples;
  return enough;
}

}  // namespace firstdrop
