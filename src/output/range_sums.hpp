// Sums of ranges of several runs, with the errors of all runs fully correlated. This gives the
// widest range that the sum can have.
#pragma once

#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

/// Range of the sum of `runs` identical runs.
template <class T>
Range<T> times(const Range<T>& one, int runs) {
  return {one.low * runs, one.typical * runs, one.high * runs};
}

template <class T>
void add_to(Range<T>& sum, const Range<T>& more) {
  sum.low += more.low;
  sum.typical += more.typical;
  sum.high += more.high;
}

}  // namespace firstdrop
