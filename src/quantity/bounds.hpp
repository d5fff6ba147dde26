// The bounds of a quantity that comes from a file or from an object made in code.
#pragma once

#include <optional>
#include <string>

namespace firstdrop {

/// A lower bound and its text.
template <class Q>
struct Least {
  Q amount;           ///< the smallest amount accepted
  const char* words;  ///< the same amount as people write it
};
template <class Q>
Least(Q, const char*) -> Least<Q>;

/// A number as people write it: six significant digits, and no exponent below 1e16.
std::string plain(double number);
/// Bounds in words; see Bounds. `least` is null where there is none.
std::string bounds_text(double low, double high, const char* unit, bool above_low, bool below_high,
                        const char* least);

/// The bounds of a quantity, in the unit that messages use.
template <class Q>
struct Bounds {
  double low = 0.0;
  double high = 0.0;
  const char* unit = "";
  Q (*make)(double) = nullptr;
  bool above_low = false;   ///< low itself is refused
  bool below_high = false;  ///< high itself is refused
  /// If set, it replaces `low`: anything smaller can only be a slip.
  std::optional<Least<Q>> least = std::nullopt;
  /// A hint that says why smaller values are refused; may be empty.
  const char* why = "";
  /// Why a figure of this kind must be a single value; empty if it may be a range.
  const char* no_range = "";
  /// Of a volume: it is one of water, which may be written as a mass. See water_amount.hpp.
  bool of_water = false;

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
  constexpr Bounds water() const {
    Bounds bounds = *this;
    bounds.of_water = true;
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
  std::string text() const {
    return bounds_text(low, high, unit, above_low, below_high, least ? least->words : nullptr);
  }
};

template <class Q>
constexpr Bounds<Q> from_to(double low, double high, const char* unit, Q (*make)(double)) {
  return {low, high, unit, make};
}
/// Above zero, up to `high`. Anything larger can only be a slip.
template <class Q>
constexpr Bounds<Q> up_to(double high, const char* unit, Q (*make)(double)) {
  return {0.0, high, unit, make, true};
}
/// From the smallest amount that anyone would use, up to `high`. Anything larger can only be a
/// slip.
template <class Q>
constexpr Bounds<Q> least_to(Least<Q> least, double high, const char* unit, Q (*make)(double)) {
  return {0.0, high, unit, make, true, false, least};
}
/// The same, but below `high`.
template <class Q>
constexpr Bounds<Q> least_below(Least<Q> least, double high, const char* unit, Q (*make)(double)) {
  return {0.0, high, unit, make, true, true, least};
}
/// Between `low` and `high`, without the two themselves.
template <class Q>
constexpr Bounds<Q> between(double low, double high, const char* unit, Q (*make)(double)) {
  return {low, high, unit, make, true, true};
}

}  // namespace firstdrop
