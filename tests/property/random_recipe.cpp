#include "random_recipe.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <set>
#include <utility>
#include <vector>

#include "firstdrop/base/error.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"

namespace random_recipe {
namespace {

using firstdrop::Tables;
using test_random::Random;

/// Four significant digits, as a user might write them. The reader takes no exponents.
std::string number(double x) {
  return x >= 1e4 ? fmt::format("{:.0f}", x) : x >= 0.001 ? fmt::format("{:.4g}", x) : "0.001";
}
std::string quantity(double x, const char* unit) {
  return number(x) + ' ' + unit;
}

template <class T, std::size_t n>
const T& any_of(Random& random, const std::array<T, n>& all) {
  return all.at(random.below(n));
}

template <class Map>
const auto& any_entry(Random& random, const Map& map) {
  return *std::next(map.begin(), static_cast<std::ptrdiff_t>(random.below(map.size())));
}

/// The bounds of a figure.
struct Bounds {
  double least;
  double most;
};

/// A figure with a range around `typical`, from hardly any to absurdly wide.
Document ranged(Random& random, double typical, const char* unit, Bounds bounds) {
  const double widest = random.chance(0.15) ? 0.98 : 0.4;
  const auto written = [](double x) { return std::stod(number(x)); };
  double low = typical;
  double high = typical;
  const bool ratio = random.chance(0.25);
  if (ratio) {
    low /= random.between(1.0, 1.0 + 2.0 * widest);
    high *= random.between(1.0, 1.0 + 2.0 * widest);
  } else {
    low -= typical * random.between(0.0, widest);
    high += typical * random.between(0.0, widest);
  }
  typical = std::clamp(typical, bounds.least, bounds.most);
  Document figure = {{"low", written(std::clamp(low, bounds.least, typical))},
                     {"typical", written(typical)},
                     {"high", written(std::clamp(high, typical, bounds.most))},
                     {"unit", unit},
                     {"basis", "made up for a test"},
                     {"known", "measured"}};
  if (ratio) figure["scale"] = "ratio";
  return figure;
}

/// A figure as in a user's own file: a plain quantity, or one with a range.
Document figure(Random& random, double typical, const char* unit, Bounds bounds,
                double chance_of_range = 0.25) {
  if (random.chance(chance_of_range)) return ranged(random, typical, unit, bounds);
  return quantity(std::clamp(typical, bounds.least, bounds.most), unit);
}

/// The size of the still, by which the rest of a recipe is scaled.
struct Size {
  double litres;  ///< volume of the pot
  double watts;
};

// --- stills --------------------------------------------------------------------------------------

/// Inside diameter in millimetres of a vessel of this volume. The reader wants a height of 0.2 to 5
/// diameters.
double diameter_mm(Random& random, double litres) {
  const double slenderness = random.log_uniform(0.25, 4.0);
  return std::cbrt(4.0 * litres * 1e6 / (3.14159265 * slenderness));
}

std::string material(Random& random, const Tables& tables) {
  return any_entry(random, tables.materials).first;
}

Document random_condenser(Random& random, const Tables& tables, double watts) {
  static constexpr std::array kinds = {"ice-bath", "reservoir", "run-through"};
  const std::string kind = any_of(random, kinds);
  const double kilowatts = watts / 1000.0;
  Document condenser = {{"kind", kind}, {"wall", material(random, tables)}};
  condenser["surface"] =
      figure(random, kilowatts * random.log_uniform(0.05, 0.6), "m2", {0.001, 20});
  condenser["outlet"] =
      quantity(random.chance(0.8) ? random.between(20, 60) : random.between(1, 99), "°C");
  const double limit = random.chance(0.8) ? random.between(22, 50) : random.between(3, 89);
  condenser["coolant_limit"] = quantity(limit, "°C");
  if (kind == "run-through") {
    condenser["flow_limit"] =
        figure(random, kilowatts * random.log_uniform(0.4, 8), "L/min", {0.01, 900});
    return condenser;
  }
  const double coolant = std::min(kilowatts * random.log_uniform(3, 150), 1500.0);
  condenser["coolant"] = figure(random, coolant, "L", {0.05, 2000}, 0.15);
  condenser["ice_per_change"] =
      random.chance(0.25) ? std::string("0 kg")
                          : quantity(std::max(coolant * random.between(0.02, 0.8), 0.001), "kg");
  return condenser;
}

Document random_still(Random& random, const Tables& tables, Size& size) {
  static constexpr std::array heaters = {"electric-plate", "induction-plate", "immersed-element",
                                         "gas-burner"};
  const double litres = random.log_uniform(0.3, 100);
  const double watts = std::clamp(litres * random.log_uniform(60, 900), 80.0, 30000.0);
  size = {litres, watts};
  std::vector<std::string> methods;
  for (const char* method : {"steam", "water-and-steam", "hydro"}) {
    if (random.chance(0.5)) methods.emplace_back(method);
  }
  if (methods.empty()) methods.emplace_back("steam");
  const auto has = [&](const char* method) {
    return std::find(methods.begin(), methods.end(), method) != methods.end();
  };
  const double across = std::pow(litres, 2.0 / 3.0);
  const double fill_limit = random.between(45, 92);
  Document still = {{"title", "a still"}, {"methods", methods}};
  still["pot"] = {
      {"material", material(random, tables)},
      {"volume", figure(random, litres, "L", {0.2, 2000}, 0.15)},
      {"diameter", quantity(diameter_mm(random, litres), "mm")},
      {"mass", quantity(std::clamp(across * random.log_uniform(0.15, 1.5), 0.01, 900.0), "kg")},
      {"fill_limit", figure(random, fill_limit, "%", {40, 95}, 0.1)},
      {"minimum_water",
       figure(random, litres * random.log_uniform(0.01, 0.3), "L", {0.001, 1900}, 0.15)}};
  if (has("steam") || random.chance(0.1)) {
    const double column = litres * random.log_uniform(0.1, 2.0);
    still["column"] = {
        {"material", material(random, tables)},
        {"volume", figure(random, column, "L", {0.02, 2000}, 0.15)},
        {"diameter", quantity(diameter_mm(random, column), "mm")},
        {"mass", quantity(std::clamp(std::pow(column, 2.0 / 3.0) * random.log_uniform(0.1, 1.0),
                                     0.01, 900.0),
                          "kg")}};
  }
  if (has("water-and-steam") || random.chance(0.1)) {
    const double below = random.between(0.1, 0.6);
    still["grid"] = {{"water_below", figure(random, litres * below, "L", {0.01, 2000}, 0.15)},
                     {"space", figure(random, litres * (1.0 - below) * random.between(0.3, 0.95),
                                      "L", {0.01, 2000}, 0.15)},
                     {"mass", quantity(across * random.log_uniform(0.02, 0.3), "kg")}};
  }
  still["head"] = {
      {"material", material(random, tables)},
      {"mass", quantity(std::clamp(across * random.log_uniform(0.05, 0.6), 0.01, 900.0), "kg")},
      {"surface",
       figure(random, across * random.log_uniform(0.004, 0.04), "m2", {0.0002, 19}, 0.25)}};
  still["heater"] = {{"kind", any_of(random, heaters)},
                     {"power", figure(random, watts, "W", {50, 60000}, 0.2)}};
  if (random.chance(0.25)) {
    still["heater"]["efficiency"] = figure(random, random.between(25, 99), "%", {10, 100});
  }
  still["condenser"] = random_condenser(random, tables, watts);
  still["wall_hold_up"] =
      figure(random, across * random.log_uniform(1, 25), "g", {0.01, 9000}, 0.5);
  return still;
}

// --- plants --------------------------------------------------------------------------------------

Document random_release(Random& random) {
  Document release = {
      {"half_life", figure(random, random.log_uniform(2, 200), "min", {0.5, 2500}, 0.7)}};
  if (random.chance(0.4)) {
    release["fast_share"] = figure(random, random.between(0, 100), "%", {0, 100}, 0.5);
  }
  if (random.chance(0.2)) {
    release["steam_flow"] = figure(random, random.log_uniform(0.1, 5), "1/h", {0.01, 90}, 0.5);
  }
  return release;
}

Document random_state(Random& random, bool has_form, double moisture) {
  Document state = Document::object();
  if (!has_form || random.chance(0.7)) {
    state["moisture"] = figure(random, moisture, "%", {0.1, 96.5}, 0.7);
  }
  if (!has_form || random.chance(0.6)) {
    state["bulk_density"] = Document::object();
    for (const char* cut : {"whole", "chopped", "crushed", "ground"}) {
      if (state["bulk_density"].empty() || random.chance(0.25)) {
        state["bulk_density"][cut] =
            figure(random, random.log_uniform(30, 700), "g/L", {5, 1400}, 0.7);
      }
    }
  }
  return state;
}

Document random_plant(Random& random, const Tables& tables) {
  static constexpr std::array forms = {"leafy-herb", "leaf", "flowers", "needles",
                                       "seed",       "wood", "root",    "peel"};
  static constexpr std::array classes = {"surface-glands",  "internal-glands",
                                         "conifer-leaf",    "sesquiterpene-flowers",
                                         "alcohol-flowers", "peel",
                                         "root-and-wood",   "seed"};
  Document plant = {{"name", "a plant"}, {"latin", "Planta ficta"}, {"part", "herb"}};
  const bool has_form = random.chance(0.6);
  if (has_form) plant["form"] = any_of(random, forms);
  const bool has_class = random.chance(0.4);
  if (has_class) plant["release_class"] = any_of(random, classes);

  Document states = Document::object();
  static constexpr std::array names = {"fresh", "wilted", "dried"};
  for (const char* name : names) {
    if (!states.empty() && !random.chance(0.5)) continue;
    const double moisture = *name == 'd' ? random.between(4, 20) : random.between(30, 94);
    states[name] = random_state(random, has_form, moisture);
  }
  for (auto& state : states) {
    if (&state != &states.front() && !random.chance(0.3)) continue;
    Document content = {{"per", random.chance(0.5) ? "as-received" : "dry-matter"},
                        {"distilled", random.chance(0.5) ? "to-exhaustion" : "to-stated-end"}};
    content["figure"] =
        random.chance(0.6)
            ? figure(random, random.log_uniform(0.005, 15), "%", {0.001, 45}, 0.7)
            : figure(random, random.log_uniform(0.005, 15), "mL/100 g", {0.001, 50}, 0.7);
    state["oil_content"] = std::move(content);
  }
  plant["states"] = std::move(states);

  if (!has_class || random.chance(0.3)) {
    Document releases = Document::object();
    for (const char* method : {"steam", "water-and-steam", "hydro"}) {
      if (releases.empty() || random.chance(0.4)) releases[method] = random_release(random);
    }
    plant["release"] = std::move(releases);
  }
  if (random.chance(0.2)) {
    plant["recovery"] = {{random.chance(0.5) ? "steam" : "hydro",
                          figure(random, random.between(20, 99), "%", {1, 100})}};
  }
  plant["oil_density"] = figure(random, random.between(0.8, 1.1), "g/mL", {0.6, 1.4}, 0.5);
  if (random.chance(0.6)) {
    Document constituents = Document::object();
    double left = 99.0;
    for (std::size_t i = 0, count = 1 + random.below(5); i < count; ++i) {
      const double share = left * random.between(0.1, 0.9);
      constituents[any_entry(random, tables.liquids).first] =
          figure(random, share, "%", {0.01, 100}, 0.5);
      left -= share;
    }
    plant["constituents"] = std::move(constituents);
  }
  if (random.chance(0.3)) {
    plant["hydrosol_oil"] = figure(random, random.log_uniform(0.02, 5), "g/L", {0.001, 45}, 0.5);
  }
  if (random.chance(0.15)) plant["oil_freezes"] = quantity(random.between(1, 35), "°C");
  if (random.chance(0.2)) plant["flash_point"] = quantity(random.between(30, 120), "°C");
  if (random.chance(0.15)) plant["wants_cohobation"] = true;
  return plant;
}

// --- the rest of a recipe ------------------------------------------------------------------------

Document random_goal(Random& random, double litres) {
  switch (random.below(6)) {
    case 0:
      return {{"hydrosol", quantity(litres * random.log_uniform(0.02, 2.0), "L")}};
    case 1:
      return random.chance(0.5) ? Document{{"oil", quantity(random.log_uniform(0.05, 300), "g")}}
                                : Document{{"oil", quantity(random.log_uniform(0.05, 300), "mL")}};
    case 2:
      return {{"oil_share", quantity(random.between(2, 99.5), "%")}};
    case 3:
      return {{"ratio", quantity(random.log_uniform(0.2, 20), "L/kg")}};
    case 4:
      return {{"time", quantity(random.log_uniform(5, 900), "min")}};
    default:
      return nullptr;
  }
}

Document random_own(Random& random, const Size& size, double setting) {
  Document own = Document::object();
  if (random.chance(0.3)) own["bulk_density"] = quantity(random.log_uniform(20, 700), "g/L");
  if (random.chance(0.3)) own["oil_content"] = quantity(random.log_uniform(0.01, 10), "%");
  if (random.chance(0.5)) {
    // A share of what the heater could boil off if nothing were lost.
    const double all = size.watts * setting / 2257.0 * 60.0;
    own["distillate_rate"] = quantity(all * random.between(0.05, 1.0), "mL/min");
  }
  if (random.chance(0.5)) {
    const double litres = size.litres * random.between(0.1, 0.7);
    const double soonest = litres * 4180.0 * 80.0 / (size.watts * setting) / 60.0;
    own["boil_time"] = quantity(std::min(soonest * random.log_uniform(0.9, 6), 1400.0), "min");
    own["boil_water"] = quantity(litres, "L");
    if (random.chance(0.3)) own["boil_setting"] = quantity(random.log_uniform(10, 100), "%");
  }
  if (random.chance(0.3)) own["setting"] = quantity(random.log_uniform(10, 100), "%");
  return own;
}

Document random_site(Random& random) {
  Document site = Document::object();
  if (random.chance(0.4)) {
    site["altitude"] = fmt::format("{:.0f} m", random.between(-430, 5000));
  } else if (random.chance(0.3)) {
    site["pressure"] = quantity(random.between(50, 110), "kPa");
  }
  if (random.chance(0.6)) site["room"] = quantity(random.between(1.5, 49), "°C");
  if (random.chance(0.8)) {
    site["coolant"] =
        quantity(random.chance(0.9) ? random.between(0.5, 25) : random.between(1, 59), "°C");
  }
  if (random.chance(0.3)) site["place"] = random.chance(0.5) ? "indoors" : "outdoors";
  if (random.chance(0.3)) {
    site["mains"] = random.chance(0.5) ? "230 V" : quantity(random.between(100, 400), "V");
    site["circuit"] = quantity(random.log_uniform(5, 63), "A");
  }
  return site;
}

// Two to four plants of the table in a recipe, and the states that all of them have.
std::vector<std::string> random_blend(Random& random, const Tables& tables, Document& recipe) {
  const std::size_t count = 2 + random.below(3);
  std::set<std::string> keys;
  while (keys.size() < count) keys.insert(any_entry(random, tables.plants).first);
  Document plants = Document::array();
  int left = 100;
  std::vector<std::string> states = {"fresh", "wilted", "dried"};
  for (const std::string& key : keys) {
    const auto others = static_cast<int>(count - plants.size()) - 1;
    const int share =
        others == 0 ? left : 1 + static_cast<int>(random.between(0.0, 0.999) * (left - others));
    left -= share;
    plants.push_back({{"plant", key}, {"share", fmt::format("{} %", share)}});
    std::erase_if(states, [&](const std::string& state) {
      const auto& of_plant = tables.plants.at(key)->states;
      return std::none_of(of_plant.begin(), of_plant.end(),
                          [&](const auto& entry) { return to_string(entry.first) == state; });
    });
  }
  if (!states.empty()) recipe["plants"] = std::move(plants);
  return states;
}

}  // namespace

Document document(Random& random, const Tables& tables) {
  Document recipe = {{"recipe", 1}};
  Size size{};
  std::vector<std::string> methods;
  if (random.chance(0.35)) {
    const auto& [key, still] = any_entry(random, tables.stills);
    recipe["still"] = key;
    size = {firstdrop::in_litres(still->pot.volume.typical()),
            firstdrop::in_watts(still->heater.power.typical())};
    for (const auto method : still->methods) methods.push_back(to_string(method));
  } else {
    recipe["still"] = random_still(random, tables, size);
    for (const auto& method : recipe["still"]["methods"]) {
      methods.push_back(method.get<std::string>());
    }
  }
  recipe["method"] = methods.at(random.below(methods.size()));

  std::vector<std::string> states;
  if (random.chance(0.15)) states = random_blend(random, tables, recipe);
  if (!states.empty()) {
    // A blend of plants.
  } else if (random.chance(0.5)) {
    const auto& [key, plant] = any_entry(random, tables.plants);
    recipe["plant"] = key;
    for (const auto& state : plant->states) states.push_back(to_string(state.first));
  } else {
    recipe["plant"] = random_plant(random, tables);
    for (const auto& state : recipe["plant"]["states"].items()) states.push_back(state.key());
  }
  recipe["state"] = states.at(random.below(states.size()));
  static constexpr std::array cuts = {"whole", "chopped", "crushed", "ground"};
  if (random.chance(0.7)) recipe["cut"] = any_of(random, cuts);

  if (random.chance(0.5)) {
    recipe["charge"] =
        quantity(std::min(size.litres * random.log_uniform(0.002, 3.0), 900.0), "kg");
  }
  if (random.chance(0.3)) recipe["water"] = quantity(size.litres * random.between(0.05, 0.95), "L");
  if (random.chance(0.15)) {
    recipe["water_temperature"] = quantity(random.between(1.5, 85), "°C");
  }
  const double setting = random.chance(0.4) ? 100.0 : random.log_uniform(10, 100);
  recipe["setting"] = quantity(setting, "%");
  recipe["site"] = random_site(random);
  Document goal = random_goal(random, size.litres);
  if (!goal.is_null() && !goal.contains("time") && random.chance(0.25)) {
    goal["confidence"] = quantity(random.between(1.5, 98.5), "%");
  }
  if (!goal.is_null()) recipe["goal"] = goal;
  if (random.chance(0.4)) recipe["own"] = random_own(random, size, setting / 100.0);
  if (recipe["site"].contains("mains") && random.chance(0.3)) {
    const double nominal = std::stod(recipe["site"]["mains"].get<std::string>());
    recipe["own"]["mains"] = quantity(nominal * random.between(0.88, 1.12), "V");
  }
  Document limits = Document::object();
  if (random.chance(0.25)) limits["time"] = quantity(random.log_uniform(10, 900), "min");
  if (random.chance(0.6)) {
    limits["absence"] = random.chance(0.1) ? "0 min"
                                           : quantity(random.chance(0.85) ? random.between(0.5, 45)
                                                                          : random.between(45, 180),
                                                      "min");
  }
  recipe["limits"] = limits;
  if (random.chance(0.1)) {
    recipe["prices"] = {{"energy_per_kwh", 0.3}, {"plant_per_kg", 12.0}, {"currency", "EUR"}};
    recipe["start"] = "2024-06-11T08:30";
  }
  recipe["seed"] = random.below(1000000);
  if (random.chance(0.15)) {
    const double first = size.litres * random.log_uniform(0.01, 0.3);
    recipe["fractions"] = {{{"until", quantity(first, "L")}}, Document::object()};
    if (random.chance(0.3))
      recipe["fractions"].insert(recipe["fractions"].begin() + 1,
                                 {{"until", quantity(first * random.between(1.2, 3), "L")}});
  } else if (random.chance(0.2)) {
    recipe["receiver_volume"] =
        quantity(std::max(0.1, size.litres * random.log_uniform(0.05, 1.0)), "L");
  }
  if (random.chance(0.3)) recipe["units"] = "us";  // other marks of scale and jug
  return recipe;
}

std::optional<firstdrop::Recipe> read(const Document& document, const Tables& tables) {
  try {
    return firstdrop::read_recipe(document.dump(), "recipe", tables, {});
  } catch (const firstdrop::InputError&) {
    return std::nullopt;
  }
}

std::optional<firstdrop::Plan> planned(const firstdrop::Recipe& recipe, const Tables& tables,
                                       int samples, firstdrop::Detail detail) {
  try {
    return firstdrop::make_plan(recipe, tables, samples, detail);
  } catch (const firstdrop::InputError&) {
    return std::nullopt;
  }
}

}  // namespace random_recipe
