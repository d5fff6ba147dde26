/// @file
/// Where the samples of the uncertain inputs lie.
#pragma once

#include <array>
#include <cstdint>

#include "firstdrop/model/uncertainty.hpp"
#include "model/sample_point.hpp"

namespace firstdrop {

/// The digits of `index` in `base` mirrored at the point: 6 = 110 in base 2 gives 0.011 = 0.375. In
/// [0, 1).
/// Range: base > 1, index so small that its mirrored digits fit 64 bits (far beyond any number of
/// samples). Source: J. G. van der Corput's sequence (from memory).
double radical_inverse(std::uint64_t index, unsigned base);

/// Halton's sequence (J. H. Halton, Numerische Mathematik 2, 1960, pp. 84-90), one prime base for
/// each input, shifted modulo one as a whole by the seed (R. Cranley and T. N. L. Patterson, SIAM
/// Journal on Numerical Analysis 13, 1976, pp. 904-914; both from memory). Any point can be had by
/// its index, so samples can be shared out over threads; the same seed and index give the same
/// point to the last bit.
///
/// Why this one: tests/bench/convergence compares it with others on shipped stills and plants.
class SamplePoints {
 public:
  /// The sequence of a seed; any will do.
  explicit SamplePoints(std::uint64_t seed);
  /// The point of an index, from 0 on: each input in [0, 1).
  SamplePoint operator[](std::uint64_t index) const;

 private:
  std::array<double, parameter_count> shift_{};
};

/// For what must be known whatever ranges are wanted: whether a goal is met often enough. The same
/// sampling, or the usual number where there is none.
constexpr Sampling enough_samples(const Sampling& sampling) {
  Sampling enough = sampling;
  if (enough.samples == 0) enough.samples = default_samples;
  return enough;
}

}  // namespace firstdrop
