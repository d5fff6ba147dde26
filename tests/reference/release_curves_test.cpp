// Release of oil against published yields at a time, plateau times and rate constants, in
// release_curves.csv. Every curve is brought to one half-time (first order from first drop, no lag,
// nothing washed off) and held against the figures of its class.
//
// Rows of kind `point` are fitted by least squares; a yield in per cent of the material has its end
// value fitted too, one in '% of maximum' has 100. A `plateau` is the time at which 95 % is out, by
// our choice: the papers print the time of the highest mean, or the time they stopped at. A
// `half_time` is printed, or made from a printed rate constant.
//
// The curves of one class and method went to 'set' and 'aside' by turns, in the order in which they
// were found. Class figures come from 'set' alone; 'aside' is what tests them.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iomanip>
#include <iostream>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "catch.hpp"
#include "firstdrop/release.hpp"
#include "reference/csv_table.hpp"
#include "test_library.hpp"

using namespace firstdrop;

namespace {

struct YieldAt {
  double minutes;
  double value;
};

struct Curve {
  std::string name;
  std::string release_class;
  Method method = Method::steam;
  bool aside = false;
  bool of_maximum = false;  // values are per cent of the end value
  std::vector<YieldAt> points;
  std::vector<double> logs;  // of half-times in minutes, from plateaus and rate constants
};

Method method_of(const std::string& name) {
  for (const Method method : {Method::steam, Method::water_and_steam, Method::hydro})
    if (to_string(method) == name) return method;
  FAIL("no such method: " << name);
  return Method::steam;
}

std::vector<Curve> read_curves() {
  std::vector<Curve> curves;
  for (const csv_table::Row& row : csv_table::read("release_curves.csv")) {
    CAPTURE(row.at("curve"));
    const auto same = [&](const Curve& curve) { return curve.name == row.at("curve"); };
    auto curve = std::find_if(curves.begin(), curves.end(), same);
    if (curve == curves.end()) {
      REQUIRE((row.at("use") == "set" || row.at("use") == "aside"));
      curves.push_back({row.at("curve"),
                        row.at("class"),
                        method_of(row.at("method")),
                        row.at("use") == "aside",
                        row.at("unit") == "% of maximum",
                        {},
                        {}});
      curve = curves.end() - 1;
    }
    REQUIRE(curve->aside == (row.at("use") == "aside"));
    const std::string& kind = row.at("kind");
    if (kind == "point") {
      curve->points.push_back({std::stod(row.at("time_min")), std::stod(row.at("value"))});
    } else if (kind == "plateau") {
      curve->logs.push_back(std::log(std::stod(row.at("time_min")) / std::log2(20.0)));
    } else {
      REQUIRE(kind == "half_time");
      curve->logs.push_back(std::log(std::stod(row.at("value"))));
    }
  }
  return curves;
}

Fraction share_after(double minutes_from_first_drop, double half_time, Fraction washed = {}) {
  return released({washed, rate_of_half_time(minutes(half_time))},
                  minutes(minutes_from_first_drop));
}

/// What the value would end at, given the half-time: least squares has it in closed form.
double end_value(const Curve& curve, double half_time) {
  if (curve.of_maximum) return 100;
  double products = 0;
  double squares = 0;
  for (const YieldAt& point : curve.points) {
    const double share = share_after(point.minutes, half_time).si();
    products += point.value * share;
    squares += share * share;
  }
  return products / squares;
}

double sum_of_squares(const Curve& curve, double log_half_time) {
  const double half_time = std::exp(log_half_time);
  const double end = end_value(curve, half_time);
  double sum = 0;
  for (const YieldAt& point : curve.points) {
    const double miss = point.value / end - share_after(point.minutes, half_time).si();
    sum += miss * miss * end * end;
  }
  return sum;
}

/// In minutes. The sum of squares is searched from half a minute to 5000 on a grid of 1 in 200,
/// then by narrowing around the best, so that a second, worse dip cannot catch it.
double fitted_half_time(const Curve& curve) {
  if (curve.points.empty()) {
    double sum = 0;
    for (const double log : curve.logs) sum += log;
    return std::exp(sum / static_cast<double>(curve.logs.size()));
  }
  const double step = 0.005;
  double best = std::log(0.5);
  for (double log = best; log < std::log(5000.0); log += step)
    if (sum_of_squares(curve, log) < sum_of_squares(curve, best)) best = log;
  double low = best - step;
  double high = best + step;
  while (high - low > 1e-9) {
    const double third = (high - low) / 3;
    if (sum_of_squares(curve, low + third) < sum_of_squares(curve, high - third))
      high -= third;
    else
      low += third;
  }
  return std::exp((low + high) / 2);
}

const OilRelease& figures_of(const Curve& curve) {
  CAPTURE(curve.name, curve.release_class, to_string(curve.method));
  const auto found = shipped_library().release_classes.find(curve.release_class);
  REQUIRE(found != shipped_library().release_classes.end());
  const auto figures = found->second.by_method.find(curve.method);
  REQUIRE(figures != found->second.by_method.end());
  return figures->second;
}

using Group = std::pair<std::string, Method>;

std::map<Group, std::vector<Curve>> by_class(const std::vector<Curve>& curves) {
  std::map<Group, std::vector<Curve>> groups;
  for (const Curve& curve : curves) groups[{curve.release_class, curve.method}].push_back(curve);
  return groups;
}

}  // namespace

