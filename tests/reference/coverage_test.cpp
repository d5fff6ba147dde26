// How well the plants' oil contents agree with articles that the fit of data/evidence never saw.
//
// The library's own conversions bring both sides to one basis: kilograms of oil per kilogram of dry
// matter of that state, as a laboratory's water distillation to exhaustion finds it. A still's
// yield is divided by the recovery of its method, and by the share that has come when stills are
// stopped. A laboratory's yield by steam is divided by the ratio of steam to water distillation of
// the same batch. Each pair of article and plant counts once, even if it has several rows.
// data/evidence/README.md has the rules; data/evidence/fit prints the same and more.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "catch.hpp"
#include "physics/basis.hpp"
#include "readers/plant_parameters.hpp"
#include "reference/csv_table.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using test_stills::shipped;

namespace {

State state_named(const std::string& name) {
  if (name == "fresh") return State::fresh;
  if (name == "wilted") return State::wilted;
  REQUIRE(name == "dried");
  return State::dried;
}

// Articles that do not state the method mostly used steam.
Method method_named(const std::string& name) {
  if (name == "water-and-steam") return Method::water_and_steam;
  if (name == "hydro") return Method::hydro;
  REQUIRE((name == "steam" || name == "unknown"));
  return Method::steam;
}

const Plant& plant_of(const csv_table::Row& row) {
  REQUIRE(shipped().plants.contains(row.at("plant")));
  return shipped().plants.at(row.at("plant"));
}

// The geometric mean of the row's low and high figure, on the common basis.
double middle_of(const csv_table::Row& row) {
  const Plant& plant = plant_of(row);
  const State state = state_named(row.at("state"));
  const auto common = [&](const std::string& figure) {
    const double number = std::stod(figure);
    REQUIRE((row.at("unit") == "%" || row.at("unit") == "mL/100g"));
    Fraction share = row.at("unit") == "%" ? percent(number)
                                           : oil_by_mass(litres_per_kilogram(number / 100),
                                                         plant.oil_density->typical());
    REQUIRE((row.at("per") == "as-received" || row.at("per") == "dry-matter"));
    if (row.at("per") == "as-received")
      share = per_dry_matter(share, moisture_of(plant, state, shipped()).figure.typical());
    if (row.at("end") == "stated") {
      const Method method = method_named(row.at("method"));
      const auto recovery = recovery_of(plant, method, Distilled::to_exhaustion, shipped());
      share = share / recovery.figure.typical() / shipped().design_defaults.stated_end.typical();
    } else if (row.at("method") == "steam") {
      // Low is the ratio of steam to water distillation of the same batch; see its basis in the
      // table.
      share = share / shipped().design_defaults.recovery.at(Method::steam).range.low;
    }
    return share.si();
  };
  return std::sqrt(common(row.at("low")) * common(row.at("high")));
}

struct Ten90 {
  double low, typical, high;
};

Ten90 table_range(const Plant& plant, State state) {
  const ChosenOilContent content = oil_content_of(plant, state, shipped());
  const Fraction moisture = moisture_of(plant, state, shipped()).figure.typical();
  const auto common = [&](Fraction share) {
    return (content.per == OilPer::as_received ? per_dry_matter(share, moisture) : share).si();
  };
  const auto& range = content.figure.range;
  return {common(range.low), common(range.typical), common(range.high)};
}

// One pair of article and plant.
struct Pair {
  std::string plant;
  double inside = 0.0;  // share of its rows that lie inside the range
  double ratio = 0.0;   // geometric mean of its rows, divided by the table's median
};

std::vector<Pair> pairs_aside() {
  std::map<std::pair<std::string, std::string>, std::vector<csv_table::Row>> rows;
  for (const csv_table::Row& row : csv_table::read_at("data/evidence/yields.csv"))
    if (row.at("use") == "aside") rows[{row.at("plant"), row.at("source")}].push_back(row);
  std::vector<Pair> pairs;
  for (const auto& [key, of_pair] : rows) {
    Pair pair{key.first};
    double logs = 0.0;
    for (const csv_table::Row& row : of_pair) {
      CAPTURE(row.at("plant"), row.at("source"));
      const Plant& plant = plant_of(row);
      const Ten90 range = table_range(plant, state_named(row.at("state")));
      const double middle = middle_of(row);
      if (middle >= range.low && middle <= range.high) pair.inside += 1;
      logs += std::log(middle / range.typical);
    }
    const double n = static_cast<double>(of_pair.size());
    pair.inside /= n;
    pair.ratio = std::exp(logs / n);
    pairs.push_back(pair);
  }
  return pairs;
}

double studies_of(const std::string& plant) {
  for (const auto& [state, figures] : shipped().plants.at(plant)->states)
    if (figures.oil_content) return figures.oil_content->studies.value();
  FAIL(plant);
  return 0;
}

double percent_inside(const std::vector<Pair>& pairs) {
  double inside = 0.0;
  for (const Pair& pair : pairs) inside += pair.inside;
  return 100 * inside / static_cast<double>(pairs.size());
}

double median_ratio(const std::vector<Pair>& pairs) {
  std::vector<double> ratios;
  for (const Pair& pair : pairs) ratios.push_back(pair.ratio);
  std::sort(ratios.begin(), ratios.end());
  const std::size_t n = ratios.size();
  return n % 2 == 1 ? ratios[n / 2] : std::sqrt(ratios[n / 2 - 1] * ratios[n / 2]);
}

}  // namespace

