/// @file
/// Scores: every uncertain figure as a function of a number that is standard normal before anything
/// is measured, so that all figures count alike.
///
/// With l, t, h for y at low, typical and high, where y = ln x, logit x (shares) or x itself,
///
///     y(z) = t + a z + b w ln cosh(z / w),   w = 0.5,   Z = p90_in_sd
///     a = (h - l) / (2 Z),   b = (h + l - 2 t) / (2 w ln cosh(Z / w))
///
/// This goes through the three percentiles, is smooth, which Range::at() isn't, and rises
/// everywhere while |b| < a. Its tails are normal: unlike a Range, it has no bounds.
#pragma once

#include "firstdrop/quantity/source.hpp"
#include "quantity/normal.hpp"

namespace firstdrop {

/// The score of P90; its negative is that of P10.
inline constexpr double score_of_p90 = p90_in_sd;

/// What y is, for a figure x.
enum class ScoreOf {
  ratio,       ///< ln x; for figures above zero
  share,       ///< logit x; for shares above zero and below one
  difference,  ///< x itself, but never below zero
};

/// One figure, in SI units, as a function of its score.
class ScoreCurve {
 public:
  /// A figure that is zero, whatever its score.
  ScoreCurve() = default;
  /// Range: low <= typical <= high; above zero for ratio, and also below one for share.
  ScoreCurve(double low, double typical, double high, ScoreOf kind);
  /// The figure at a score.
  double at(double score) const;
  /// Whether it goes through all three percentiles. Where the median is close to one of the others,
  /// a curve through all three wouldn't rise everywhere. Then both move by the same amount, the
  /// distance between them staying as it is.
  bool keeps_percentiles() const { return keeps_percentiles_; }

 private:
  ScoreOf kind_ = ScoreOf::difference;
  double typical_ = 0.0;  // y(0)
  double slope_ = 0.0;    // a
  double bend_ = 0.0;     // b
  bool keeps_percentiles_ = true;
};

/// The curve of a figure's range.
template <class Q>
ScoreCurve score_curve(const Range<Q>& range, ScoreOf kind) {
  return {range.low.si(), range.typical.si(), range.high.si(), kind};
}

}  // namespace firstdrop