TEST_CASE("published release curves are there, in both parts", "[release][reference]") {
  const std::vector<Curve> curves = read_curves();
  CHECK(curves.size() >= 25);
  for (const auto& [group, members] : by_class(curves)) {
    CAPTURE(group.first, to_string(group.second));
    const auto aside =
        std::count_if(members.begin(), members.end(), [](const Curve& c) { return c.aside; });
    const auto all = static_cast<std::ptrdiff_t>(members.size());
    CHECK(all - aside >= 1);
    if (all > 1) CHECK(aside >= 1);
    CHECK(all - aside - aside <= 1);  // by turns, 'set' first
    CHECK(all - aside - aside >= 0);
  }
  for (const auto& [key, release_class] : shipped_library().release_classes) {
    CAPTURE(key);
    CHECK(std::any_of(curves.begin(), curves.end(),
                      [&name = key](const Curve& c) { return c.release_class == name; }));
  }
  for (const Curve& curve : curves) {
    CAPTURE(curve.name);
    CHECK(curve.points.empty() != curve.logs.empty());
    // Two unknowns want two points.
    if (!curve.points.empty()) CHECK((curve.of_maximum || curve.points.size() > 1));
  }
}

TEST_CASE("class figures are those of the part that sets them", "[release][reference]") {
  for (const auto& [group, members] : by_class(read_curves())) {
    CAPTURE(group.first, to_string(group.second));
    double sum = 0;
    double count = 0;
    for (const Curve& curve : members) {
      if (curve.aside) continue;
      sum += std::log(fitted_half_time(curve));
      count += 1;
    }
    const double typical = in_minutes(figures_of(members.front()).half_time.typical());
    CHECK_THAT(typical, WithinRel(std::exp(sum / count), 0.01));  // three digits in the table
  }
}

