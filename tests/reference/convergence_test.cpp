// How many samples are enough. For several numbers of samples, prints the errors of every range, of
// the chance and of the sensitivities. The reference is the same plan with very many samples.
// Checks the errors at the default number of samples.
//
// The environment variable FIRSTDROP_CONVERGENCE_SAMPLES sets the number of samples of the
// reference.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/plan/planner.hpp"
#include "model/model_parameters.hpp"
#include "model/outcomes.hpp"
#include "model/parameters_at.hpp"
#include "model/ranged_outputs.hpp"
#include "test_tables.hpp"

using namespace firstdrop;

namespace {

int long_run() {
  const char* wanted = std::getenv("FIRSTDROP_CONVERGENCE_SAMPLES");
  return wanted ? std::max(1024, std::atoi(wanted)) : 1 << 15;
}

struct Case {
  ModelParameters parameters;
  Decision decision;
  GoalOfRun goal;
};

/// Plans for every shipped still and method, with plants that release their oil in different ways.
std::vector<Case> cases() {
  const Tables& tables = shipped_tables();
  std::vector<Case> all;
  for (Recipe& recipe : plain_recipes({"lavender", "clove-bud"})) {
    recipe.site.coolant = celsius(12);
    recipe.goal = HydrosolGoal{recipe.still->pot.volume.typical() * 0.1};
    const Plan plan = make_plan(recipe, tables, 256);
    if (!plan.run) continue;
    Case one{model_parameters(recipe, tables), {}, {}};
    const Density water = one.parameters.fill_density;
    one.decision = {plan.charge.mass, plan.run->water.first_fill * water,
                    plan.run->water.reserve * water, plan.run->stop};
    // The chance of a goal that is met about half the time is the hardest to estimate.
    one.goal.oil = plan.run->uncertainty.oil_in_receiver.typical;
    if (*one.goal.oil <= grams(0)) {
      one.goal.oil.reset();
      one.goal.oil_share = percent(50);
    }
    all.push_back(std::move(one));
  }
  return all;
}

Uncertainty uncertainty(const Case& one, int samples) {
  return uncertainty_of(one.parameters, shipped_tables().design_defaults, one.decision, one.goal,
                        samples, {}, CoolingRule{});
}

/// P10, P50 and P90 of every outcome. The errors are measured relative to P90 - P10.
std::vector<std::pair<std::string, std::array<double, 3>>> percentiles(const Uncertainty& s) {
  std::vector<std::pair<std::string, std::array<double, 3>>> all;
  const auto add = [&](const std::string& name, double low, double typical, double high) {
    all.push_back({name, {low, typical, high}});
  };
  for_each_range(s, [&](const auto& outcome, const auto& range) {
    const auto in_unit = outcome.unit.number;
    add(outcome.key, in_unit(range.low), in_unit(range.typical), in_unit(range.high));
  });
  const auto plain = [&](const char* name, const auto& range) {
    add(name, range.low.si(), range.typical.si(), range.high.si());
  };
  plain("oil in charge", s.oil_in_charge);
  plain("oil vaporised", s.oil_vaporised);
  plain("oil in receiver", s.oil_in_receiver);
  plain("oil dissolved", s.oil_dissolved);
  plain("oil volume", s.oil_volume);
  plain("oil share", s.oil_share);
  return all;
}

double root_mean_square(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double value : values) sum += value * value;
  return std::sqrt(sum / static_cast<double>(values.size()));
}

struct Errors {
  std::vector<double> ranges;  ///< of each percentile, relative to P90 - P10
  std::vector<double> chance;  ///< of the chance of the goal, in percentage points
  std::vector<double> shares;  ///< of the first-order sensitivities, in percentage points
};

