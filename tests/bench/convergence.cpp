// Shows how fast percentiles converge with different sequences of sample points. sampling.hpp
// chooses its sequence by this comparison.
//
//   build/tests/tests/bench/convergence
//
// It uses the first 24 plans of some plants on the shipped stills. It takes P10, P50 and P90 of
// five outcomes, and one chance. It compares them with those of 131,072 points of a Sobol sequence
// that is shifted differently. It prints root mean square errors: of the percentiles in per cent of
// the range from P10 to P90, and of the chance in percentage points. Then it prints the time per
// sample.
#include <fmt/format.h>
#include <gsl/gsl_qrng.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <functional>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "firstdrop/plan/planner.hpp"
#include "model/model_parameters.hpp"
#include "model/outcomes.hpp"
#include "model/parameters_at.hpp"
#include "model/sampling.hpp"
#include "physics/stop.hpp"
#include "test_tables.hpp"

using namespace firstdrop;

namespace {

using Coordinates = std::array<double, parameter_count>;
using Sequence = std::function<std::vector<Coordinates>(int count, std::uint64_t seed)>;

Coordinates shift_of(std::uint64_t seed) {
  std::mt19937_64 engine(seed);
  std::uniform_real_distribution<double> even(0.0, 1.0);
  Coordinates shift{};
  for (double& s : shift) s = even(engine);
  return shift;
}

std::vector<Coordinates> independent(int count, std::uint64_t seed) {
  std::mt19937_64 engine(seed);
  std::uniform_real_distribution<double> even(0.0, 1.0);
  std::vector<Coordinates> places(static_cast<std::size_t>(count));
  for (Coordinates& place : places) {
    for (double& p : place) p = even(engine);
  }
  return places;
}

std::vector<Coordinates> latin_hypercube(int count, std::uint64_t seed) {
  std::mt19937_64 engine(seed);
  std::uniform_real_distribution<double> even(0.0, 1.0);
  std::vector<Coordinates> places(static_cast<std::size_t>(count));
  std::vector<int> order(places.size());
  for (std::size_t input = 0; input < parameter_count; ++input) {
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = static_cast<int>(i);
    std::shuffle(order.begin(), order.end(), engine);
    for (std::size_t i = 0; i < order.size(); ++i) {
      places[i].at(input) = (order[i] + even(engine)) / count;
    }
  }
  return places;
}

// Additive recurrence with step r^-i in dimension i, where r is the root of x^(d+1) = x + 1 and d
// is the number of parameters.
std::vector<Coordinates> additive_recurrence(int count, std::uint64_t seed) {
  double ratio = 1.5;
  for (int i = 0; i < 60; ++i) ratio = std::pow(1.0 + ratio, 1.0 / (parameter_count + 1.0));
  Coordinates at = shift_of(seed);
  std::vector<Coordinates> places;
  for (int i = 0; i < count; ++i) {
    double step = 1.0;
    for (double& p : at) {
      step /= ratio;
      p += step;
      p -= std::floor(p);
    }
    places.push_back(at);
  }
  return places;
}

std::vector<Coordinates> ours(int count, std::uint64_t seed) {
  const SamplePoints points(seed);
  std::vector<Coordinates> places(static_cast<std::size_t>(count));
  for (std::size_t i = 0; i < places.size(); ++i) {
    const SamplePoint point = points[i];
    for (std::size_t input = 0; input < parameter_count; ++input) {
      places[i].at(input) = point[static_cast<Parameter>(input)];
    }
  }
  return places;
}

std::vector<Coordinates> sobol(int count, std::uint64_t seed) {
  gsl_qrng* sequence = gsl_qrng_alloc(gsl_qrng_sobol, parameter_count);
  const Coordinates shift = shift_of(seed);
  std::vector<Coordinates> places(static_cast<std::size_t>(count));
  for (Coordinates& place : places) {
    gsl_qrng_get(sequence, place.data());
    for (std::size_t input = 0; input < parameter_count; ++input) {
      place.at(input) += shift.at(input);
      place.at(input) -= std::floor(place.at(input));
    }
  }
  gsl_qrng_free(sequence);
  return places;
}

constexpr std::size_t outcomes = 5;

struct Result {
  std::array<std::array<double, 3>, outcomes> percentiles{};
  double chance = 0.0;
};

struct Case {
  ModelParameters parameters;
  Decision decision;
  Mass wanted;  ///< oil in the receiver that counts as success
};

std::array<double, 3> percentiles_of(std::vector<double>& values) {
  if (values.empty()) return {};
  std::sort(values.begin(), values.end());
  const auto at = [&](double p) {
    const double place = p * static_cast<double>(values.size() - 1);
    const auto below = static_cast<std::size_t>(place);
    const std::size_t above = std::min(below + 1, values.size() - 1);
    return values[below] + (values[above] - values[below]) * (place - std::floor(place));
  };
  return {at(0.1), at(0.5), at(0.9)};
}

Result run(const Case& one, const std::vector<Coordinates>& places) {
  std::array<std::vector<double>, outcomes> values;
  int met = 0;
  for (const Coordinates& place : places) {
    SamplePoint point = SamplePoint::medians();
    for (std::size_t i = 0; i < parameter_count; ++i)
      point.set(static_cast<Parameter>(i), place.at(i));
    const Run sample(
        run_values_at(one.parameters, point, one.decision.charge, one.decision.first_fill));
    if (sample.failure()) {
      values[0].push_back(0.0);
      values[1].push_back(0.0);
      continue;
    }
    const Duration stop = stop_time(sample, one.decision.stop);
    const Mass separated = sample.oil_in_receiver_at(stop);
    values[0].push_back(separated.si());
    values[1].push_back(sample.oil_vaporised_at(stop).si());
    values[2].push_back(sample.first_drop().si());
    values[3].push_back(stop.si());
    values[4].push_back((sample.time_until_left(one.decision.reserve) - stop).si());
    if (separated >= one.wanted) ++met;
  }
  Result result;
  for (std::size_t i = 0; i < outcomes; ++i)
    result.percentiles.at(i) = percentiles_of(values.at(i));
  result.chance = static_cast<double>(met) / static_cast<double>(places.size());
  return result;
}

std::vector<Case> cases() {
  const Tables& tables = shipped_tables();
  std::vector<Case> all;
  for (Recipe& recipe :
       plain_recipes({"lavender", "rosemary", "rose", "clove-bud", "eucalyptus", "vetiver-root"})) {
    recipe.goal = HydrosolGoal{recipe.still->pot.volume.typical() * 0.2};
    const Plan plan = make_plan(recipe, tables);
    if (!plan.run || all.size() >= 24) continue;
    Case one{model_parameters(recipe, tables), {}, plan.run->uncertainty.oil_in_receiver.typical};
    const Density water = one.parameters.fill_density;
    one.decision = {plan.charge.mass, plan.run->water.first_fill * water,
                    plan.run->water.reserve * water, plan.run->stop};
    all.push_back(std::move(one));
  }
  return all;
}

double root_mean_square(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double value : values) sum += value * value;
  return std::sqrt(sum / static_cast<double>(values.size()));
}

}  // namespace

