#include "learning/fit.hpp"

#include <cmath>

#include "catch.hpp"

using namespace firstdrop;

TEST_CASE("one reading of one score: the curvature is that of normal errors", "[learning]") {
  // f(z) = 10 z with an error of 1 and a reading of 10 * 0.5. With normal errors the fit would be
  // 0.5 * 100 / 101. The weight of a t error is 5 / (4 + r^2): 5/4 less 0.04 % at r = 0.04.
  const std::vector<double> readings = {5.0};
  const auto fit = fit_scores(1, readings, [](const ScoreVector& z) {
    return std::optional(std::vector<double>{10.0 * z[0]});
  });
  REQUIRE(fit);
  CHECK_THAT(fit->scores[0], WithinAbs(0.5 * 125.0 / 126.0, 1e-5));
  CHECK_THAT(fit->covariance(0, 0), WithinRel(1.0 / 126.0, 5e-4));
  CHECK_THAT(fit->weights[0], WithinRel(1.25, 5e-4));
}

TEST_CASE("a gross slip among readings hardly moves the fit", "[learning]") {
  const auto predict = [](const ScoreVector& z) {
    return std::optional(std::vector<double>{10.0 * z[0], 10.0 * z[0], 10.0 * z[0]});
  };
  const auto good = fit_scores(1, {5.0, 5.1, 4.9}, predict);
  const auto with_slip = fit_scores(1, {5.0, 5.1, 60.0}, predict);
  REQUIRE((good && with_slip));
  CHECK_THAT(with_slip->scores[0], WithinAbs(good->scores[0], 0.02));
  CHECK(with_slip->residuals[2] > 50);
  CHECK(with_slip->weights[2] < 0.01);
}

TEST_CASE("there is no fit where there is no run", "[learning]") {
  CHECK_FALSE(fit_scores(1, {1.0},
                         [](const ScoreVector&) { return std::optional<std::vector<double>>(); }));
}

TEST_CASE("percentiles of a function of normal scores", "[learning]") {
  // 3 x - 4 y has a standard deviation of 5; Z = 1.28155.
  const auto p =
      percentiles([](const ScoreVector& z) { return std::optional(2.0 + 3.0 * z[0] - 4.0 * z[1]); },
                  {0, 0}, identity(2));
  REQUIRE(p);
  CHECK_THAT(p->p50, WithinAbs(2.0, 1e-12));
  CHECK_THAT(p->p10, WithinAbs(2.0 - 5.0 * 1.2815515594, 1e-6));
  CHECK_THAT(p->p90, WithinAbs(2.0 + 5.0 * 1.2815515594, 1e-6));
  const auto constant =
      percentiles([](const ScoreVector&) { return std::optional(7.0); }, {0, 0}, identity(2));
  REQUIRE(constant);
  CHECK(constant->p10 == 7.0);
  CHECK(constant->p90 == 7.0);
}
