// Where a quantity that falls goes through zero: the one search of this library.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>

namespace firstdrop {

/// The two sides of a turning point.
template <class Q>
struct RootBracket {
  Q last_yes;
  Q first_no;
};

/// An end that is taken as given has no number.
inline constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/// Narrows [low, high] around the point where `value` turns from zero or more (yes) to less (no),
/// taking yes for low and no for high as given, to 1e-13 of what it was. `value` gives a number
/// that changes sign there; the better it is a smooth function, the fewer calls it takes, and it
/// never takes more than halving would, and two (46, by rounding). Where the
/// numbers of the ends are known they are told, and it takes some calls less.
///
/// Interpolates, truncates, projects: I. F. D. Oliveira and R. H. C. Takahashi, ACM Transactions on
/// Mathematical Software 47 (2020) 5, with a first truncation of a hundredth of the bracket where
/// they propose a fifth: what is searched here is nearly straight. From memory; the tests hold it
/// to halving.
template <class Q, class Value>
RootBracket<Q> bracket_root(Q low, Q high, Value value, double value_of_yes = unknown,
                            double value_of_no = unknown) {
  constexpr double tolerance = 1e-13;
  constexpr int most_calls = 45;  // ceil(log2(1 / tolerance)), and one
  const auto at = [&](double x) { return x == 1.0 ? high : low + (high - low) * x; };
  // Places in the bracket as it was, 0 to 1.
  double yes = 0.0;
  double no = 1.0;
  double reach = std::ldexp(tolerance, most_calls);
  while (no - yes > tolerance) {
    const double width = no - yes;
    const double middle = yes + width / 2.0;
    double x = middle;
    const double crossing = yes + width * (value_of_yes / (value_of_yes - value_of_no));
    if (std::isfinite(crossing)) {
      // A little towards the middle, so that both ends close in, and not so little that it is lost;
      // no farther from it than leaves enough for halving.
      const double towards = middle < crossing ? -1.0 : 1.0;
      const double little = std::max(0.01 * width * width, tolerance * 0.49);
      x = little < std::abs(middle - crossing) ? crossing + towards * little : middle;
      const double farthest = std::max(reach - width, 0.0) / 2.0;
      if (std::abs(x - middle) > farthest) x = middle - towards * farthest;
    }
    const double found = value(at(x));
    if (found >= 0.0) {
      yes = x;
      value_of_yes = found;
    } else {
      no = x;
      value_of_no = found;
    }
    reach /= 2.0;
  }
  return {at(yes), at(no)};
}

/// The largest x in [low, high] for which `value` is zero or more, given that it is so from low up
/// to some x.
template <class Q, class Value>
Q largest(Q low, Q high, Value value) {
  const double at_high = value(high);
  return at_high >= 0.0 ? high : bracket_root(low, high, value, unknown, at_high).last_yes;
}

}  // namespace firstdrop
