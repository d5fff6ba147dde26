// Times one plan, in process, as the number of samples, timeline points or marks grows. Each
// process measures one size, so its peak memory belongs to that size. tests/bench/growth calls it
// and makes the table.
//
//   bench_growth samples COUNT     a plan of an example with COUNT samples
//   bench_growth points COUNT      a plan with at least COUNT timeline points, if it can have them
//   bench_growth marks COUNT       the uncertainty at COUNT moments of a run, by default_samples
//
// Prints the number of samples, points or marks, and the median time in microseconds.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <iostream>
#include <stdexcept>
#include <string>
#include <vector>

#include "examples.hpp"
#include "firstdrop/model/uncertainty.hpp"
#include "firstdrop/plan/planner.hpp"
#include "model/model_parameters.hpp"
#include "model/outcomes.hpp"
#include "physics/condenser.hpp"
#include "physics/run.hpp"

using namespace firstdrop;

namespace {

using Clock = std::chrono::steady_clock;

/// Median time of `work`, repeated at least five times and for at least half a second.
template <class Work>
double median_microseconds(Work work) {
  std::vector<double> times;
  const auto start = Clock::now();
  while (times.size() < 5 || Clock::now() - start < std::chrono::milliseconds(500)) {
    const auto begin = Clock::now();
    work();
    times.push_back(std::chrono::duration<double, std::micro>(Clock::now() - begin).count());
  }
  std::sort(times.begin(), times.end());
  return times[times.size() / 2];
}

Recipe recipe_named(const std::string& name) {
  for (const Example& example : examples()) {
    if (example.name == name) return example.recipe;
  }
  throw std::runtime_error("no example " + name);
}

// `size` is the size reached, which may differ from the size asked for.
void print(std::size_t size, double time) {
  fmt::print("{} {:.1f}\n", size, time);
}

// Results are stored here, so that the compiler can't leave out the work.
volatile std::size_t sink;

void with_samples(int count) {
  const Recipe recipe = recipe_named("hedge-lavender");
  const Tables& tables = shipped_tables();
  print(static_cast<std::size_t>(count),
        median_microseconds([&] { sink = make_plan(recipe, tables, count).findings.size(); }));
}

// Uses a plan with ice. Each change of ice adds two timeline points, and each change of receiver
// adds one. Too many changes of ice aren't listed, so COUNT may not be reached.
Recipe recipe_with_points(int count) {
  const Tables& tables = shipped_tables();
  Recipe recipe = recipe_named("window-sill-peppermint");
  const Plan plan = make_plan(recipe, tables, 1);
  const Volume hydrosol = *plan.run->stop.hydrosol;
  Mass ice = recipe.still->condenser.ice_per_change->typical();
  for (int changes = 0; changes <= tables.design_defaults.counts.most_receivers; ++changes) {
    recipe.receiver_volume = hydrosol / (changes + 0.5);
    const auto planned = [&] {
      recipe.still.change().condenser.ice_per_change->range = Range<Mass>::exactly(ice);
      return *make_plan(recipe, tables, 1).run;
    };
    while (planned().cooling.ice_changes.size() < static_cast<std::size_t>(changes) &&
           ice > least_ice) {
      ice = ice * 0.97;
    }
    if (planned().timeline.size() >= static_cast<std::size_t>(count)) break;
  }
  return recipe;
}

void with_points(int count) {
  const Recipe recipe = recipe_with_points(count);
  const Tables& tables = shipped_tables();
  std::size_t points = 0;
  const double time = median_microseconds([&] {
    points = make_plan(recipe, tables).run->timeline.size();
    sink = points;
  });
  print(points, time);
}

void with_marks(int count) {
  const Recipe recipe = recipe_named("hedge-lavender");
  const Tables& tables = shipped_tables();
  const ModelParameters parameters = model_parameters(recipe, tables);
  const RunPlan plan = *make_plan(recipe, tables, 1).run;
  const Mass charge = make_plan(recipe, tables, 1).charge.mass;
  const Decision decision{charge, plan.water.first_fill * parameters.fill_density,
                          plan.water.reserve * parameters.fill_density, plan.stop};
  std::vector<Mark> marks;
  for (int i = 1; i <= count; ++i) {
    const double share = double(i) / count;
    marks.push_back({*plan.stop.hydrosol * share,
                     plan.times.first_drop + (plan.times.stop - plan.times.first_drop) * share,
                     true});
  }
  print(marks.size(), median_microseconds([&] {
          sink = uncertainty_of(parameters, tables.design_defaults, decision, {}, default_samples,
                                marks)
                     .oil_course.size();
        }));
}

}  // namespace

int main(int argc, char** argv) try {
  const std::string what = argc == 3 ? argv[1] : "";
  const int count = argc == 3 ? std::stoi(argv[2]) : 0;
  if (what == "samples" && count > 0) {
    with_samples(count);
  } else if (what == "points" && count >= 0) {
    with_points(count);
  } else if (what == "marks" && count >= 0) {
    with_marks(count);
  } else {
    std::cerr << "bench_growth samples|points|marks COUNT\n";
    return 2;
  }
  return 0;
} catch (const std::exception& error) {
  std::cerr << "bench_growth: " << error.what() << '\n';
  return 1;
}
