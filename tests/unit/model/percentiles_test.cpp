#include "model/percentiles.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "catch.hpp"
#include "test_random.hpp"

using namespace firstdrop;
using test_random::Random;

namespace {

/// The percentile by sorting all numbers.
double by_sorting(std::vector<double> numbers, double p) {
  std::sort(numbers.begin(), numbers.end());
  const double place = p * static_cast<double>(numbers.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, numbers.size() - 1);
  return numbers[below] + (numbers[above] - numbers[below]) * (place - std::floor(place));
}

void same_as_sorted(const std::vector<double>& numbers) {
  const Range<Mass> range = percentiles<Mass>(numbers);
  CHECK(range.low.si() == by_sorting(numbers, 0.1));
  CHECK(range.typical.si() == by_sorting(numbers, 0.5));
  CHECK(range.high.si() == by_sorting(numbers, 0.9));
}

}  // namespace

TEST_CASE("percentiles are those of the sorted numbers", "[percentiles]") {
  Random random(7);
  for (const std::size_t count : {1U, 2U, 3U, 10U, 11U, 255U, 1024U, 5000U}) {
    for (int kind = 0; kind < 6; ++kind) {
      CAPTURE(count, kind);
      std::vector<double> numbers(count);
      for (double& number : numbers) {
        const double u = random.between(0.0, 1.0);
        number = kind == 0   ? u
                 : kind == 1 ? std::pow(u, -8.0)           // a few are very large
                 : kind == 2 ? -5.0 + std::floor(u * 4.0)  // many are the same
                 : kind == 3 ? 3.25                        // all are the same
                 : kind == 4 ? 1e300 * (u - 0.5)
                             : 1e-310 * u;  // very close together
      }
      same_as_sorted(numbers);
    }
  }
}

TEST_CASE("numbers of a span that cannot be counted are sorted", "[percentiles]") {
  constexpr double most = std::numeric_limits<double>::max();
  same_as_sorted({most, -most, 0.0, 1.0, 2.0, 3.0, -1.0});
  std::vector<double> with_never(100, 1.0);
  for (std::size_t i = 0; i < 3; ++i) with_never[i] = std::numeric_limits<double>::infinity();
  for (std::size_t i = 3; i < 50; ++i) with_never[i] = static_cast<double>(i);
  const Range<Duration> range = percentiles<Duration>(with_never);
  CHECK(range.low == seconds(1));
  // Fifty ones, then 3 to 49. Rank 89.1 of 0 to 99 is a tenth of the way beyond 42.
  CHECK_THAT(in_seconds(range.high), WithinRel(42.1, 1e-12));
}

TEST_CASE("nothing has no percentiles, and a temperature has", "[percentiles]") {
  CHECK(percentiles<Mass>({}).high == grams(0));
  CHECK(percentiles<Temperature>({290.0, 300.0, 310.0}).typical == Temperature::from_kelvin(300.0));
}
