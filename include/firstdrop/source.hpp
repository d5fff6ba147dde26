// Where a figure comes from. A Cited<T> is a figure with its range and its evidence, so that a
// number never travels without them.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace firstdrop {

/// How a figure is known, best first.
enum class Known {
  measured,         ///< on this bench, from the recipe's `own`
  read,             ///< seen in the named source
  computed,         ///< from read figures by a stated equation or package
  common_practice,  ///< a rule of thumb of the trade, no source
  from_memory,      ///< believed, not confirmed
  own_invention,    ///< a dimension of one of our example stills
};

std::string to_string(Known known);

/// Quantities that have a ratio; a Temperature, being a point on a scale, has none.
template <class T>
concept HasRatio = requires(T a) {
  {double(a / a)};
  {a * 1.0};
};

/// The 10th, 50th and 90th percentile of what a figure may be.
template <class T>
struct Range {
  T low{};
  T typical{};
  T high{};
  /// Spread by factors and not by differences: for what may be twice or half as much with equal
  /// odds, as times of release are. Only where T has a ratio, and low is above zero.
  bool by_ratio = false;

  static constexpr Range exactly(T value) { return {value, value, value}; }
  constexpr bool ordered() const { return low <= typical && typical <= high; }

  /// Bounds for worst credible cases: as far again beyond the 10th and 90th percentile as those
  /// are from the median. For a normal figure that is 2.56 standard deviations, 1 in 200 a side.
  constexpr T least() const { return beyond(low); }
  constexpr T most() const { return beyond(high); }

  /// The value at cumulative probability p in [0, 1]: between the two bounds and the three
  /// percentiles straight, or by equal factors; sampled values never leave [least(), most()].
  constexpr T at(double p) const {
    p = std::clamp(p, 0.0, 1.0);
    if (p < 0.1) return between(least(), low, p / 0.1);
    if (p < 0.5) return between(low, typical, (p - 0.1) / 0.4);
    if (p < 0.9) return between(typical, high, (p - 0.5) / 0.4);
    return between(high, most(), (p - 0.9) / 0.1);
  }

 private:
  constexpr T beyond(T percentile) const {
    if constexpr (HasRatio<T>) {
      if (by_ratio) return percentile * double(percentile / typical);
    }
    return percentile + (percentile - typical);
  }
  constexpr T between(T from, T to, double share) const {
    if constexpr (HasRatio<T>) {
      if (by_ratio && share > 0.0) return from * std::pow(double(to / from), share);
    }
    return from + (to - from) * share;
  }
};

/// What a figure rests on.
struct Evidence {
  std::string basis;                 ///< what exactly the figure is of
  std::vector<std::string> sources;  ///< keys into the source table
  Known known = Known::from_memory;
};

template <class T>
struct Cited {
  Range<T> range;
  Evidence evidence;

  const T& typical() const { return range.typical; }
};

/// A value of a figure that is above zero by nature: a wide range must not reach past half its low.
/// One that spreads by factors never gets to zero.
template <class T>
T positive_at(const Cited<T>& figure, double p) {
  if (figure.range.by_ratio) return figure.range.at(p);
  return std::max(figure.range.at(p), figure.range.low * 0.5);
}

/// The bounds of such a figure: what a careful plan reckons with of a vessel or a tap whose size is
/// not known exactly.
template <class T>
T least_of(const Cited<T>& figure) {
  return positive_at(figure, 0.0);
}
template <class T>
T most_of(const Cited<T>& figure) {
  return positive_at(figure, 1.0);
}

/// One bibliography record.
struct Source {
  std::string key;
  std::string citation;  ///< authors, year, title, where, pages or table
  std::string link;      ///< DOI or address; may be empty
  std::string seen;      ///< what of it was read: whole, abstract, excerpt, quoted by another, none
};

}  // namespace firstdrop
