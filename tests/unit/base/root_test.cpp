#include "base/root.hpp"

#include <cmath>
#include <functional>

#include "catch.hpp"
#include "firstdrop/quantity/quantity.hpp"

using namespace firstdrop;

namespace {

struct Search {
  RootBracket<double> found;
  int calls;
};

Search search(const std::function<double(double)>& value, double low = 0.0, double high = 1.0) {
  int calls = 0;
  const auto counted = [&](double x) {
    ++calls;
    return value(x);
  };
  const RootBracket<double> found = bracket_root(low, high, counted);
  return {found, calls};
}

/// The root by bisection alone, to the last bit.
double halved(const std::function<double(double)>& value, double low = 0.0, double high = 1.0) {
  for (int i = 0; i < 200; ++i) {
    const double middle = low + (high - low) / 2.0;
    (value(middle) >= 0.0 ? low : high) = middle;
  }
  return low;
}

}  // namespace

TEST_CASE("a root lies between its two sides, where halving finds it", "[root]") {
  const std::function<double(double)> functions[] = {
      [](double x) { return 0.92 - x; },
      [](double x) { return 1e-6 - x; },
      [](double x) { return 1.0 - 1e-6 - x; },
      [](double x) { return std::exp(-5.0 * x) - 0.1; },
      [](double x) { return std::exp(-5000.0 * x) - 1e-3; },
      [](double x) { return 0.6 - x - std::max(0.0, 0.3 * x - 0.1); },  // a kink
      [](double x) { return std::pow(0.4 - x, 3.0); },                  // flat at its root
      [](double x) { return x < 0.3 ? 1.0 : -1e9; },                    // a jump
      [](double x) { return x < 0.3 ? 1e-9 : -1.0 - x; },
  };
  for (const auto& value : functions) {
    const Search s = search(value);
    CHECK(value(s.found.last_yes) >= 0.0);
    CHECK(value(s.found.first_no) < 0.0);
    CHECK(s.found.first_no - s.found.last_yes <= 1e-13);
    const double expected = halved(value);
    CHECK(s.found.last_yes <= expected);
    CHECK(s.found.first_no >= expected);
    CHECK(s.calls <= 46);
  }
}

TEST_CASE("smooth functions take some fifteen calls", "[root]") {
  CHECK(search([](double x) { return 0.92 - x; }).calls <= 13);
  CHECK(search([](double x) { return std::exp(-5.0 * x) - 0.1; }).calls <= 15);
  CHECK(search([](double x) { return 2.0 - x * x; }, 0.0, 100.0).calls <= 20);
}

TEST_CASE("an end that is taken as given may be wrong", "[root]") {
  // If the value is always no or always yes, the bracket closes in on the wrongly assumed end.
  CHECK(search([](double) { return -1.0; }).found.last_yes == 0.0);
  CHECK(search([](double) { return -1.0; }).found.first_no <= 1e-13);
  CHECK(search([](double) { return 1.0; }).found.first_no == 1.0);
  CHECK(search([](double) { return 1.0; }).found.last_yes >= 1.0 - 1e-13);
  CHECK(search([](double) { return 0.0; }).calls <= 46);
  CHECK(search([](double) { return std::nan(""); }).found.last_yes == 0.0);
}

TEST_CASE("the largest that fits", "[root]") {
  const auto within = [](Mass limit) { return [=](Mass m) { return (limit - m).si(); }; };
  CHECK(largest(grams(0), grams(100), within(grams(250))) == grams(100));
  CHECK_THAT(in_grams(largest(grams(0), grams(100), within(grams(40)))),
             Catch::Matchers::WithinAbs(40.0, 1e-10));
  CHECK(largest(grams(0), grams(100), within(grams(40))) <= grams(40));
}
