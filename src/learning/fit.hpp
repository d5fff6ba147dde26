/// @file
/// The scores that fit a run's readings best without straying further from the tables than they
/// must.
///
/// With z for all scores, y_i for the readings, f_i for what a run with these scores gives, and e_i
/// for their errors,
///
///     minimise  1/2 |z|^2 + sum_i (nu + 1)/2 ln(1 + r_i^2 / nu),  r = (y - f) / e,  nu = 4
///
/// by damped Gauss-Newton with the weights (nu + 1) / (nu + r^2). These are errors by Student's t,
/// so one gross slip among the readings hardly moves the others.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

namespace firstdrop {

/// A symmetric matrix, its rows one after another.
class Matrix {
 public:
  explicit Matrix(std::size_t size) : size_(size), values_(size * size) {}
  std::size_t size() const { return size_; }
  double& operator()(std::size_t row, std::size_t column) { return values_[row * size_ + column]; }
  double operator()(std::size_t row, std::size_t column) const {
    return values_[row * size_ + column];
  }

 private:
  std::size_t size_;
  std::vector<double> values_;
};
/// The identity: the covariance of scores before anything is measured.
Matrix identity(std::size_t size);

using ScoreVector = std::vector<double>;
/// What a run with these scores gives for each reading, divided by the reading's error. None if
/// there is no such run.
using PredictReadings = std::function<std::optional<std::vector<double>>(const ScoreVector&)>;

struct ScoreFit {
  ScoreVector scores;
  Matrix covariance;              ///< of the scores, by the curvature of the sum at the scores
  std::vector<double> residuals;  ///< r of each reading
  std::vector<double> weights;    ///< of each reading, 0 to (nu + 1) / nu
  double objective = 0.0;         ///< the sum that was minimised
  int iterations = 0;
};
/// Fits `count` scores, from 0 on, to these readings, each divided by its error. None if there is
/// no run at scores of 0, or if the sum still falls after a hundred steps.
std::optional<ScoreFit> fit_scores(std::size_t count, const std::vector<double>& readings,
                                   const PredictReadings& predict);

/// P10, P50 and P90 of a function of the scores: its values at the fitted scores and at 1.28
/// standard deviations from there, in the direction in which it rises most for its likelihood.
/// Where it has no value at P10 or P90, that of a score nearer to the median stands for it. None if
/// it has no value at or beside the fitted scores.
struct Percentiles {
  double p10 = 0.0;
  double p50 = 0.0;
  double p90 = 0.0;
};
std::optional<Percentiles> percentiles(
    const std::function<std::optional<double>(const ScoreVector&)>& function,
    const ScoreVector& scores, const Matrix& covariance);

}  // namespace firstdrop
