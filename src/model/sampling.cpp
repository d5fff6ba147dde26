#include "model/sampling.hpp"

#include <utility>
#include <vector>

namespace firstdrop {
namespace {

// One prime for each parameter, in the order of the enumeration. Small bases fill their axis
// soonest, so they go to the parameters that plans with the shipped tables depend on most.
constexpr std::array<unsigned, parameter_count> bases = {
    19,  // bulk_density
    17,  // moisture
    2,   // oil_content
    11,  // recovery
    5,   // half_life
    7,   // fast_share
    41,  // flow_effect
    13,  // hydrosol_oil
    43,  // mixing
    61,  // oil_density
    3,   // heater
    29,  // heat_loss
    67,  // dry_specific_heat
    31,  // hold_up
    71,  // film_hold_up
    59,  // wall_hold_up
    53,  // uncondensed_loss
    37,  // fill_error
    73,  // condensing
    79,  // bath_loss
    47,  // particle_size
    23,  // particle_density
};

// One step of the SplitMix64 generator (S. Vigna, public domain; from memory), as a number in [0,
// 1).
double split_mix(std::uint64_t& state) {
  state += 0x9e3779b97f4a7c15U;
  std::uint64_t z = state;
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
  z ^= z >> 31U;
  return static_cast<double>(z >> 11U) * 0x1.0p-53;
}

// Multiplies each digit of the index in this base by `factor` modulo the base, and mirrors the
// digits at the radix point. With numbers that the compiler knows, no division is left. This takes
// a third of the time.
template <class Base, class Factor>
double mirrored(std::uint64_t index, Base base, Factor factor) {
  std::uint64_t digits = 0;
  double scale = 1.0;
  for (; index > 0; index /= base) {
    digits = digits * base + index % base * factor % base;
    scale *= base;
  }
  return static_cast<double>(digits) / scale;
}

// The factor that scrambles the digits of a base. Without it, two axes with large bases run along
// with each other for the first thousands of points (linear scrambling: J. Matousek, Journal of
// Complexity 14 (1998) 527-556; from memory). It is the integer nearest to the base over the golden
// ratio. It is at least 1, and never a multiple of a prime base.
constexpr unsigned factor_of(unsigned base) {
  return (base * 618U + 500U) / 1000U;
}

template <std::size_t... i>
std::array<double, parameter_count> halton(std::uint64_t index,
                                           std::index_sequence<i...> /*axes*/) {
  return {mirrored(index, std::integral_constant<unsigned, bases[i]>{},
                   std::integral_constant<unsigned, factor_of(bases[i])>{})...};
}

}  // namespace

double radical_inverse(std::uint64_t index, unsigned base) {
  return mirrored(index, base, 1U);
}

SamplePoints::SamplePoints(std::uint64_t seed) {
  for (double& shift : shift_) shift = split_mix(seed);
}

namespace {

// The points of the default number of samples are computed once, because nearly every plan uses
// them.
constexpr std::size_t kept = static_cast<std::size_t>(default_samples);

std::array<double, parameter_count> unshifted(std::uint64_t index) {
  static const auto points = [] {
    std::vector<std::array<double, parameter_count>> made;
    made.reserve(kept);
    // The sequence starts at 1, because point 0 is a corner.
    for (std::uint64_t i = 0; i < kept; ++i) {
      made.push_back(halton(i + 1, std::make_index_sequence<parameter_count>()));
    }
    return made;
  }();
  if (index < kept) return points[index];
  return halton(index + 1, std::make_index_sequence<parameter_count>());
}

}  // namespace

SamplePoint SamplePoints::operator[](std::uint64_t index) const {
  std::array<double, parameter_count> at = unshifted(index);
  for (std::size_t i = 0; i < parameter_count; ++i) {
    at[i] += shift_[i];
    if (at[i] >= 1.0) at[i] -= 1.0;  // both are below 1
  }
  return SamplePoint(at);
}

}  // namespace firstdrop