TEST_CASE("oil contents hold for articles that were kept aside", "[plants][reference][coverage]") {
  std::vector<Pair> pairs = pairs_aside();
  REQUIRE(pairs.size() >= 20);
  // Three groups of about equal size: plants with few, some and many studies.
  std::stable_sort(pairs.begin(), pairs.end(), [](const Pair& a, const Pair& b) {
    return studies_of(a.plant) < studies_of(b.plant);
  });
  std::string report = fmt::format(
      "articles kept aside: {} pairs of article and plant, {:.0f} % inside, median ratio "
      "{:.2f}; by number of studies",
      pairs.size(), percent_inside(pairs), median_ratio(pairs));
  const auto third = static_cast<std::ptrdiff_t>(pairs.size() / 3);
  for (std::ptrdiff_t i = 0; i < 3; ++i) {
    const auto from = pairs.begin() + i * third;
    const std::vector<Pair> group(from, i == 2 ? pairs.end() : from + third);
    report += fmt::format(" {:.0f} %", percent_inside(group));
    CHECK(percent_inside(group) >= 60);
  }
  std::cout << report << "\n";
  // A range should hold 8 in 10. So few articles show the share only to 10 percentage points.
  CHECK(percent_inside(pairs) >= 70);
  CHECK(percent_inside(pairs) <= 90);
  CHECK(median_ratio(pairs) >= 0.7);
  CHECK(median_ratio(pairs) <= 1.4);
}

TEST_CASE("a standard's minimum is passed by middling material", "[plants][reference][coverage]") {
  int passed = 0;
  int all = 0;
  for (const csv_table::Row& row : csv_table::read_at("data/evidence/yields.csv")) {
    if (row.at("use") != "minimum") continue;
    ++all;
    if (table_range(plant_of(row), state_named(row.at("state"))).typical >= middle_of(row))
      ++passed;
  }
  CAPTURE(passed, all);
  CHECK(all >= 20);
  CHECK(passed * 3 >= all * 2);  // pharmacopoeias require good material
}

TEST_CASE("one state of a plant has its oil content, to exhaustion and per dry matter",
          "[plants][reference][coverage]") {
  for (const auto& [key, plant] : shipped().plants) {
    CAPTURE(key);
    int own = 0;
    for (const auto& [state, figures] : plant->states) {
      if (!figures.oil_content) continue;
      ++own;
      CHECK(figures.oil_content->distilled == Distilled::to_exhaustion);
      CHECK(figures.oil_content->per == OilPer::dry_matter);
      CHECK(figures.oil_content->studies.value() > 0);
    }
    if (!has_oil_figures(plant)) continue;
    CHECK(own == 1);  // the other states follow from it, so they cannot contradict it
  }
}
