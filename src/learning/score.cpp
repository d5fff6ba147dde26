#include "learning/score.hpp"

#include <algorithm>
#include <cmath>

namespace firstdrop {
namespace {

constexpr double width = 0.5;  // w
// Of the bend beyond which the curve wouldn't rise everywhere.
constexpr double most_bend = 0.9;

// w ln cosh(z / w), which doesn't overflow.
double bent(double z) {
  const double x = std::abs(z / width);
  return width * (x + std::log1p(std::exp(-2.0 * x)) - std::log(2.0));
}

double y_of(double x, ScoreOf kind) {
  switch (kind) {
    case ScoreOf::ratio:
      return std::log(x);
    case ScoreOf::share:
      return std::log(x / (1.0 - x));
    case ScoreOf::difference:
      break;
  }
  return x;
}

double x_of(double y, ScoreOf kind) {
  switch (kind) {
    case ScoreOf::ratio:
      return std::exp(y);
    case ScoreOf::share:
      return 1.0 / (1.0 + std::exp(-y));
    case ScoreOf::difference:
      break;
  }
  return std::max(y, 0.0);
}

}  // namespace

ScoreCurve::ScoreCurve(double low, double typical, double high, ScoreOf kind)
    : kind_(kind), typical_(y_of(typical, kind)) {
  const double l = y_of(low, kind);
  const double h = y_of(high, kind);
  slope_ = (h - l) / (2.0 * score_of_p90);
  bend_ = (h + l - 2.0 * typical_) / (2.0 * bent(score_of_p90));
  const double limit = most_bend * slope_;
  keeps_percentiles_ = std::abs(bend_) <= limit;
  bend_ = std::clamp(bend_, -limit, limit);
}

double ScoreCurve::at(double score) const {
  return x_of(typical_ + slope_ * score + bend_ * bent(score), kind_);
}

}  // namespace firstdrop
