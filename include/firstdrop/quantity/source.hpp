/// @file
/// Where a figure comes from. A Cited<T> is a figure with its range and its evidence, so that a
/// number never travels without them.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

namespace firstdrop {

/// How a figure is known, best first.
enum class Known {
  measured,         ///< on this bench, from the recipe's `own`
  read,             ///< seen in the named source
  computed,         ///< from read figures by a stated equation or package
  common_practice,  ///< a rule of thumb, the trade's or our own choice; no source
  from_memory,      ///< believed, not confirmed
  own_invention,    ///< a dimension of one of our example stills
};

/// As the tables have it: "measured", "read", "computed", "common-practice", "from-memory",
/// "own-invention".
std::string to_string(Known known);

/// Quantities that have a ratio; a Temperature, being a point on a scale, has none.
template <class T>
concept HasRatio = requires(T a) {
  {double(a / a)};
  {a * 1.0};
};

/// std::pow(), without its header, which is long.
double to_the_power(double base, double exponent);

/// The 10th, 50th and 90th percentile of what a figure may be. Nothing is checked: whoever makes
/// one sees to it that it is ordered().
template <class T>
struct Range {
  T low{};      ///< 10th percentile
  T typical{};  ///< 50th percentile
  T high{};     ///< 90th percentile
  /// Spread by factors and not by differences: for what may be twice or half as much with equal
  /// odds, as times of release are. Only where T has a ratio, and low is above zero.
  bool by_ratio = false;

  /// A range without width.
  static constexpr Range exactly(T value) { return {value, value, value}; }
  /// Whether it is one: low no higher than typical, and that no higher than high.
  constexpr bool ordered() const { return low <= typical && typical <= high; }

  /// Lower bound for worst credible cases: as far again beyond the 10th percentile as that is from
  /// the median. For a normal figure that is 2.56 standard deviations, 1 in 200. May lie below
  /// zero; see positive_at(). Source: common practice, no source.
  constexpr T least() const { return beyond(low); }
  /// Upper bound, in the same way beyond the 90th percentile.
  constexpr T most() const { return beyond(high); }

  /// The value at cumulative probability p: between the two bounds and the three percentiles
  /// straight, or by equal factors. A p outside of [0, 1] counts as its nearer end, so that values
  /// never leave [least(), most()].
  constexpr T at(double p) const {
    if (p == 0.5) return typical;
    if (p <= 0.0) return least();
    if (p >= 1.0) return most();
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
      if (by_ratio && share > 0.0) return from * to_the_power(double(to / from), share);
    }
    return from + (to - from) * share;
  }
};

/// What a figure rests on.
struct Evidence {
  std::string basis;                 ///< what exactly the figure is of
  std::vector<std::string> sources;  ///< keys into the source table
  Known known = Known::from_memory;  ///< of its parts, the weakest decides
};

/// A figure with its range and what it rests on.
template <class T>
struct Cited {
  Range<T> range;     ///< how large it may be
  Evidence evidence;  ///< what it rests on

  /// The median.
  const T& typical() const { return range.typical; }
};

/// A value of a figure that is above zero by nature, at cumulative probability p: a wide range must
/// not reach past half its low. One that spreads by factors never gets to zero.
/// Range: low above zero; p as Range::at().
template <class T>
T positive_at(const Cited<T>& figure, double p) {
  const T value = figure.range.at(p);
  const T least = figure.range.low * 0.5;
  return value < least && !figure.range.by_ratio ? least : value;
}

/// The lower bound of such a figure: what a careful plan reckons with of a vessel or a tap whose
/// size is not known exactly.
template <class T>
T least_of(const Cited<T>& figure) {
  return positive_at(figure, 0.0);
}
/// The upper bound of such a figure.
template <class T>
T most_of(const Cited<T>& figure) {
  return positive_at(figure, 1.0);
}

/// One bibliography record.
struct Source {
  std::string key;       ///< by which figures name it
  std::string citation;  ///< authors, year, title, where, pages or table
  std::string link;      ///< DOI or address; may be empty
  /// What of it was read: whole, abstract, excerpt, quoted by another, package (figures or
  /// constants in a software package or database), or none (from memory, or our own); a remark may
  /// follow behind a colon.
  std::string seen;
};

/// Of a set of sources, how many are more than memory, practice or invention.
struct SourceCount {
  int real = 0;     ///< something of them was seen
  int in_full = 0;  ///< of those, read from beginning to end
};

/// Counts the keys. A key that is not in the table counts for nothing.
SourceCount counted(const std::set<std::string>& keys, const std::map<std::string, Source>& table);
/// For people: "66 sources (1 read in full, the others in part)".
std::string in_words(const SourceCount& count);

}  // namespace firstdrop
