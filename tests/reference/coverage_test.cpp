// The coverage report: for each plant the published yields of yields.csv, and whether they fall
// inside the plant table's 10 to 90 % range. The report is printed with the test's result.
//
// Both sides are brought to one basis: kilograms of oil per kilogram of dry matter of that state,
// as a laboratory's water distillation would find it. A yield from a still is divided by the
// table's typical recovery for its method, on either side. A published range counts by its
// geometric middle. Rows `aside` played no part in setting the table's ranges; rows `set` did. A
// standard's minimum is no yield: typical material must pass it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <map>
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/basis.hpp"
#include "firstdrop/plant_figures.hpp"
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

Method method_named(const std::string& name) {
  if (name == "steam") return Method::steam;
  if (name == "water-and-steam") return Method::water_and_steam;
  REQUIRE(name == "hydro");
  return Method::hydro;
}

// On the basis of fresh herb where a plant comes fresh and dried: before the loss on drying.
double before_loss(const Plant& plant, State state, double share) {
  if (state != State::dried || !plant.states.contains(State::fresh)) return share;
  return before_drying(fraction(share), shipped().practice.drying_retention.typical()).si();
}

struct Yield {
  std::string plant;
  State state = State::fresh;
  Method method = Method::hydro;
  double low = 0.0;  // on the common basis
  double high = 0.0;
  bool minimum = false;
  bool aside = false;

  double middle() const { return std::sqrt(low * high); }
};

Yield yield_from(const csv_table::Row& row) {
  CAPTURE(row.at("plant"), row.at("source"));
  Yield y;
  y.plant = row.at("plant");
  y.state = state_named(row.at("state"));
  y.method = method_named(row.at("method"));
  y.minimum = row.at("assay") == "minimum";
  REQUIRE((row.at("use") == "aside" || row.at("use") == "set"));
  y.aside = row.at("use") == "aside";
  REQUIRE(shipped().plants.contains(y.plant));
  const Plant& plant = shipped().plants.at(y.plant);
  const Fraction moisture = moisture_of(plant, y.state, shipped()).figure.typical();
  const bool still = row.at("assay") == "still";
  REQUIRE((still || y.minimum || row.at("assay") == "laboratory"));
  const auto common = [&](const std::string& figure) {
    const double number = std::stod(figure);
    REQUIRE(number > 0);
    REQUIRE((row.at("unit") == "%" || row.at("unit") == "mL/100g"));
    Fraction share = row.at("unit") == "%" ? percent(number)
                                           : oil_by_mass(litres_per_kilogram(number / 100),
                                                         plant.oil_density.typical());
    REQUIRE((row.at("per") == "as-loaded" || row.at("per") == "dry-matter"));
    if (row.at("per") == "as-loaded") share = per_dry_matter(share, moisture);
    if (still) {
      const auto recovery = recovery_of(plant, y.method, OilAssay::laboratory, shipped());
      share = share / recovery.figure.typical();
    }
    return share.si();
  };
  y.low = common(row.at("low"));
  y.high = common(row.at("high"));
  REQUIRE(y.low <= y.high);
  return y;
}

struct Ten90 {
  double low, typical, high;
};

// A still's figure in the table was mostly found by steam.
Ten90 table_range(const Plant& plant, State state) {
  const ChosenOilContent content = oil_content_of(plant, state, shipped());
  const Fraction moisture = moisture_of(plant, state, shipped()).figure.typical();
  const Fraction recovery =
      recovery_of(plant, Method::steam, OilAssay::laboratory, shipped()).figure.typical();
  const auto common = [&](Fraction share) {
    if (content.per == OilPer::as_loaded) share = per_dry_matter(share, moisture);
    if (content.assay == OilAssay::still) share = share / recovery;
    return share.si();
  };
  const auto& range = content.figure.range;
  return {common(range.low), common(range.typical), common(range.high)};
}

struct Count {
  int inside = 0;
  int all = 0;
  void add(bool is_inside) {
    ++all;
    if (is_inside) ++inside;
  }
  double share() const { return all == 0 ? 0.0 : 100.0 * inside / all; }
};

// To the last digit that anyone prints.
bool is_inside(double figure, const Ten90& range) {
  return figure >= range.low * (1 - 1e-9) && figure <= range.high * (1 + 1e-9);
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t n = values.size();
  return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

std::vector<Yield> read_yields() {
  std::vector<Yield> yields;
  for (const csv_table::Row& row : csv_table::read("yields.csv")) yields.push_back(yield_from(row));
  return yields;
}

// The spread between published figures of one plant as a standard deviation of logarithms, from all
// plants together: what takes in eight in ten of the rows `set` around their plants' medians, less
// the degree of freedom that each median takes. Checked below.
constexpr double pooled_spread = 0.55;
// It counts like this many rows against those of the plant itself (our choice).
constexpr double pooled_weight = 4;
constexpr double to_90th = 1.2816;  // standard deviations of a normal figure
// A row further out than this counts as this far (our choice): one misprint shall not rule.
constexpr double furthest = 1.5;

}  // namespace

