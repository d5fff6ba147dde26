#include <cmath>

#include "catch.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"

using namespace firstdrop;

namespace {

// An asymmetric range of numbers that a double holds exactly. Its bounds are 2 and 14.
constexpr Range<double> skewed{3.0, 4.0, 9.0};

}  // namespace

TEST_CASE("bounds lie as far beyond the percentiles as those from the median", "[range]") {
  CHECK(skewed.least() == 2.0);
  CHECK(skewed.most() == 14.0);
}

TEST_CASE("the value at a probability goes through bounds and percentiles", "[range]") {
  CHECK(skewed.at(0.0) == 2.0);
  CHECK_THAT(skewed.at(0.1), WithinRel(3.0, 1e-14));
  CHECK_THAT(skewed.at(0.5), WithinRel(4.0, 1e-14));
  CHECK_THAT(skewed.at(0.9), WithinRel(9.0, 1e-14));
  CHECK_THAT(skewed.at(1.0), WithinRel(14.0, 1e-14));
  // Halfway between neighbours.
  CHECK_THAT(skewed.at(0.05), WithinRel(2.5, 1e-14));
  CHECK_THAT(skewed.at(0.3), WithinRel(3.5, 1e-14));
  CHECK_THAT(skewed.at(0.7), WithinRel(6.5, 1e-14));
  CHECK_THAT(skewed.at(0.95), WithinRel(11.5, 1e-14));
}

TEST_CASE("a probability outside of 0 to 1 is taken as the bound", "[range]") {
  CHECK(skewed.at(-1.0) == skewed.at(0.0));
  CHECK(skewed.at(2.0) == skewed.at(1.0));
}

TEST_CASE("values rise with the probability and stay within the bounds", "[range]") {
  double before = skewed.at(0.0);
  for (int i = 1; i <= 1000; ++i) {
    const double value = skewed.at(i / 1000.0);
    CHECK(value > before);
    CHECK(value >= skewed.least());
    CHECK(value <= skewed.most() * (1.0 + 1e-15));
    before = value;
  }
}

TEST_CASE("an exact figure has no spread", "[range]") {
  constexpr auto exact = Range<Mass>::exactly(grams(260));
  CHECK(exact.least() == grams(260));
  CHECK(exact.most() == grams(260));
  CHECK(exact.at(0.37) == grams(260));
  CHECK(exact.ordered());
}

TEST_CASE("order of low, typical and high", "[range]") {
  CHECK(skewed.ordered());
  CHECK_FALSE(Range<double>{3.0, 2.0, 4.0}.ordered());
  CHECK_FALSE(Range<double>{1.0, 5.0, 4.0}.ordered());
}

TEST_CASE("ranges of quantities and of temperatures", "[range]") {
  constexpr Range<Mass> mass{grams(200), grams(250), grams(400)};
  CHECK_THAT(in_grams(mass.least()), WithinRel(150.0, 1e-14));
  CHECK_THAT(in_grams(mass.most()), WithinRel(550.0, 1e-14));
  CHECK_THAT(in_grams(mass.at(0.3)), WithinRel(225.0, 1e-14));

  // Temperatures are points on a scale, so only their differences are scaled.
  constexpr Range<Temperature> temperature{celsius(10), celsius(15), celsius(25)};
  CHECK_THAT(in_celsius(temperature.least()), WithinAbs(5.0, 1e-12));
  CHECK_THAT(in_celsius(temperature.most()), WithinAbs(35.0, 1e-12));
  CHECK_THAT(in_celsius(temperature.at(0.7)), WithinAbs(20.0, 1e-12));
}

TEST_CASE("a range by ratio goes by factors", "[range]") {
  // 2, 10 and 20: a factor of five below the median, of two above. The bounds are 0.4 and 40.
  constexpr Range<Duration> range{minutes(2), minutes(10), minutes(20), true};
  CHECK_THAT(in_minutes(range.least()), WithinRel(0.4, 1e-14));
  CHECK_THAT(in_minutes(range.most()), WithinRel(40.0, 1e-14));
  CHECK_THAT(in_minutes(range.at(0.0)), WithinRel(0.4, 1e-14));
  CHECK_THAT(in_minutes(range.at(0.1)), WithinRel(2.0, 1e-14));
  CHECK_THAT(in_minutes(range.at(0.3)), WithinRel(std::sqrt(20.0), 1e-14));
  CHECK_THAT(in_minutes(range.at(0.5)), WithinRel(10.0, 1e-14));
  CHECK_THAT(in_minutes(range.at(0.9)), WithinRel(20.0, 1e-14));
  CHECK_THAT(in_minutes(range.at(1.0)), WithinRel(40.0, 1e-14));
  // With linear interpolation, the same numbers would have a bound below zero.
  CHECK(Range<Duration>{minutes(2), minutes(10), minutes(20)}.least() < minutes(0));
  STATIC_REQUIRE(HasRatio<Duration>);
  STATIC_REQUIRE_FALSE(HasRatio<Temperature>);
}

TEST_CASE("how a figure is known, in words", "[source]") {
  CHECK(to_string(Known::measured) == "measured");
  CHECK(to_string(Known::read) == "read");
  CHECK(to_string(Known::computed) == "computed");
  CHECK(to_string(Known::common_practice) == "common-practice");
  CHECK(to_string(Known::from_memory) == "from-memory");
  CHECK(to_string(Known::own_invention) == "own-invention");
}