int main() {
  const std::vector<Case> all = cases();
  const std::vector<Coordinates> many = sobol(1 << 17, 99);
  std::vector<Result> exact;
  for (const Case& one : all) exact.push_back(run(one, many));

  const std::vector<std::pair<std::string, Sequence>> sequences = {
      {"independent", independent},
      {"Latin hypercube", latin_hypercube},
      {"additive recurrence", additive_recurrence},
      {"Halton (ours)", ours},
      {"Sobol", sobol}};
  const std::vector<int> counts = {64, 128, 256, 512, 1024, 2048, 4096, 8192};
  fmt::print("{} plans, 8 shifts: percentiles (% of their range) / chance (points)\n", all.size());
  fmt::print("{:<20}", "samples");
  for (const int count : counts) fmt::print("{:>12}", count);
  fmt::print("\n");
  for (const auto& [name, sequence] : sequences) {
    fmt::print("{:<20}", name);
    for (const int count : counts) {
      std::vector<double> ranges;
      std::vector<double> chances;
      for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        const std::vector<Coordinates> places = sequence(count, seed);
        for (std::size_t c = 0; c < all.size(); ++c) {
          const Result got = run(all[c], places);
          for (std::size_t i = 0; i < outcomes; ++i) {
            const auto& reference = exact[c].percentiles.at(i);
            const double width = reference[2] - reference[0];
            if (width <= 0.0) continue;
            for (std::size_t p = 0; p < 3; ++p) {
              ranges.push_back(100.0 * (got.percentiles.at(i)[p] - reference[p]) / width);
            }
          }
          chances.push_back(100.0 * (got.chance - exact[c].chance));
        }
      }
      fmt::print("{:>12}",
                 fmt::format("{:.1f}/{:.1f}", root_mean_square(ranges), root_mean_square(chances)));
    }
    fmt::print("\n");
  }

  const std::vector<Coordinates> places = ours(1 << 16, 1);
  const auto begin = std::chrono::steady_clock::now();
  run(all.front(), places);
  const auto end = std::chrono::steady_clock::now();
  fmt::print("{:.0f} ns a sample\n", std::chrono::duration<double, std::nano>(end - begin).count() /
                                         static_cast<double>(places.size()));
}
