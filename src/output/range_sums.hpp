// Ranges of several runs together, as if all erred the same way: the widest that their sum can be.
#pragma once

#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

/// Of so many of the same.
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