TEST_CASE("curves kept aside lie within the bounds of their class", "[release][reference]") {
  const std::vector<Curve> curves = read_curves();
  int aside = 0;
  int aside_inside = 0;
  int aside_between = 0;
  std::cout << std::left << std::setw(36) << "curve" << std::setw(23) << "class" << std::setw(17)
            << "method" << std::setw(7) << "use" << std::right << std::setw(9) << "half-time"
            << std::setw(8) << "low" << std::setw(8) << "typical" << std::setw(8) << "high"
            << "  min\n"
            << std::fixed << std::setprecision(1);
  for (const Curve& curve : curves) {
    const Range<Duration>& table = figures_of(curve).half_time.range;
    const double fitted = fitted_half_time(curve);
    const bool inside = minutes(fitted) >= table.least() && minutes(fitted) <= table.most();
    const bool between = minutes(fitted) >= table.low && minutes(fitted) <= table.high;
    if (curve.aside) {
      aside += 1;
      aside_inside += inside ? 1 : 0;
      aside_between += between ? 1 : 0;
    }
    std::cout << std::left << std::setw(36) << curve.name << std::setw(23) << curve.release_class
              << std::setw(17) << to_string(curve.method) << std::setw(7)
              << (curve.aside ? "aside" : "set") << std::right << std::setw(9) << fitted
              << std::setw(8) << in_minutes(table.low) << std::setw(8) << in_minutes(table.typical)
              << std::setw(8) << in_minutes(table.high) << "  "
              << (between  ? "within low to high"
                  : inside ? "within bounds"
                           : "OUT")
              << '\n';
  }
  std::cout << "aside: " << aside_inside << " of " << aside << " within bounds, " << aside_between
            << " within low to high\n";
  REQUIRE(aside >= 20);
  // Low and high are the 10th and 90th percentile, so eight in ten are due between them and more
  // within the bounds. Measured: 29 of 31 within the bounds, 24 between low and high. Out of bounds
  // are agarwood and ylang-ylang, both slower than their class.
  CHECK(aside_inside >= 0.8 * aside);
  const double allowance = 2 * std::sqrt(0.8 * 0.2 / aside);  // two standard deviations of a count
  CHECK(aside_between >= (0.8 - allowance) * aside);
  CHECK(aside_between <= (0.8 + allowance) * aside);  // or the ranges would be too wide
}

TEST_CASE("published shares at a time against the share released by then", "[release][reference]") {
  int points = 0;
  int inside = 0;
  std::cout << std::left << std::setw(36) << "curve" << std::right << std::setw(7) << "min"
            << std::setw(11) << "published" << std::setw(9) << "fitted" << std::setw(12)
            << "at high" << std::setw(9) << "typical" << std::setw(9) << "at low"
            << "  %\n"
            << std::fixed << std::setprecision(1);
  for (const Curve& curve : read_curves()) {
    if (curve.points.empty()) continue;
    CAPTURE(curve.name);
    const OilRelease& figures = figures_of(curve);
    const Range<Duration>& table = figures.half_time.range;
    const Fraction washed = figures.washed_share ? figures.washed_share->typical() : Fraction{};
    const double fitted = fitted_half_time(curve);
    const double end = end_value(curve, fitted);
    for (const YieldAt& point : curve.points) {
      CAPTURE(point.minutes, point.value);
      const double published = point.value / end;
      const double by_fit = share_after(point.minutes, fitted).si();
      const auto by_class_figure = [&](Duration half_time) {
        return share_after(point.minutes, in_minutes(half_time), washed).si();
      };
      const double least = by_class_figure(table.high);
      const double most = by_class_figure(table.low);
      points += 1;
      inside += published >= least && published <= most ? 1 : 0;
      std::cout << std::left << std::setw(36) << curve.name << std::right << std::setw(7)
                << point.minutes << std::setw(11) << 100 * published << std::setw(9) << 100 * by_fit
                << std::setw(12) << 100 * least << std::setw(9)
                << 100 * by_class_figure(table.typical) << std::setw(9) << 100 * most << '\n';
      // First order without a lag goes through what is published. Measured: off by 8.9 % of the oil
      // at most, 10 min into a run of lavender whose clock seems to start before first drop.
      CHECK_THAT(by_fit, WithinAbs(published, 0.10));
    }
  }
  std::cout << inside << " of " << points << " points between the shares at high and low\n";
  REQUIRE(points >= 10);
  // Measured: 7 of 12. Three of the others are the end of their curve, 100 % by definition, which
  // no first-order share reaches; then coriander after 15 min and ylang-ylang after nine hours.
  CHECK(inside * 2 >= points);
}
