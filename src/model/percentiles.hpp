// P10, P50 and P90 of many values.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <type_traits>
#include <utility>
#include <vector>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

/// Finds numbers by their rank. It counts them once into classes of equal width, without a branch
/// that depends on them. It sorts only the class that holds a rank. A plan asks for the percentiles
/// of some forty outcomes, and selecting them one by one (std::nth_element) took longer than
/// running the samples.
class Ranks {
 public:
  /// Keeps a reference. Needs at least one number.
  explicit Ranks(const std::vector<double>& numbers)
      : numbers_(numbers), class_of_(numbers.size()) {
    const auto [least, most] = std::minmax_element(numbers.begin(), numbers.end());
    const double span = *most - *least;
    // If the numbers are all equal, or their span is too small or too large for such a scale, one
    // class holds them all.
    const double each = (double(classes) - 0.5) / span;
    const double scale = std::isfinite(each) ? each : 0.0;
    const double from = *least;
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      const double place = scale > 0.0 ? (numbers[i] - from) * scale : 0.0;
      class_of_[i] = static_cast<std::uint8_t>(static_cast<int>(place));
      ++counts_[class_of_[i]];
    }
  }

  /// The number of this rank, from 0, and the next one. For the last rank, both are the last
  /// number.
  std::pair<double, double> at(std::size_t rank) {
    const std::size_t next = std::min(rank + 1, numbers_.size() - 1);
    const double number = sorted_with(rank);
    return {number, sorted_with(next)};
  }

 private:
  static constexpr std::size_t classes = 256;

  double sorted_with(std::size_t rank) {
    if (rank < first_ || rank >= first_ + sorted_.size()) {
      std::size_t c = 0;
      for (first_ = 0; first_ + counts_[c] <= rank; ++c) first_ += counts_[c];
      sorted_.clear();
      for (std::size_t i = 0; i < numbers_.size(); ++i) {
        if (class_of_[i] == c) sorted_.push_back(numbers_[i]);
      }
      std::sort(sorted_.begin(), sorted_.end());
    }
    return sorted_[rank - first_];
  }

  const std::vector<double>& numbers_;
  std::vector<std::uint8_t> class_of_;
  std::array<std::size_t, classes> counts_{};
  std::vector<double> sorted_;  ///< the class sorted last; its first number has rank `first_`
  std::size_t first_ = 0;
};

/// The number in a quantity, in SI units.
template <class T>
double number_of(T value) {
  if constexpr (std::is_same_v<T, Temperature>) {
    return value.kelvin();
  } else {
    return value.si();
  }
}
/// The quantity with this number, in SI units.
template <class T>
T with_number(double number) {
  if constexpr (std::is_same_v<T, Temperature>) {
    return Temperature::from_kelvin(number);
  } else {
    return T::from_si(number);
  }
}

/// P10, P50 and P90 of quantities given as SI numbers, interpolated linearly between ranks. Without
/// numbers, a default range.
template <class T>
Range<T> percentiles(const std::vector<double>& numbers) {
  if (numbers.empty()) return {};
  Ranks ranks(numbers);
  const auto at = [&](double p) {
    const double place = p * static_cast<double>(numbers.size() - 1);
    const auto [below, above] = ranks.at(static_cast<std::size_t>(place));
    return with_number<T>(below + (above - below) * (place - std::floor(place)));
  };
  return {at(0.1), at(0.5), at(0.9)};
}

}  // namespace firstdrop
