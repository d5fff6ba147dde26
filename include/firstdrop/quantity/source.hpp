/// @file
/// Where a figure comes from. A Cited<T> keeps a figure together with its range and its evidence.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

namespace firstdrop {

/// How a figure is known, the most reliable first.
enum class Known {
  measured,         ///< measured on this bench, from the recipe's `own`
  read,             ///< read in the named source
  computed,         ///< from figures that were read, by a stated equation or package
  common_practice,  ///< a rule of thumb of the trade, or our own choice; no source
  from_memory,      ///< believed, not confirmed
  default_value,    ///< of a still: nobody has measured it, so a default takes its place
  own_invention,    ///< a dimension of one of our example stills
};

/// The name in the tables: "measured", "read", "computed", "common-practice", "from-memory",
/// "default", "own-invention".
std::string to_string(Known known);

/// Quantities that can be divided by each other. A Temperature can't, because it is a point on a
/// scale.
template <class T>
concept HasRatio = requires(T a) {
  {double(a / a)};
  {a * 1.0};
};

/// std::pow(), without including its long header.
double to_the_power(double base, double exponent);

/// The uncertainty of a figure: its 10th, 50th and 90th percentiles (P10, P50, P90). Nothing is
/// checked; the caller must make sure that it is ordered().
template <class T>
struct Range {
  T low{};      ///< P10
  T typical{};  ///< P50, the median
  T high{};     ///< P90
  /// Whether it interpolates by factors instead of differences. This suits figures that are as
  /// likely to be double as half, such as release times. T must satisfy HasRatio, and low must be
  /// above zero.
  bool by_ratio = false;

  /// A range of a single value.
  static constexpr Range exactly(T value) { return {value, value, value}; }
  /// Whether low, typical and high are in order; equal ones are allowed.
  constexpr bool ordered() const { return low <= typical && typical <= high; }

  /// Lower bound for worst credible cases. It is as far below P10 as P10 is below the median. For a
  /// normal distribution that is 2.56 standard deviations, 1 in 200. It may be below zero; see
  /// positive_at(). Source: common practice, no source.
  constexpr T least() const { return beyond(low); }
  /// Upper bound: as far above P90 as P90 is above the median.
  constexpr T most() const { return beyond(high); }

  /// The quantile at cumulative probability p. It interpolates between the two bounds and the three
  /// percentiles, linearly or (by_ratio) by equal factors. A p outside [0, 1] counts as the nearer
  /// end, so values stay within [least(), most()].
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

/// What a figure is based on.
struct Evidence {
  std::string basis;                 ///< what exactly the figure describes
  std::vector<std::string> sources;  ///< keys into the source table
  Known known = Known::from_memory;  ///< how its least reliable part is known
};

/// A figure with its range and its evidence.
template <class T>
struct Cited {
  Range<T> range;     ///< its uncertainty
  Evidence evidence;  ///< what it is based on

  /// The median.
  const T& typical() const { return range.typical; }
};

/// The quantile at cumulative probability p of a figure that is above zero by nature. The result is
/// never less than half of P10, because the lower bound of a wide range may be zero or negative. A
/// range by ratio needs no such limit, because it never reaches zero.
/// Range: low above zero; p as Range::at().
template <class T>
T positive_at(const Cited<T>& figure, double p) {
  const T value = figure.range.at(p);
  const T least = figure.range.low * 0.5;
  return value < least && !figure.range.by_ratio ? least : value;
}

/// The lower bound of such a figure. A plan uses it for a vessel or tap whose size isn't known
/// exactly.
template <class T>
T least_of(const Cited<T>& figure) {
  return positive_at(figure, 0.0);
}
/// The upper bound of such a figure.
template <class T>
T most_of(const Cited<T>& figure) {
  return positive_at(figure, 1.0);
}

/// A bibliography record.
struct Source {
  std::string key;       ///< key that figures refer to it by
  std::string citation;  ///< authors, year, title, where published, pages or table
  std::string link;      ///< DOI or address; may be empty
  /// How much of it was read: whole, abstract, excerpt, quoted by another, package (figures or
  /// constants in a software package or database), or none (from memory, or our own). A remark may
  /// follow after a colon.
  std::string seen;
};

/// How many of a set of sources are real, rather than memory, common practice or invention.
struct SourceCount {
  int real = 0;     ///< sources of which at least a part was read
  int in_full = 0;  ///< of those, the ones read from beginning to end
};

/// Counts the sources with these keys. Keys that are not in the table are ignored.
SourceCount counted(const std::set<std::string>& keys, const std::map<std::string, Source>& table);
/// The count for people to read: "66 sources (1 read in full, the others in part)".
std::string in_words(const SourceCount& count);

}  // namespace firstdrop
