#include "learning/fit.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "learning/score.hpp"

namespace firstdrop {
namespace {

constexpr double freedom = 4.0;      // nu
constexpr double small_step = 1e-4;  // for derivatives; the rounding errors of a run are 1e-12
constexpr double most_step = 2.0;    // of one score
constexpr double first_damping = 1e-3;
constexpr double damping_factor = 8.0;
constexpr double settled_fall = 1e-4;
constexpr int most_iterations = 100;

// The lower triangle L of the Cholesky decomposition L L' of a positive definite matrix.
Matrix lower_triangle(const Matrix& matrix) {
  Matrix lower(matrix.size());
  for (std::size_t row = 0; row < matrix.size(); ++row) {
    for (std::size_t column = 0; column <= row; ++column) {
      double rest = matrix(row, column);
      for (std::size_t k = 0; k < column; ++k) rest -= lower(row, k) * lower(column, k);
      lower(row, column) = row == column ? std::sqrt(rest) : rest / lower(column, column);
    }
  }
  return lower;
}

// The solution of L L' x = b.
std::vector<double> solved(const Matrix& lower, std::vector<double> b) {
  const std::size_t size = lower.size();
  for (std::size_t row = 0; row < size; ++row) {
    for (std::size_t k = 0; k < row; ++k) b[row] -= lower(row, k) * b[k];
    b[row] /= lower(row, row);
  }
  for (std::size_t row = size; row-- > 0;) {
    for (std::size_t k = row + 1; k < size; ++k) b[row] -= lower(k, row) * b[k];
    b[row] /= lower(row, row);
  }
  return b;
}

Matrix inverse(const Matrix& matrix) {
  const Matrix lower = lower_triangle(matrix);
  Matrix inverted(matrix.size());
  for (std::size_t column = 0; column < matrix.size(); ++column) {
    std::vector<double> unit(matrix.size());
    unit[column] = 1.0;
    const std::vector<double> x = solved(lower, unit);
    for (std::size_t row = 0; row < matrix.size(); ++row) inverted(row, column) = x[row];
  }
  return inverted;
}

struct Residuals {
  std::vector<double> values;
  double objective = std::numeric_limits<double>::infinity();
};

Residuals residuals_at(const ScoreVector& scores, const std::vector<double>& readings,
                       const PredictReadings& predict) {
  const auto predicted = predict(scores);
  if (!predicted) return {};
  Residuals residuals{std::vector<double>(readings.size()), 0.0};
  for (const double score : scores) residuals.objective += score * score / 2.0;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const double r = readings[i] - (*predicted)[i];
    residuals.values[i] = r;
    residuals.objective += (freedom + 1.0) / 2.0 * std::log1p(r * r / freedom);
  }
  return residuals;
}

// The derivatives of all readings by each score. None if there is no run close to these scores.
std::optional<std::vector<std::vector<double>>> derivatives(const ScoreVector& scores,
                                                            const PredictReadings& predict) {
  std::vector<std::vector<double>> by_score;
  for (std::size_t k = 0; k < scores.size(); ++k) {
    ScoreVector above = scores;
    ScoreVector below = scores;
    above[k] += small_step;
    below[k] -= small_step;
    auto rise = predict(above);
    const auto from = predict(below);
    if (!rise || !from) return std::nullopt;
    for (std::size_t i = 0; i < rise->size(); ++i)
      (*rise)[i] = ((*rise)[i] - (*from)[i]) / (2.0 * small_step);
    by_score.push_back(std::move(*rise));
  }
  return by_score;
}

double weight_of(double residual) {
  return (freedom + 1.0) / (freedom + residual * residual);
}

// The linear equations of a step: matrix * step = towards.
struct Normal {
  Matrix matrix;
  std::vector<double> towards;
};

std::optional<Normal> normal_at(const ScoreVector& scores, const std::vector<double>& residuals,
                                const PredictReadings& predict) {
  const auto slopes = derivatives(scores, predict);
  if (!slopes) return std::nullopt;
  Normal normal{identity(scores.size()), std::vector<double>(scores.size())};
  for (std::size_t row = 0; row < scores.size(); ++row) {
    normal.towards[row] = -scores[row];
    for (std::size_t i = 0; i < residuals.size(); ++i) {
      const double weighted = weight_of(residuals[i]) * (*slopes)[row][i];
      normal.towards[row] += weighted * residuals[i];
      for (std::size_t column = 0; column < scores.size(); ++column)
        normal.matrix(row, column) += weighted * (*slopes)[column][i];
    }
  }
  return normal;
}

ScoreVector stepped(const ScoreVector& scores, const Normal& normal, double damping) {
  Matrix damped = normal.matrix;
  for (std::size_t k = 0; k < damped.size(); ++k) damped(k, k) *= 1.0 + damping;
  const std::vector<double> step = solved(lower_triangle(damped), normal.towards);
  ScoreVector next = scores;
  for (std::size_t k = 0; k < next.size(); ++k)
    next[k] += std::clamp(step[k], -most_step, most_step);
  return next;
}

}  // namespace

