// First-order sensitivities of functions whose sensitivities are known in closed form.
#include "model/sensitivity.hpp"

#include <cmath>
#include <functional>
#include <limits>
#include <numbers>

#include "catch.hpp"
#include "model/sampling.hpp"

using namespace firstdrop;

namespace {

std::vector<SamplePoint> points_of(int count, std::uint64_t seed = 1) {
  const SamplePoints sequence(seed);
  std::vector<SamplePoint> points;
  for (int n = 0; n < count; ++n) points.push_back(sequence[static_cast<std::uint64_t>(n)]);
  return points;
}

Sensitivities shares_of(const std::function<double(const SamplePoint&)>& outcome, int count,
                        double clipped = 0.0) {
  const auto points = points_of(count);
  std::vector<double> outcomes;
  for (const SamplePoint& point : points) outcomes.push_back(outcome(point));
  return first_order_sensitivity(points, outcomes, clipped);
}

double share(const Sensitivities& sensitivities, Parameter input) {
  for (const Sensitivity& one : sensitivities) {
    if (one.parameter == input) return one.share;
  }
  return 0.0;
}

}  // namespace

TEST_CASE("a sum of independent inputs shares its variance by their squares", "[sensitivity]") {
  // Var = (9 + 4 + 1) / 12.
  const auto sum = [](const SamplePoint& p) {
    return 3.0 * p[Parameter::oil_content] + 2.0 * p[Parameter::heater] - p[Parameter::half_life];
  };
  const Sensitivities sensitivities = shares_of(sum, 16384);
  REQUIRE(sensitivities.size() == 3);
  CHECK(sensitivities[0].parameter == Parameter::oil_content);
  CHECK(sensitivities[1].parameter == Parameter::heater);
  CHECK(sensitivities[2].parameter == Parameter::half_life);
  // Sixteen classes leave 1/256 of the variance of a straight line within them.
  CHECK_THAT(sensitivities[0].share, WithinAbs(9.0 / 14, 0.006));
  CHECK_THAT(sensitivities[1].share, WithinAbs(4.0 / 14, 0.006));
  CHECK_THAT(sensitivities[2].share, WithinAbs(1.0 / 14, 0.006));
}

TEST_CASE("the function of Ishigami and Homma", "[sensitivity]") {
  // T. Ishigami and T. Homma, "An importance quantification technique in uncertainty analysis for
  // computer models", ISUMA 1990, pp. 398-403 (from memory): y = sin x1 + a sin^2 x2 + b x3^4 sin
  // x1, with all x uniform in (-pi, pi). By integration with a = 7 and b = 0.1:
  //   V1 = (1 + b pi^4 / 5)^2 / 2, V2 = a^2 / 8, V = V1 + V2 + b^2 pi^8 (1/18 - 1/50).
  constexpr double a = 7.0;
  constexpr double b = 0.1;
  const double pi = std::numbers::pi;
  const auto x = [pi](double p) { return pi * (2.0 * p - 1.0); };
  const auto y = [&](const SamplePoint& p) {
    const double x1 = x(p[Parameter::oil_content]);
    const double x2 = x(p[Parameter::heater]);
    const double x3 = x(p[Parameter::half_life]);
    return std::sin(x1) + a * std::pow(std::sin(x2), 2) + b * std::pow(x3, 4) * std::sin(x1);
  };
  const double v1 = std::pow(1.0 + b * std::pow(pi, 4) / 5.0, 2) / 2.0;
  const double v2 = a * a / 8.0;
  const double v = v1 + v2 + b * b * std::pow(pi, 8) * (1.0 / 18 - 1.0 / 50);
  const Sensitivities sensitivities = shares_of(y, 65536);
  CHECK_THAT(share(sensitivities, Parameter::oil_content), WithinAbs(v1 / v, 0.01));  // 0.314
  CHECK_THAT(share(sensitivities, Parameter::heater), WithinAbs(v2 / v, 0.03));  // 0.442, two waves
  // It acts only together with another parameter.
  CHECK(share(sensitivities, Parameter::half_life) == 0.0);
  CHECK(share(sensitivities, Parameter::recovery) == 0.0);
}

TEST_CASE("inputs that act together leave a rest", "[sensitivity]") {
  // The product of two parameters around their medians has no first-order share at all.
  const auto product = [](const SamplePoint& p) {
    return (p[Parameter::oil_content] - 0.5) * (p[Parameter::heater] - 0.5);
  };
  for (const Sensitivity& one : shares_of(product, 16384)) CHECK(one.share < fraction(0.02));
}

TEST_CASE("a rare extreme does not decide", "[sensitivity]") {
  const auto tame = [](const SamplePoint& p) { return p[Parameter::oil_content]; };
  const auto wild = [&](const SamplePoint& p) {
    return tame(p) + (p[Parameter::heater] > 0.999 ? 1e6 : 0.0);
  };
  CHECK(share(shares_of(wild, 4096), Parameter::oil_content) < 0.1);
  CHECK_THAT(share(shares_of(wild, 4096, 0.05), Parameter::oil_content), WithinAbs(1.0, 0.01));
  const auto endless = [&](const SamplePoint& p) {
    return p[Parameter::heater] > 0.98 ? std::numeric_limits<double>::infinity() : tame(p);
  };
  CHECK(share(shares_of(endless, 4096, 0.05), Parameter::oil_content) > 0.9);
}

TEST_CASE("nothing to share out", "[sensitivity]") {
  CHECK(shares_of([](const SamplePoint&) { return 3.0; }, 1024).empty());
  CHECK(shares_of([](const SamplePoint& p) { return p[Parameter::heater]; }, 15).empty());
  CHECK(first_order_sensitivity({}, {}).empty());
}

TEST_CASE("every input has its name", "[sensitivity]") {
  for (std::size_t i = 0; i < parameter_count; ++i) {
    const auto input = static_cast<Parameter>(i);
    CHECK_FALSE(to_string(input).empty());
    CHECK_FALSE(in_words(input).empty());
    CHECK_FALSE(how_to_know(input).empty());
  }
  CHECK(to_string(Parameter::bulk_density) == "bulk_density");
  CHECK(to_string(Parameter::heater) == "heater");
  CHECK(to_string(Parameter::condensing) == "condensing");
}
