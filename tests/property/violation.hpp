// Violations of properties, in words with the numbers. Properties return them, so that a case can
// be shrunk for as long as it still breaks the same property.
#pragma once

#include <fmt/format.h>

#include <string>
#include <utility>
#include <vector>

namespace property {

/// Relative tolerance for rounding.
inline constexpr double rounding = 1e-9;

struct Violation {
  std::string property;
  std::string words;
};
using Violations = std::vector<Violation>;

/// Collects violations, and makes words only for them. A comparison with NaN never holds.
class Judge {
 public:
  void holds(bool does, const char* property, const char* words = "does not hold") {
    if (!does) violations_.push_back({property, words});
  }
  /// Checks that a is no more than b. The rounding tolerance is relative to the larger of the two.
  /// `slack` is absolute and comes on top of it.
  void no_more(const char* property, double a, double b, double slack = 0.0) {
    const double size = a > b ? a : b;
    if (a <= b + rounding * (size < 0.0 ? -size : size) + slack) return;
    violations_.push_back({property, fmt::format("{:.9g} is more than {:.9g}", a, b)});
  }
  void same(const char* property, double a, double b) {
    no_more(property, a, b);
    no_more(property, b, a);
  }
  void add(const char* property, std::string words) {
    violations_.push_back({property, std::move(words)});
  }
  bool clean() const { return violations_.empty(); }
  Violations take() { return std::move(violations_); }

 private:
  Violations violations_;
};

}  // namespace property
