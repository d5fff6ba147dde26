// Where a yes turns into a no, by halving: the one search of this library.
#pragma once

namespace firstdrop {

/// The two sides of a turning point.
template <class Q>
struct Bracket {
  Q last_yes;
  Q first_no;
};

/// Narrows [low, high] around the point where `answer` turns from yes to no, taking yes for low and
/// no for high as given. Sixty halvings leave nothing of a double's precision.
template <class Q, class Predicate>
Bracket<Q> turning_point(Q low, Q high, Predicate answer) {
  for (int i = 0; i < 60; ++i) {
    const Q middle = low + (high - low) / 2.0;
    (answer(middle) ? low : high) = middle;
  }
  return {low, high};
}

/// The largest x in [low, high] for which `fits` holds, given that it holds from low up to some x.
template <class Q, class Predicate>
Q largest(Q low, Q high, Predicate fits) {
  return fits(high) ? high : turning_point(low, high, fits).last_yes;
}

}  // namespace firstdrop
