// Does the peers' task with the library: computes the nominal run of each recipe from the same
// table of values.
//
//   bench_typical_runs VALUES.csv > results.csv
//
// bench_recipes writes VALUES.csv. Both tables are in SI units, and 0 stands for none.
#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <iterator>
#include <stdexcept>
#include <string>

#include "physics/run.hpp"
#include "physics/stop.hpp"

using namespace firstdrop;

namespace {

constexpr std::size_t columns = 26;

struct Row {
  RunValues values;
  SpecificEnergy condensing_heat;
  Mass reserve;
  Stop stop;
};

std::array<double, columns> numbers_in(const std::string& line) {
  std::array<double, columns> numbers{};
  const char* at = line.data();
  const char* const end = at + line.size();
  for (double& number : numbers) {
    const auto [rest, fault] = std::from_chars(at, end, number);
    if (fault != std::errc()) throw std::runtime_error("no row of values: " + line);
    at = rest == end ? rest : rest + 1;
  }
  return numbers;
}

// Reads the values in the order in which bench_recipes writes them.
Row row_in(const std::string& line) {
  const std::array<double, columns> numbers = numbers_in(line);
  const double* next = numbers.data();
  Row row;
  RunValues& v = row.values;
  v.boiling = Temperature::from_kelvin(*next++);
  v.latent_heat = SpecificEnergy::from_si(*next++);
  v.room = Temperature::from_kelvin(*next++);
  v.water_heat = SpecificHeat::from_si(*next++);
  v.first_fill = kilograms(*next++);
  v.pot_capacity = joules_per_kelvin(*next++);
  v.pot_loss = watts_per_kelvin(*next++);
  v.heat_warming = watts(*next++);
  v.heat_boiling = watts(*next++);
  v.column_capacity = joules_per_kelvin(*next++);
  v.column_loss = watts_per_kelvin(*next++);
  v.soaked = kilograms(*next++);
  v.hold_up = kilograms(*next++);
  v.uncondensed_loss = fraction(*next++);
  v.distillate_density = kilograms_per_cubic_metre(*next++);
  v.oil_recoverable = kilograms(*next++);
  v.release.fast = fraction(*next++);
  v.release.fast_rate = Rate::from_si(*next++);
  v.release.slow_rate = Rate::from_si(*next++);
  v.flow_effect.reference = Rate::from_si(1);  // the rates already hold at the run's flow
  v.charge = kilograms(1);
  if (const double bound = *next++; bound > 0.0) v.oil_per_steam = fraction(bound);
  v.hydrosol_oil = kilograms_per_cubic_metre(*next++);
  v.mixing = fraction(*next++);
  row.condensing_heat = SpecificEnergy::from_si(*next++);
  row.reserve = kilograms(*next++);
  if (const double level = *next++; level > 0.0) row.stop.hydrosol = cubic_metres(level);
  if (const double clock = *next++; clock > 0.0) row.stop.clock = seconds(clock);
  return row;
}

void append_results(fmt::memory_buffer& text, const Row& row) {
  const Run run(row.values);
  if (run.failure()) throw std::runtime_error("no run");
  const Duration stop = stop_time(run, row.stop);
  const WaterBalance water = run.water_at(stop);
  fmt::format_to(std::back_inserter(text), "{},{},{},{},{},{},{},{},{},{},{},{},{},{}\n",
                 run.boil().si(), run.first_drop().si(), stop.si(),
                 run.time_until_left(row.reserve).si(), run.time_until_left(grams(0)).si(),
                 run.distillate_rate().si(), water.distilled.si(), water.uncondensed.si(),
                 water.held.si(), water.left.si(), run.oil_vaporised_at(stop).si(),
                 run.oil_in_receiver_at(stop).si(), run.energy_at(stop).put_in.si(),
                 (run.vapour() * row.condensing_heat).si());
}

}  // namespace

int main(int argc, char** argv) try {
  std::ifstream file(argc == 2 ? argv[1] : "");
  std::string line;
  if (!std::getline(file, line)) throw std::runtime_error("wanted VALUES.csv");
  fmt::print(
      "boil_s,first_drop_s,stop_s,reserve_s,dry_s,distillate_m3_per_s,distilled_kg,vented_kg,"
      "held_kg,left_kg,oil_vaporised_kg,oil_in_receiver_kg,heat_put_in_j,duty_w\n");
  fmt::memory_buffer text;
  while (std::getline(file, line)) {
    text.clear();
    append_results(text, row_in(line));
    std::fwrite(text.data(), 1, text.size(), stdout);
  }
  return 0;
} catch (const std::exception& error) {
  std::cerr << "bench_typical_runs: " << error.what() << '\n';
  return 1;
}