void compare_shares(const Sensitivities& got, const Sensitivities& exact,
                    std::vector<double>& errors) {
  std::map<Parameter, double> difference;
  for (const Sensitivity& one : got) difference[one.parameter] += in_percent(one.share);
  for (const Sensitivity& one : exact) difference[one.parameter] -= in_percent(one.share);
  for (const auto& [input, error] : difference) errors.push_back(error);
}

}  // namespace

TEST_CASE("the default number of samples is enough", "[convergence]") {
  const std::vector<Case> all = cases();
  REQUIRE(all.size() >= 12);
  std::vector<Uncertainty> exact;
  for (Case one : all) {
    one.parameters.recipe.seed = 20260620;
    exact.push_back(uncertainty(one, long_run()));
  }
  std::map<int, Errors> by_samples;
  for (const int samples : {64, 128, 256, 512, 1024, 1280, 2048, 4096}) {
    Errors& errors = by_samples[samples];
    for (const std::uint64_t seed : {1U, 2U, 3U, 4U}) {
      for (std::size_t i = 0; i < all.size(); ++i) {
        Case one = all[i];
        one.parameters.recipe.seed = seed;
        const Uncertainty got = uncertainty(one, samples);
        const auto a = percentiles(got);
        const auto b = percentiles(exact[i]);
        REQUIRE(a.size() == b.size());
        for (std::size_t k = 0; k < a.size(); ++k) {
          REQUIRE(a[k].first == b[k].first);
          const double width = b[k].second[2] - b[k].second[0];
          // Skip outcomes that hardly vary.
          if (width <= 1e-6 * std::abs(b[k].second[1])) continue;
          for (std::size_t p = 0; p < 3; ++p) {
            errors.ranges.push_back((a[k].second[p] - b[k].second[p]) / width);
          }
        }
        errors.chance.push_back(in_percent(*got.chance_of_goal) -
                                in_percent(*exact[i].chance_of_goal));
        compare_shares(got.oil_from, exact[i].oil_from, errors.shares);
        compare_shares(got.time_from, exact[i].time_from, errors.shares);
        compare_shares(got.reserve_from, exact[i].reserve_from, errors.shares);
      }
    }
  }
  fmt::print("against {} samples, {} plans, 4 seeds; root mean square and largest error\n",
             long_run(), all.size());
  fmt::print("{:>8} {:>20} {:>20} {:>20}\n", "samples", "percentiles, % of", "chance of the",
             "variance shares,");
  fmt::print("{:>8} {:>20} {:>20} {:>20}\n", "", "the 10-90 range", "goal, points", "points");
  const auto largest = [](const std::vector<double>& values) {
    double most = 0.0;
    for (const double value : values) most = std::max(most, std::abs(value));
    return most;
  };
  for (const auto& [samples, errors] : by_samples) {
    fmt::print("{:>8} {:>12.2f} {:>7.1f} {:>12.2f} {:>7.1f} {:>12.2f} {:>7.1f}\n", samples,
               100.0 * root_mean_square(errors.ranges), 100.0 * largest(errors.ranges),
               root_mean_square(errors.chance), largest(errors.chance),
               root_mean_square(errors.shares), largest(errors.shares));
  }
  const Errors& at_default = by_samples.at(default_samples);
  CHECK(at_default.ranges.size() > 1000);
  // What uncertainty.hpp states for default_samples, with some margin. It is precise enough for a
  // page that is rounded to two digits.
  CHECK(root_mean_square(at_default.ranges) < 0.015);
  CHECK(root_mean_square(at_default.chance) < 0.75);
  CHECK(root_mean_square(at_default.shares) < 2.5);
  // The error must be smaller than with independent draws. Theirs is sqrt(p (1 - p) / n) in
  // probability: 0.94 (p = 0.1) and 1.56 per cent (p = 0.5) with 1024 samples.
  CHECK(root_mean_square(at_default.chance) < 1.56 / 2.0);
  // The error keeps falling with more samples.
  CHECK(root_mean_square(by_samples.at(4096).ranges) <
        0.6 * root_mean_square(by_samples.at(512).ranges));
}