Matrix identity(std::size_t size) {
  Matrix matrix(size);
  for (std::size_t k = 0; k < size; ++k) matrix(k, k) = 1.0;
  return matrix;
}

std::optional<ScoreFit> fit_scores(std::size_t count, const std::vector<double>& readings,
                                   const PredictReadings& predict) {
  ScoreVector scores(count);
  Residuals now = residuals_at(scores, readings, predict);
  if (!std::isfinite(now.objective)) return std::nullopt;
  double damping = first_damping;
  for (int iteration = 1; iteration <= most_iterations; ++iteration) {
    const auto normal = normal_at(scores, now.values, predict);
    if (!normal) return std::nullopt;
    const ScoreVector next = stepped(scores, *normal, damping);
    Residuals then = residuals_at(next, readings, predict);
    const double fall = now.objective - then.objective;
    if (!(fall >= 0.0)) {
      damping *= damping_factor;
      continue;
    }
    scores = next;
    now = std::move(then);
    damping /= damping_factor;
    if (fall >= settled_fall) continue;
    const auto at_end = normal_at(scores, now.values, predict);
    if (!at_end) return std::nullopt;
    std::vector<double> weights;
    for (const double residual : now.values) weights.push_back(weight_of(residual));
    return ScoreFit{
        scores,   inverse(at_end->matrix), std::move(now.values), std::move(weights), now.objective,
        iteration};
  }
  return std::nullopt;
}

std::optional<Percentiles> percentiles(
    const std::function<std::optional<double>(const ScoreVector&)>& function,
    const ScoreVector& scores, const Matrix& covariance) {
  const auto middle = function(scores);
  const auto slopes = derivatives(scores, [&](const ScoreVector& at) {
    const auto value = function(at);
    return value ? std::optional(std::vector<double>{*value}) : std::nullopt;
  });
  if (!middle || !slopes) return std::nullopt;
  std::vector<double> direction(scores.size());
  double variance = 0.0;
  for (std::size_t row = 0; row < scores.size(); ++row) {
    for (std::size_t column = 0; column < scores.size(); ++column)
      direction[row] += covariance(row, column) * (*slopes)[column][0];
    variance += direction[row] * (*slopes)[row][0];
  }
  if (!(variance > 0.0)) return Percentiles{*middle, *middle, *middle};
  const auto at = [&](double score) {
    ScoreVector there = scores;
    for (std::size_t k = 0; k < there.size(); ++k)
      there[k] += score / std::sqrt(variance) * direction[k];
    return function(there);
  };
  constexpr double nearer = 0.8;  // our choice
  constexpr double nearest = 0.1;
  const auto outermost = [&](double score) {
    for (; std::abs(score) > nearest; score *= nearer)
      if (const auto value = at(score)) return *value;
    return *middle;
  };
  return Percentiles{outermost(-score_of_p90), *middle, outermost(score_of_p90)};
}

}  // namespace firstdrop
