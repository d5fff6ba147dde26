// Finds where a falling function goes through zero, between two ends. physics/release.cpp has two
// searches of its own by Newton's method, for functions whose derivative is known;
// plan/ways_out.cpp halves, because each of its steps is a whole plan.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>

namespace firstdrop {

/// The two ends of an interval that holds a root.
template <class Q>
struct RootBracket {
  Q last_yes;
  Q first_no;
};

/// The value at an end of the bracket where it is assumed and not computed.
inline constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/// Narrows [low, high] around the root of `value`, to 1e-13 of its width. The root is where `value`
/// changes from zero or more (yes) to less than zero (no). The search assumes yes at low and no at
/// high. The smoother `value` is, the fewer calls it takes. It never takes more than 46 calls, two
/// more than bisection (because of rounding). Pass the values at the ends where you know them; that
/// saves some calls.
///
/// The method is interpolate, truncate, project: I. F. D. Oliveira and R. H. C. Takahashi, ACM
/// Transactions on Mathematical Software 47 (2020) 5; from memory. The first truncation is a
/// hundredth of the bracket where they propose a fifth, because the functions searched here are
/// nearly straight. The tests compare the result with bisection.
template <class Q, class Value>
RootBracket<Q> bracket_root(Q low, Q high, Value value, double value_of_yes = unknown,
                            double value_of_no = unknown) {
  constexpr double tolerance = 1e-13;
  constexpr int most_calls = 45;  // ceil(log2(1 / tolerance)), plus one
  const auto at = [&](double x) { return x == 1.0 ? high : low + (high - low) * x; };
  // Positions in the original bracket, 0 to 1.
  double yes = 0.0;
  double no = 1.0;
  double reach = std::ldexp(tolerance, most_calls);
  while (no - yes > tolerance) {
    const double width = no - yes;
    const double middle = yes + width / 2.0;
    double x = middle;
    const double crossing = yes + width * (value_of_yes / (value_of_yes - value_of_no));
    if (std::isfinite(crossing)) {
      // Truncate: move a little towards the middle, so that both ends close in. The tolerance sets
      // the smallest step that still has an effect. Project: stay close enough to the middle for
      // bisection to finish within the calls that are left.
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

/// The largest x in [low, high] at which `value` is zero or more. From low up to that x it must be
/// zero or more throughout.
template <class Q, class Value>
Q largest(Q low, Q high, Value value) {
  const double at_high = value(high);
  return at_high >= 0.0 ? high : bracket_root(low, high, value, unknown, at_high).last_yes;
}

}  // namespace firstdrop
