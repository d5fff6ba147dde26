#include "some_recipes.hpp"

#include <fmt/format.h>

#include <cstddef>
#include <iterator>

#include "model/parameters_at.hpp"
#include "test_random.hpp"

using namespace firstdrop;

namespace {

using test_random::Random;

template <class All>
const auto& any_of(Random& random, const All& all) {
  return *std::next(all.begin(), static_cast<std::ptrdiff_t>(random.below(all.size())));
}

/// The mass as a person would write it, such as "260 g" or "1.70 kg".
std::string weight(Mass mass) {
  return in_grams(mass) < 1000 ? fmt::format("{:.0f} g", in_grams(mass))
                               : fmt::format("{:.2f} kg", in_kilograms(mass));
}

std::string goal(Random& random, Volume pot) {
  const double which = random.between(0, 1);
  if (which < 0.50) {
    return fmt::format(R"({{"hydrosol": "{:.0f} mL"}})",
                       in_millilitres(pot) * random.log_uniform(0.05, 0.4));
  }
  if (which < 0.70) return fmt::format(R"({{"time": "{:.0f} min"}})", random.between(60, 180));
  if (which < 0.85) return fmt::format(R"({{"oil_share": "{:.0f} %"}})", random.between(40, 85));
  return "";
}

}  // namespace

std::string some_recipe(std::uint64_t number, const Tables& tables) {
  Random random(number);
  const auto& [plant_key, plant] = any_of(random, tables.plants);
  const auto& [still_key, still] = any_of(random, tables.stills);
  const State state = any_of(random, plant->states).first;
  const Method method = any_of(random, still->methods);
  std::string line = fmt::format(
      R"({{"recipe": 1, "title": "Recipe {}", "plant": "{}", "state": "{}", "still": "{}", "method": "{}")",
      number, plant_key, to_string(state), still_key, to_string(method));
  if (random.chance(0.6)) {
    const Density loose = grams_per_litre(random.between(15, 70));
    line += fmt::format(R"(, "charge": "{}")", weight(charge_space(still, method) * loose));
  }
  if (random.chance(0.3)) {
    line += fmt::format(R"(, "setting": "{:.0f} %")", random.between(70, 100));
  }
  line += fmt::format(
      R"(, "site": {{"altitude": "{:.0f} m", "room": "{:.0f} °C", "coolant": "{:.0f} °C"}})",
      random.between(0, 1500), random.between(15, 28), random.between(8, 15));
  const std::string wanted = goal(random, still->pot.volume.typical());
  if (!wanted.empty()) line += R"(, "goal": )" + wanted;
  if (random.chance(0.2)) {
    line += fmt::format(R"(, "own": {{"oil_content": "{:.2f} %"}})", random.log_uniform(0.1, 2));
  }
  if (random.chance(0.3)) {
    line += fmt::format(R"(, "limits": {{"absence": "{:.0f} min"}})", random.between(3, 15));
  }
  return line + '}';
}
