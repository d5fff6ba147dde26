// Deterministic random draws and random runs for tests.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <deque>
#include <random>
#include <vector>

#include "firstdrop/tables/still.hpp"
#include "physics/run.hpp"
#include "physics/water.hpp"

namespace test_random {

using namespace firstdrop;

/// Draws that are the same with every compiler and standard library.
class Random {
 public:
  explicit Random(std::uint64_t seed) : engine_(seed) {}
  double between(double low, double high) {
    return low + (high - low) * (static_cast<double>(engine_() >> 11U) * 0x1.0p-53);
  }
  /// Uniform on a logarithmic scale.
  double log_uniform(double low, double high) {
    return low * std::pow(high / low, between(0.0, 1.0));
  }
  std::size_t below(std::size_t count) {
    return static_cast<std::size_t>(between(0.0, static_cast<double>(count)));
  }
  bool chance(double p) { return between(0.0, 1.0) < p; }

 private:
  std::mt19937_64 engine_;
};

/// The paces of two to eight plants; they live as long as the program.
inline const std::vector<BlendPace>* blend_paces(Random& random) {
  static std::deque<std::vector<BlendPace>> blends;
  std::vector<BlendPace>& plants = blends.emplace_back(2 + random.below(7));
  double sum = 0.0;
  for (BlendPace& plant : plants) {
    plant = {fraction(random.log_uniform(0.01, 1)), random.log_uniform(0.1, 10)};
    sum += plant.of_oil;
  }
  for (BlendPace& plant : plants) plant.of_oil = fraction(plant.of_oil / sum);
  return &blends.back();
}

/// The values of a run that reaches its first drop, in sizes from bench to farm.
inline RunValues run_values(Random& random, Method method) {
  const bool hydro = method == Method::hydro;
  RunValues v;
  v.boiling = celsius(random.between(82, 102));
  v.latent_heat = latent_heat(v.boiling);
  v.room = celsius(random.between(1, 40));
  v.water_heat = mean_liquid_specific_heat(v.room, v.boiling);
  v.first_fill = kilograms(random.log_uniform(0.4, 60));
  const Mass charge = v.first_fill * random.log_uniform(0.02, 1.0);
  const HeatCapacity of_charge = charge * kilojoules_per_kilogram_kelvin(random.between(1.3, 4.0));
  const HeatCapacity of_metal = joules_per_kelvin(random.log_uniform(50, 1500));
  v.pot_capacity = joules_per_kelvin(random.log_uniform(300, 6000));
  if (hydro) v.pot_capacity += of_charge;
  v.column_capacity = hydro ? of_metal : of_metal + of_charge;
  v.pot_loss = watts_per_kelvin(random.chance(0.1) ? 0.0 : random.log_uniform(0.2, 8));
  v.column_loss = watts_per_kelvin(random.chance(0.1) ? 0.0 : random.log_uniform(0.1, 4));
  const TemperatureDifference rise = v.boiling - v.room;
  const Power lost = (v.pot_loss + v.column_loss) * rise;
  const double per_kilogram = random.log_uniform(30, 900);
  v.heat_boiling = lost + watts(per_kilogram * v.first_fill.si());
  v.heat_warming = random.chance(0.7) ? v.heat_boiling
                                      : lost + (v.heat_boiling - lost) * random.between(0.9, 1.5);
  v.soaked = hydro ? charge * random.between(0.0, 0.5) : grams(0);
  v.hold_up = random.chance(0.1) ? grams(0) : v.first_fill * random.log_uniform(0.001, 0.3);
  v.uncondensed_loss = fraction(random.chance(0.2) ? 0.0 : random.between(0.0, 0.1));
  v.distillate_density = liquid_density(v.room);
  v.oil_recoverable = charge * random.log_uniform(2e-4, 0.05);
  v.charge = charge;
  v.release = release_of_half_life(minutes(random.log_uniform(2, 120)),
                                   fraction(random.chance(0.2) ? 0.0 : random.between(0.0, 1.0)),
                                   fraction(random.log_uniform(0.01, 1)));
  if (random.chance(0.3)) v.release.blend = blend_paces(random);
  v.flow_effect = {fraction(random.chance(0.3) ? 0.0 : random.log_uniform(0.05, 5)),
                   fraction(random.chance(0.5) ? 0.0 : random.log_uniform(0.05, 2)),
                   Rate::from_si(random.log_uniform(0.2, 5) / 3600)};
  v.mixing = fraction(random.chance(0.3) ? double(random.chance(0.5)) : random.between(0.0, 1.0));
  if (random.chance(0.7)) v.oil_per_steam = fraction(random.log_uniform(1e-3, 0.08));
  v.hydrosol_oil = grams_per_litre(random.chance(0.1) ? 0.0 : random.log_uniform(0.05, 2));
  if (random.chance(0.3)) {  // from the kettle, or from a cold spring
    v.fill_excess = rise * random.between(-0.2, 0.95);
    if (random.chance(0.5)) v.pot_excess = v.fill_excess;
  }
  return v;
}

}  // namespace test_random
