// Where the sample points lie, against hand-worked digits.
#include "model/sampling.hpp"

#include <array>
#include <cmath>

#include "catch.hpp"

using namespace firstdrop;

TEST_CASE("digits mirrored at the point", "[sampling]") {
  CHECK(radical_inverse(0, 2) == 0.0);
  CHECK(radical_inverse(1, 2) == 0.5);
  CHECK(radical_inverse(6, 2) == 0.375);                                   // 110 -> .011
  CHECK_THAT(radical_inverse(5, 3), WithinRel(2.0 / 3 + 1.0 / 9, 1e-15));  // 12 -> .21
  CHECK_THAT(radical_inverse(1234, 10), WithinRel(0.4321, 1e-15));
  CHECK(radical_inverse(999999999999, 59) < 1.0);
}

TEST_CASE("points fill every axis evenly, whatever the seed", "[sampling]") {
  // With 1024 points in 16 classes, each class should have 64. Independent draws would miss that
  // with a variance of 60.
  constexpr double of_independent_draws = 64.0 * 15.0 / 16.0;
  for (const std::uint64_t seed : {0U, 1U, 2U, 987654321U}) {
    const SamplePoints points(seed);
    double squares = 0.0;
    for (std::size_t i = 0; i < parameter_count; ++i) {
      CAPTURE(seed, i);
      std::array<int, 16> in_class{};
      for (std::uint64_t n = 0; n < 1024; ++n) {
        const double at = points[n][static_cast<Parameter>(i)];
        REQUIRE(at >= 0.0);
        REQUIRE(at < 1.0);
        ++in_class.at(static_cast<std::size_t>(at * 16.0));
      }
      for (const int count : in_class) {
        CHECK(std::abs(count - 64) <= 16);
        squares += (count - 64) * (count - 64);
      }
    }
    CHECK(squares / (16.0 * parameter_count) < of_independent_draws / 4.0);
  }
}

TEST_CASE("a point depends on seed and index alone", "[sampling]") {
  const SamplePoints points(7);
  const SamplePoints same(7);
  const SamplePoints other(8);
  const SamplePoint late = points[500];
  CHECK(points[3][Parameter::heater] == same[3][Parameter::heater]);
  CHECK(points[500][Parameter::heater] == late[Parameter::heater]);
  CHECK(points[3][Parameter::heater] != other[3][Parameter::heater]);
  CHECK(points[3][Parameter::heater] != points[4][Parameter::heater]);
}

TEST_CASE("beyond the usual number of points the sequence goes on", "[sampling]") {
  const SamplePoints points(7);
  const auto turned = [](double difference) { return difference - std::floor(difference); };
  for (const int index : {default_samples - 1, default_samples, default_samples + 1}) {
    CAPTURE(index);
    const auto i = static_cast<std::uint64_t>(index);
    // This parameter's base is 2, and all points have the same shift.
    CHECK_THAT(turned(points[i][Parameter::oil_content] - points[0][Parameter::oil_content]),
               WithinAbs(turned(radical_inverse(i + 1, 2) - radical_inverse(1, 2)), 1e-12));
  }
}
