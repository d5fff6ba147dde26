// Times each step of a plan with google-benchmark. Each benchmark cycles over the example recipes,
// so the time of a step is the mean over them.
//
//   build/bench/tests/bench/bench_functions [--benchmark_filter=uncertainty]
#include <benchmark/benchmark.h>

#include <cstddef>
#include <string>
#include <vector>

#include "brief_plan.hpp"
#include "examples.hpp"
#include "firstdrop/model/uncertainty.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "model/model_parameters.hpp"
#include "model/outcomes.hpp"
#include "model/parameters_at.hpp"
#include "model/sampling.hpp"
#include "physics/condenser.hpp"
#include "physics/run.hpp"
#include "physics/stop.hpp"
#include "physics/water.hpp"

using namespace firstdrop;
using benchmark::DoNotOptimize;
using Timing = benchmark::State;

namespace {

/// An example, with the results of earlier steps that later steps need.
struct Case {
  Example example;
  ModelParameters parameters;
  Plan plan;
  Decision decision;
  RunValues values;
};

const std::vector<Case>& cases() {
  static const std::vector<Case> all = [] {
    std::vector<Case> made;
    for (const Example& example : examples()) {
      ModelParameters parameters = model_parameters(example.recipe, shipped_tables());
      Plan plan = make_plan(example.recipe, shipped_tables());
      const Density water = parameters.fill_density;
      const Decision decision{plan.charge.mass, plan.run->water.first_fill * water,
                              plan.run->water.reserve * water, plan.run->stop};
      const RunValues values =
          run_values_at(parameters, SamplePoint::medians(), decision.charge, decision.first_fill);
      made.push_back({example, std::move(parameters), std::move(plan), decision, values});
    }
    return made;
  }();
  return all;
}

/// Times `step(case)` over all examples in turn.
template <class Step>
void over_examples(Timing& state, Step step) {
  const std::vector<Case>& all = cases();
  std::size_t next = 0;
  for (auto _ : state) {
    DoNotOptimize(step(all[next]));
    next = next + 1 == all.size() ? 0 : next + 1;
  }
}

void tables_whole(Timing& state) {
  for (auto _ : state) DoNotOptimize(read_tables(embedded_table_texts()));
}

void tables_one_plant(Timing& state) {
  const TablePart part = named_in_recipe(cases().front().example.text);
  for (auto _ : state) DoNotOptimize(read_tables(embedded_table_texts(), part));
}

void read_a_recipe(Timing& state) {
  over_examples(state, [](const Case& one) {
    return read_recipe(one.example.text, one.example.name, shipped_tables(), {});
  });
}

void parameters_of(Timing& state) {
  over_examples(state, [](const Case& one) {
    return model_parameters(one.example.recipe, shipped_tables());
  });
}

void plan_brief(Timing& state) {
  over_examples(state,
                [](const Case& one) { return brief_plan(one.example.recipe, shipped_tables()); });
}

void plan_whole(Timing& state) {
  over_examples(state,
                [](const Case& one) { return make_plan(one.example.recipe, shipped_tables()); });
}

void plan_to_json(Timing& state) {
  over_examples(state, [](const Case& one) { return plan_json(one.plan); });
}

void plan_to_csv(Timing& state) {
  over_examples(state, [](const Case& one) { return timeline_csv(one.plan); });
}

// An item is one evaluation of the model: one sample, from its sample point to all its outcomes.
void uncertainty(Timing& state) {
  const int samples = static_cast<int>(state.range(0));
  over_examples(state, [&](const Case& one) {
    return uncertainty_of(one.parameters, shipped_tables().design_defaults, one.decision, {},
                          samples);
  });
  state.SetItemsProcessed(state.iterations() * samples);
}

void values_at_a_point(Timing& state) {
  over_examples(state, [](const Case& one) {
    return run_values_at(one.parameters, SamplePoint::medians(), one.decision.charge,
                         one.decision.first_fill);
  });
}

void run_in_closed_form(Timing& state) {
  over_examples(state, [](const Case& one) {
    const Run run(one.values);
    const Duration stop = stop_time(run, one.decision.stop);
    return run.oil_in_receiver_at(stop).si() + run.time_until_left(one.decision.reserve).si();
  });
}

void place_of_a_sample(Timing& state) {
  const SamplePoints points(1);
  std::uint64_t index = 0;
  for (auto _ : state) DoNotOptimize(points[index++]);
}

// Times a property of water at a value that the compiler can't know in advance.
template <class Property>
void of_water(Timing& state, double value, Property property) {
  for (auto _ : state) {
    DoNotOptimize(value);
    DoNotOptimize(property(value));
  }
}

}  // namespace

BENCHMARK(tables_whole);
BENCHMARK(tables_one_plant);
BENCHMARK(read_a_recipe);
BENCHMARK(parameters_of);
BENCHMARK(plan_brief);
BENCHMARK(plan_whole);
BENCHMARK(plan_to_json);
BENCHMARK(plan_to_csv);
BENCHMARK(uncertainty)->RangeMultiplier(4)->Range(64, 65536);
BENCHMARK(values_at_a_point);
BENCHMARK(run_in_closed_form);
BENCHMARK(place_of_a_sample);
BENCHMARK_CAPTURE(of_water, saturation_temperature, 95e3,
                  [](double p) { return saturation_temperature(pascals(p)); });
BENCHMARK_CAPTURE(of_water, saturation_pressure, 98.0,
                  [](double t) { return saturation_pressure(celsius(t)); });
BENCHMARK_CAPTURE(of_water, latent_heat, 98.0, [](double t) { return latent_heat(celsius(t)); });
BENCHMARK_CAPTURE(of_water, liquid_density, 20.0,
                  [](double t) { return liquid_density(celsius(t)); });

BENCHMARK_MAIN();
