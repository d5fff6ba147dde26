// Writes recipes as JSON Lines, and on request the values of each one's nominal run for the peers.
//
//   bench_recipes COUNT > recipes.jsonl
//   bench_recipes COUNT VALUES.csv EXPECTED.csv > recipes.jsonl
//
// The first form writes COUNT random recipes. The second form writes only recipes whose plan isn't
// refused, COUNT of them. VALUES.csv then holds the values of each nominal run, including what the
// plan decided (charge, fill and stop). EXPECTED.csv holds what firstdrop computes for that run.
// Both tables are in SI units, and 0 stands for none.
#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <fstream>
#include <iostream>
#include <stdexcept>
#include <string>
#include <vector>

#include "brief_plan.hpp"
#include "firstdrop/plan/plan.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "model/cold_side.hpp"
#include "model/model_parameters.hpp"
#include "model/parameters_at.hpp"
#include "physics/condenser.hpp"
#include "some_recipes.hpp"

using namespace firstdrop;

namespace {

struct Cell {
  const char* name;
  double value;
};

void write_row(std::ofstream& file, const std::vector<Cell>& row, bool with_names) {
  std::string names;
  std::string numbers;
  for (const Cell& cell : row) {
    const char* comma = numbers.empty() ? "" : ",";
    names += comma + std::string(cell.name);
    // {} gives the shortest text that reads back as the same number.
    numbers += comma + fmt::format("{}", cell.value);
  }
  if (with_names) file << names << '\n';
  file << numbers << '\n';
}

std::vector<Cell> values_of(const Run& run, const ModelParameters& parameters,
                            const ColdSide& cold_side, const RunPlan& plan) {
  const RunValues& v = run.values();
  const Release& release = run.release();
  return {
      {"boiling_k", v.boiling.kelvin()},
      {"latent_heat_j_per_kg", v.latent_heat.si()},
      {"room_k", v.room.kelvin()},
      {"water_heat_j_per_kg_k", v.water_heat.si()},
      {"first_fill_kg", v.first_fill.si()},
      {"pot_capacity_j_per_k", v.pot_capacity.si()},
      {"pot_loss_w_per_k", v.pot_loss.si()},
      {"heat_warming_w", v.heat_warming.si()},
      {"heat_boiling_w", v.heat_boiling.si()},
      {"column_capacity_j_per_k", v.column_capacity.si()},
      {"column_loss_w_per_k", v.column_loss.si()},
      {"soaked_kg", v.soaked.si()},
      {"hold_up_kg", v.hold_up.si()},
      {"uncondensed_loss", double(v.uncondensed_loss)},
      {"distillate_density_kg_per_m3", v.distillate_density.si()},
      {"oil_recoverable_kg", v.oil_recoverable.si()},
      {"fast_share", double(release.fast)},
      {"fast_rate_per_s", release.fast_rate.si()},
      {"slow_rate_per_s", release.slow_rate.si()},
      {"oil_per_steam", v.oil_per_steam ? double(*v.oil_per_steam) : 0.0},
      {"hydrosol_oil_kg_per_m3", v.hydrosol_oil.si()},
      {"mixing", double(v.mixing)},
      {"condensing_heat_j_per_kg", condensing_heat(v.boiling, cold_side.outlet()).total().si()},
      {"reserve_kg", (plan.water.reserve * parameters.fill_density).si()},
      {"stop_hydrosol_m3", plan.stop.hydrosol ? plan.stop.hydrosol->si() : 0.0},
      {"stop_clock_s", plan.stop.clock ? plan.stop.clock->si() : 0.0},
  };
}

std::vector<Cell> expected_of(const Run& run, const ModelParameters& parameters,
                              const RunPlan& plan) {
  const Duration stop = plan.times.stop;
  const auto mass = [&](Volume water) { return (water * parameters.fill_density).si(); };
  return {
      {"boil_s", plan.times.boil.si()},
      {"first_drop_s", plan.times.first_drop.si()},
      {"stop_s", stop.si()},
      {"reserve_s", plan.times.reserve.si()},
      {"dry_s", plan.times.dry.si()},
      {"distillate_m3_per_s", plan.rates.distillate.si()},
      {"distilled_kg", mass(plan.water.distilled)},
      {"vented_kg", mass(plan.water.uncondensed)},
      {"held_kg", mass(plan.water.held)},
      {"left_kg", mass(plan.water.left_at_stop)},
      {"oil_vaporised_kg", run.oil_vaporised_at(stop).si()},
      {"oil_in_receiver_kg", run.oil_in_receiver_at(stop).si()},
      {"heat_put_in_j", run.energy_at(stop).put_in.si()},
      {"duty_w", plan.cooling.duty.si()},
  };
}

// Checks that `run`, which gives the expected oil and energy, is the run that the plan describes.
// Throws std::runtime_error if it isn't.
void must_be_of(const Run& run, const RunPlan& plan) {
  const double off = std::abs(run.time_until_left(grams(0)) / plan.times.dry - 1.0);
  if (off < 1e-12) return;
  throw std::runtime_error("the typical run is not the plan's");
}

void write_lines(std::uint64_t count, const Tables& tables) {
  for (std::uint64_t number = 1; number <= count; ++number) {
    std::cout << some_recipe(number, tables) << '\n';
  }
}

void write_lines_and_tables(std::uint64_t count, const Tables& tables, const char* values_file,
                            const char* expected_file) {
  std::ofstream values(values_file);
  std::ofstream expected(expected_file);
  std::uint64_t kept = 0;
  std::uint64_t looked_at = 0;
  while (kept < count) {
    const std::uint64_t number = ++looked_at;
    const std::string line = some_recipe(number, tables);
    const Recipe recipe = read_recipe(line, "recipe " + std::to_string(number), tables, {});
    const Plan plan = brief_plan(recipe, tables);
    if (!plan.may_be_run()) continue;
    const ModelParameters parameters = model_parameters(recipe, tables);
    const Run run(run_values_at(parameters, SamplePoint::medians(), plan.charge.mass,
                                plan.run->water.first_fill * parameters.fill_density));
    must_be_of(run, *plan.run);
    const ColdSide cold_side(parameters, tables.design_defaults);
    write_row(values, values_of(run, parameters, cold_side, *plan.run), kept == 0);
    write_row(expected, expected_of(run, parameters, *plan.run), kept == 0);
    std::cout << line << '\n';
    ++kept;
  }
  if (!values.flush() || !expected.flush()) throw std::runtime_error("cannot write the tables");
  std::cerr << kept << " of " << looked_at << " recipes may be run\n";
}

}  // namespace

int main(int argc, char** argv) try {
  if (argc != 2 && argc != 4) {
    std::cerr << "bench_recipes COUNT [VALUES.csv EXPECTED.csv]\n";
    return 2;
  }
  std::ios::sync_with_stdio(false);
  const Tables tables = read_tables(embedded_table_texts());
  const std::uint64_t count = std::stoull(argv[1]);
  if (argc == 2) {
    write_lines(count, tables);
  } else {
    write_lines_and_tables(count, tables, argv[2], argv[3]);
  }
  std::cout.flush();
  return std::cout ? 0 : 3;
} catch (const std::exception& error) {
  std::cerr << "bench_recipes: " << error.what() << '\n';
  return 1;
}