TEST_CASE("oil contents are those of the rows that set them", "[plants][reference][coverage]") {
  std::map<std::string, std::vector<double>> by_plant;
  for (const Yield& y : read_yields()) {
    if (y.minimum || y.aside) continue;
    const Plant& plant = shipped().plants.at(y.plant);
    by_plant[y.plant].push_back(std::log(before_loss(plant, y.state, y.middle())));
  }
  std::vector<double> misses;
  for (const auto& [key, plant] : shipped().plants) {
    CAPTURE(key);
    const std::vector<double>& logs = by_plant[key];
    REQUIRE_FALSE(logs.empty());
    const double middle = median(logs);
    double squares = pooled_weight * pooled_spread * pooled_spread;
    for (const double log : logs) {
      const double miss = std::clamp(log - middle, -furthest, furthest);
      squares += miss * miss;
      misses.push_back(std::abs(log - middle));
    }
    const double n = static_cast<double>(logs.size());
    const double factor = std::exp(to_90th * std::sqrt(squares / (pooled_weight + n - 1)));
    int own = 0;
    for (const auto& [state, figures] : plant->states) {
      if (!figures.oil_content) continue;
      ++own;
      const Ten90 range = table_range(plant, state);
      // To the three digits of the table, and the two of its ends.
      CHECK_THAT(before_loss(plant, state, range.typical), WithinRel(std::exp(middle), 0.005));
      CHECK_THAT(range.high / range.typical, WithinRel(factor, 0.04));
      CHECK_THAT(range.typical / range.low, WithinRel(factor, 0.04));
    }
    CHECK(own == 1);  // the other states follow from it, so that none contradicts another
  }
  std::sort(misses.begin(), misses.end());
  const double n = static_cast<double>(misses.size());
  const double plants = static_cast<double>(shipped().plants.size());
  const double eight_in_ten = misses[static_cast<std::size_t>(0.8 * n)];
  CHECK_THAT(eight_in_ten / to_90th * std::sqrt(n / (n - plants)), WithinRel(pooled_spread, 0.02));
}

TEST_CASE("coverage report: published yields against the table's 10 to 90 % ranges",
          "[plants][reference][coverage]") {
  std::map<std::string, std::vector<Yield>> by_plant;
  for (const Yield& y : read_yields()) by_plant[y.plant].push_back(y);

  std::string report = fmt::format("{:22} {:>9} {:>9} {:>9}   {}\n", "plant", "set", "aside",
                                   "median/typ", "outside (published / nearer end of the range)");
  Count set;
  Count aside;
  Count minima;
  for (const auto& [key, plant] : shipped().plants) {
    Count set_here;
    Count aside_here;
    std::vector<double> relative;  // to the table's typical, so that states can be pooled
    double least = 1.0;            // the range's ends relative to typical, widest over the states
    double most = 1.0;
    std::string outside;
    for (const Yield& y : by_plant[key]) {
      const Ten90 range = table_range(plant, y.state);
      if (y.minimum) {
        minima.add(range.typical >= y.low);
        continue;
      }
      const bool in = is_inside(y.middle(), range);
      (y.aside ? aside_here : set_here).add(in);
      relative.push_back(y.middle() / range.typical);
      least = std::min(least, range.low / range.typical);
      most = std::max(most, range.high / range.typical);
      if (!in) {
        const double end = y.middle() < range.low ? range.low : range.high;
        outside += fmt::format(" {}{:.2f}", to_string(y.state).substr(0, 1), y.middle() / end);
      }
    }
    set.inside += set_here.inside;
    set.all += set_here.all;
    aside.inside += aside_here.inside;
    aside.all += aside_here.all;
    const double middle = relative.empty() ? 0.0 : median(relative);
    report +=
        fmt::format("{:22} {:>3} of {:>2} {:>3} of {:>2} {:>9.2f}  {}\n", key, set_here.inside,
                    set_here.all, aside_here.inside, aside_here.all, middle, outside);
    CAPTURE(key, middle, least, most);
    CHECK_FALSE(relative.empty());  // no plant without a published figure
    // No plant whose published median lies outside of its range.
    CHECK(middle >= least);
    CHECK(middle <= most);
  }
  const Count all{set.inside + aside.inside, set.all + aside.all};
  report += fmt::format(
      "inside, over all: {} of {} ({:.0f} %); aside alone: {} of {} ({:.0f} %); "
      "standards' minima passed: {} of {}\n",
      all.inside, all.all, all.share(), aside.inside, aside.all, aside.share(), minima.inside,
      minima.all);
  std::cout << report;

  CHECK(all.all >= 100);
  // Eight in ten, by the meaning of the range; more than nine in ten would be ranges too wide.
  CHECK(all.share() >= 70);
  CHECK(all.share() <= 90);
  // Measured: 73 % of the rows kept aside; a range drawn from some studies is a little narrow for
  // others.
  CHECK(aside.share() >= 70);
  CHECK(aside.all * 3 >= all.all);
  CHECK(minima.inside * 5 >= minima.all * 4);  // pharmacopoeias ask for good material
}
