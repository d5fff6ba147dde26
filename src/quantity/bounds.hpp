// What a quantity of a file, or of an object made in code, may be at all.
#pragma once

#include <optional>
#include <string>

namespace firstdrop {

/// A lower bound, and how people write it.
template <class Q>
struct Least {
  Q amount;           ///< the smallest that is taken
  const char* words;  ///< the same as text
};
template <class Q>
Least(Q, const char*) -> Least<Q>;

/// The bounds of a quantity, in the unit in which messages name it.
template <class Q>
struct Bounds {
  double low = 0.0;
  double high = 0.0;
  const char* unit = "";
  Q (*make)(double) = nullptr;
  bool above_low = false;   ///< low itself is refused
  bool below_high = false;  ///< high itself is refused
  /// In the place of `low`, where what is smaller can only be a slip.
  std::optional<Least<Q>> least = std::nullopt;
  /// Why no less, a hint; may be empty.
  const char* why = "";
  /// Why a figure of this kind takes one value, and no range; empty where it takes a range.
  const char* no_range = "";

  constexpr Bounds because(const char* reason) const {
    Bounds bounds = *this;
    bounds.why = reason;
    return bounds;
  }
  constexpr Bounds one_value(const char* reason) const {
    Bounds bounds = *this;
    bounds.no_range = reason;
    return bounds;
  }
  bool too_little(Q value) const { return least && value < least->amount; }
  bool holds(Q value) const {
    if (too_little(value)) return false;
    const Q lowest = make(low);
    const Q most = make(high);
    return (above_low ? value > lowest : value >= lowest) &&
           (below_high ? value < most : value <= most);
  }
  std::string text() const;
};

template <class Q>
constexpr Bounds<Q> from_to(double low, double high, const char* unit, Q (*make)(double)) {
  return {low, high, unit, make};
}
/// Positive, up to a size beyond which it can only be a slip.
template <class Q>
constexpr Bounds<Q> up_to(double high, const char* unit, Q (*make)(double)) {
  return {0.0, high, unit, make, true};
}
/// From the least that anyone would use, up to a size beyond which it can only be a slip.
template <class Q>
constexpr Bounds<Q> least_to(Least<Q> least, double high, const char* unit, Q (*make)(double)) {
  return {0.0, high, unit, make, true, false, least};
}
/// The same without the upper bound itself.
template <class Q>
constexpr Bounds<Q> least_below(Least<Q> least, double high, const char* unit, Q (*make)(double)) {
  return {0.0, high, unit, make, true, true, least};
}
/// Strictly between.
template <class Q>
constexpr Bounds<Q> between(double low, double high, const char* unit, Q (*make)(double)) {
  return {low, high, unit, make, true, true};
}

/// A number as people write it, to six digits, without an exponent up to 1e16.
std::string plain(double number);

}  // namespace firstdrop
