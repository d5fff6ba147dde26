// What must hold of every plan: random recipes over everything that a recipe may say.
//
// FIRSTDROP_PROPERTY_RECIPES in the environment sets how many; the recipes themselves are the same
// on every machine.
#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <iterator>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/error.hpp"
#include "firstdrop/inputs.hpp"
#include "firstdrop/plan.hpp"
#include "firstdrop/recipe_json.hpp"
#include "firstdrop/report.hpp"
#include "test_library.hpp"
#include "test_random.hpp"

using namespace firstdrop;
using test_random::Random;

namespace {

constexpr int usual_recipes = 3000;
constexpr int samples = 16;
constexpr double rounding = 1e-9;

int recipes() {
  const char* wanted = std::getenv("FIRSTDROP_PROPERTY_RECIPES");
  return wanted ? std::max(1, std::atoi(wanted)) : usual_recipes;
}

template <class Map>
const auto& any_of_map(Random& random, const Map& map) {
  return std::next(map.begin(), static_cast<std::ptrdiff_t>(random.below(map.size())))->second;
}

Goal random_goal(Random& random, Volume pot) {
  switch (random.below(6)) {
    case 0:
      return HydrosolGoal{pot * random.spread(0.02, 2.0)};
    case 1:
      return OilGoal{grams(random.spread(0.05, 300))};
    case 2:
      return OilGoal{millilitres(random.spread(0.05, 300))};
    case 3:
      return OilShareGoal{fraction(random.between(0.02, 0.995))};
    case 4:
      return TimeGoal{minutes(random.spread(5, 900))};
    default:
      return HarvestGoal{};
  }
}

OwnFigures random_own(Random& random, Volume pot, Power rated) {
  OwnFigures own;
  if (random.chance(0.15)) own.bulk_density = grams_per_litre(random.spread(20, 700));
  if (random.chance(0.15)) own.oil_content = fraction(random.spread(1e-4, 0.1));
  if (random.chance(0.15)) {
    // Of what the heater could boil off with nothing lost.
    const MassFlow all = rated / kilojoules_per_kilogram(2257);
    own.distillate_rate = all * random.between(0.05, 1.1) / grams_per_litre(1000);
  }
  if (random.chance(0.15)) {
    own.boil_time = minutes(random.spread(5, 200));
    if (random.chance(0.8)) own.boil_water = pot * random.between(0.1, 0.7);
  }
  return own;
}

Recipe random_recipe(Random& random) {
  const Library& library = shipped_library();
  Recipe recipe;
  recipe.title = "random";
  recipe.still = any_of_map(random, library.stills);
  recipe.method = recipe.still.methods.at(random.below(recipe.still.methods.size()));
  recipe.plant = any_of_map(random, library.plants);
  const auto& states = recipe.plant.states;
  recipe.state =
      std::next(states.begin(), static_cast<std::ptrdiff_t>(random.below(states.size())))->first;
  recipe.cut = static_cast<Cut>(random.below(4));
  const Volume pot = recipe.still.pot.volume.typical();
  const Power rated = recipe.still.heater.power.typical();
  if (random.chance(0.5)) recipe.charge = kilograms(in_litres(pot) * random.spread(0.002, 3.0));
  if (random.chance(0.35)) recipe.water = pot * random.between(0.05, 1.0);
  recipe.setting = fraction(random.chance(0.4) ? 1.0 : random.spread(0.1, 1.0));
  if (random.chance(0.5)) {
    recipe.site.altitude = metres(random.between(-430, 5000));
  } else if (random.chance(0.5)) {
    recipe.site.pressure = kilopascals(random.between(50, 110));
  }
  recipe.site.room = celsius(random.between(1, 50));
  if (random.chance(0.7)) {
    recipe.site.coolant =
        celsius(random.chance(0.9) ? random.between(0, 25) : random.between(0, 60));
  }
  recipe.goal = random_goal(random, pot);
  if (random.chance(0.4)) recipe.own = random_own(random, pot, rated);
  if (random.chance(0.25)) recipe.limits.time = minutes(random.spread(10, 900));
  if (random.chance(0.4)) recipe.limits.absence = minutes(random.between(0, 60));
  if (random.chance(0.2)) {
    recipe.prices = {0.3, 12.0, "EUR"};
    recipe.start = "2024-06-11T08:30";
  }
  recipe.seed = random.below(1000000);
  return recipe;
}

/// Enough of a recipe to find it again.
std::string about(const Recipe& recipe) {
  const auto kilograms_of = [](const std::optional<Mass>& mass) {
    return mass ? std::to_string(mass->si()) + " kg" : std::string("open");
  };
  return recipe.plant.key + " " + to_string(recipe.state) + " " + to_string(recipe.cut) + " in " +
         recipe.still.key + " by " + to_string(recipe.method) + ", charge " +
         kilograms_of(recipe.charge) + ", water " +
         (recipe.water ? std::to_string(in_litres(*recipe.water)) + " L" : "open") + ", setting " +
         std::to_string(double(recipe.setting)) + ", goal " + std::to_string(recipe.goal.index()) +
         ", room " + std::to_string(in_celsius(recipe.site.room)) + ", absence " +
         std::to_string(in_minutes(recipe.limits.absence)) + " min, own" +
         (recipe.own.bulk_density ? " bulk_density" : "") +
         (recipe.own.oil_content ? " oil_content" : "") +
         (recipe.own.distillate_rate ? " distillate_rate" : "") +
         (recipe.own.boil_time ? " boil_time" : "");
}

/// Whether a text has this word on its own.
bool has_word(const std::string& text, const std::string& word) {
  const auto letter = [&](std::size_t at) {
    return at < text.size() && std::isalpha(static_cast<unsigned char>(text[at])) != 0;
  };
  for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    if (!(at > 0 && letter(at - 1)) && !letter(at + word.size())) return true;
  }
  return false;
}

template <class T>
void check_range(const Range<T>& range) {
  CHECK(std::isfinite(range.low.si()));
  CHECK(std::isfinite(range.high.si()));
  CHECK(range.low <= range.typical);
  CHECK(range.typical <= range.high);
}

void check_findings(const Plan& plan) {
  // Each thing is said once; only a plant may have several hazards.
  std::set<std::string> said;
  for (const Finding& finding : plan.findings) {
    if (finding.code == "plant-hazard") continue;
    CAPTURE(finding.code);
    CHECK(said.insert(finding.code).second);
  }
  bool refuses = false;
  bool cautions = false;
  for (const Finding& finding : plan.findings) {
    CAPTURE(finding.text);
    CHECK_FALSE(finding.code.empty());
    CHECK_FALSE(finding.text.empty());
    CHECK_FALSE(has_word(finding.text, "nan"));
    CHECK_FALSE(has_word(finding.text, "inf"));
    for (const auto& amount : {finding.value, finding.limit}) {
      if (amount) CHECK(std::isfinite(amount->number));
    }
    refuses = refuses || finding.level == Level::refuse;
    cautions = cautions || finding.level == Level::caution;
  }
  CHECK((plan.verdict == Verdict::refused) == refuses);
  CHECK((plan.verdict == Verdict::caution) == (!refuses && cautions));
  CHECK(std::is_sorted(plan.findings.begin(), plan.findings.end(),
                       [](const Finding& a, const Finding& b) { return a.level > b.level; }));
  if (plan.verdict != Verdict::refused) REQUIRE(plan.run);
}

void check_numbers(const Plan& plan) {
  const std::string json = plan_json(plan);
  // A number that is none is written as null.
  CHECK(json.find("null") == std::string::npos);
  if (!plan.run) return;
  const RunPlan& run = *plan.run;
  check_range(run.spread.hydrosol);
  check_range(run.spread.dissolved_oil);
  check_range(run.spread.oil_in_charge);
  check_range(run.spread.oil_vaporised);
  check_range(run.spread.oil_in_receiver);
  check_range(run.spread.oil_volume);
  check_range(run.spread.oil_density);
  check_range(run.spread.oil_share);
  check_range(run.spread.first_drop);
  check_range(run.spread.stop);
  CHECK(run.spread.oil_in_receiver.low >= grams(0));
  CHECK(run.spread.oil_share.high <= 1.0 + rounding);
  if (run.spread.chance_of_goal) {
    CHECK(*run.spread.chance_of_goal >= 0.0);
    CHECK(*run.spread.chance_of_goal <= 1.0);
  }
}

/// The values that the plan rests on, made once more from its recipe.
struct Basis {
  Inputs inputs;
  Mass charge;
  Mass fill;
  Run run(const Point& point) const { return Run(values_at(inputs, point, charge, fill)); }
};

Basis basis_of(const Plan& plan) {
  Inputs inputs = gather_inputs(plan.recipe, shipped_library());
  const Mass fill = plan.run->water.first_fill * inputs.fill_density;
  return {std::move(inputs), plan.charge.mass, fill};
}

void check_balances(const Plan& plan, const Basis& basis) {
  const RunPlan& run = *plan.run;
  CHECK(std::abs(run.mass_residual.si()) <= rounding * basis.fill.si());
  const Run typical = basis.run(Point::typical());
  const EnergyBalance energy = typical.energy_at(run.times.stop);
  CHECK(std::abs(run.energy_residual.si()) <= rounding * energy.put_in.si());
  const Volume all =
      run.water.distilled + run.water.held + run.water.vented + run.water.left_at_stop;
  CHECK_THAT(all / run.water.first_fill, WithinRel(1.0, rounding));
  // What is heated at the plug is at least what the pot gets, if nothing was measured.
  if (!plan.recipe.own.boil_time && !plan.recipe.own.distillate_rate) {
    CHECK(energy.put_in <= run.energy.plug * (1.0 + rounding));
  }
}

void check_oil(const Plan& plan, const Basis& basis) {
  const Run typical = basis.run(Point::typical());
  const RunValues& v = typical.values();
  const Duration stop = plan.run->times.stop;
  CHECK(v.oil_recoverable <= oil_in_charge(basis.inputs, Point::typical(), basis.charge));
  for (const double share : {0.01, 0.1, 0.5, 1.0, 2.0}) {
    const Duration running = (stop - typical.first_drop()) * share;
    if (running < seconds(0)) continue;
    const Mass vaporised = typical.oil_vaporised_at(typical.first_drop() + running);
    CHECK(vaporised <= v.oil_recoverable);
    if (!v.oil_per_steam) continue;
    CHECK(vaporised <= typical.vapour() * *v.oil_per_steam * running * (1.0 + rounding) +
                           v.oil_recoverable * rounding);
  }
}

void check_timeline(const Plan& plan) {
  const auto& ice = plan.run->cooling.ice_changes;
  CHECK(std::is_sorted(ice.begin(), ice.end(),
                       [](const IceChange& x, const IceChange& y) { return x.at < y.at; }));
  const auto& timeline = plan.run->timeline;
  REQUIRE(timeline.size() >= 2);
  const Volume scale = plan.run->water.first_fill * rounding;
  for (std::size_t i = 0; i < timeline.size(); ++i) {
    check_range(timeline[i].oil);
    CHECK(timeline[i].oil.low >= litres(0));
    if (i == 0) continue;
    CHECK(timeline[i - 1].at <= timeline[i].at);
    CHECK(timeline[i - 1].pot_water + scale >= timeline[i].pot_water);
    CHECK(timeline[i - 1].hydrosol <= timeline[i].hydrosol);
    CHECK(timeline[i - 1].pot <= timeline[i].pot);
  }
}

void check_pot(const Plan& plan, const Basis& basis) {
  const Practice& practice = shipped_library().practice;
  const Still& still = plan.recipe.still;
  const Volume fill = plan.run->water.first_fill;
  CHECK(fill > litres(0));
  Volume in_pot = fill;
  if (plan.recipe.method == Method::hydro) {
    in_pot += basis.charge / practice.particle_density.typical();
  }
  const double slack = 1.0 + rounding;
  CHECK(in_litres(in_pot) <=
        in_litres(still.pot.volume.typical()) * still.pot.fill_limit.typical() * slack);
  CHECK(plan.run->water.pot_fill <= still.pot.fill_limit.typical() * slack);
  if (plan.recipe.method == Method::water_and_steam) {
    const Volume below = still.grid->water_below.typical();
    CHECK(in_litres(fill) <= in_litres(below) * (1.0 - practice.grid_clearance.typical()) * slack);
  }
  if (plan.recipe.method != Method::hydro) {
    const double room = 1.0 - practice.head_space.typical();
    CHECK(plan.charge.fill <= room * slack);
  }
  if (plan.recipe.water) CHECK_THAT(fill / *plan.recipe.water, WithinRel(1.0, rounding));
  if (plan.recipe.charge) {
    CHECK_THAT(plan.charge.mass * double(plan.charge.runs) / *plan.recipe.charge,
               WithinRel(1.0, rounding));
  }
}

/// Model, section 7: no accepted plan touches its reserve, even when the person comes late.
void check_reserve(const Plan& plan, const Basis& basis, Random& random) {
  const Practice& practice = shipped_library().practice;
  const RunPlan& run = *plan.run;
  Mass reserve =
      std::max(basis.fill * practice.reserve_share.typical(),
               plan.recipe.still.pot.minimum_water.typical() * basis.inputs.fill_density);
  if (plan.recipe.method == Method::hydro) {
    reserve = std::max(reserve,
                       basis.charge * practice.hydro_wetting.typical() * basis.inputs.fill_density);
  }
  CHECK_THAT(run.water.reserve * basis.inputs.fill_density / reserve, WithinRel(1.0, rounding));

  const auto left_when_late = [&](const RunValues& values) {
    const Run some(values);
    if (some.failure()) return basis.fill;  // nothing ever boils off
    return some.water_at(stop_time(some, run.stop) + plan.recipe.limits.absence).left;
  };
  const auto left_at = [&](const Point& point) {
    return left_when_late(values_at(basis.inputs, point, basis.charge, basis.fill));
  };
  const Mass slack = basis.fill * rounding;
  const Mass worst = left_when_late(
      worst_values(basis.inputs, basis.charge, basis.fill, run.stop, plan.recipe.limits.absence));
  CHECK(in_grams(worst) >= in_grams(reserve - slack));
  CHECK(in_minutes(run.times.stop_worst + plan.recipe.limits.absence) <=
        in_minutes(run.times.reserve_worst) * (1.0 + 1e-6));
  CHECK(in_minutes(run.times.reserve_worst) <= in_minutes(run.times.dry_worst));
  // The worst credible case deserves its name: no place in the ranges is worse.
  CHECK(in_grams(left_at(worst_for_water())) >= in_grams(worst - slack));
  // Nor is any plate between the weakest and the hottest, where most is heated and lost.
  for (int i = 0; i <= 20; ++i) {
    Point point = worst_for_water();
    point.set(Input::heater, i / 20.0).set(Input::heat_loss, 1);
    point.set(Input::moisture, 1).set(Input::dry_specific_heat, 1);
    CHECK(in_grams(left_at(point)) >= in_grams(worst - slack));
  }
  for (int i = 0; i < 12; ++i) {
    Point point;
    for (std::size_t input = 0; input < input_count; ++input) {
      const double p = random.chance(0.3) ? random.between(0, 1) : random.chance(0.5) ? 0 : 1;
      point.set(static_cast<Input>(input), p);
    }
    CHECK(in_grams(left_at(point)) >= in_grams(worst - slack));
  }
}

void check_times(const Plan& plan) {
  const TimesPlan& t = plan.run->times;
  CHECK(0.0 < in_minutes(t.boil));
  CHECK(in_minutes(t.boil) < in_minutes(t.first_drop));
  CHECK(in_minutes(t.first_drop) <= in_minutes(t.stop));
  CHECK(in_minutes(t.stop) < in_minutes(t.reserve));
  CHECK(in_minutes(t.reserve) <= in_minutes(t.dry));
  if (plan.recipe.limits.time) CHECK(t.stop <= *plan.recipe.limits.time * (1.0 + rounding));
}

void check_goal(const Plan& plan, const Basis& basis) {
  const RunPlan& run = *plan.run;
  const double runs = plan.charge.runs;
  const Run typical = basis.run(Point::typical());
  const Duration stop = run.times.stop;
  if (const auto* hydrosol = std::get_if<HydrosolGoal>(&plan.recipe.goal)) {
    if (run.binding_stop == StopRule::hydrosol) {
      CHECK_THAT(typical.hydrosol_at(stop) * runs / hydrosol->volume, WithinRel(1.0, rounding));
      CHECK_THAT(run.water.distilled * runs / hydrosol->volume, WithinRel(1.0, rounding));
    }
  }
  if (const auto* share = std::get_if<OilShareGoal>(&plan.recipe.goal)) {
    if (run.binding_stop == StopRule::oil_share) {
      CHECK(typical.oil_vaporised_at(stop) / typical.values().oil_recoverable >=
            share->share * (1.0 - rounding));
    }
  }
  if (const auto* time = std::get_if<TimeGoal>(&plan.recipe.goal)) {
    if (run.binding_stop == StopRule::time) CHECK(stop <= time->time * (1.0 + rounding));
  }
  if (const auto* oil = std::get_if<OilGoal>(&plan.recipe.goal)) {
    if (run.binding_stop == StopRule::oil) {
      const Mass got = typical.oil_in_receiver_at(stop) * runs;
      const Density density = basis.inputs.oil_density.typical();
      const Mass wanted = std::holds_alternative<Mass>(oil->amount)
                              ? std::get<Mass>(oil->amount)
                              : std::get<Volume>(oil->amount) * density;
      CHECK(in_grams(got) >= in_grams(wanted) * (1.0 - rounding));
    }
  }
}

void check_plan(const Plan& plan, Random& random) {
  check_findings(plan);
  check_numbers(plan);
  if (!plan.run) return;
  const Basis basis = basis_of(plan);
  check_balances(plan, basis);
  check_oil(plan, basis);
  check_timeline(plan);
  if (plan.verdict == Verdict::refused) return;
  check_pot(plan, basis);
  check_reserve(plan, basis, random);
  check_times(plan);
  check_goal(plan, basis);
}

/// A plan; none when the recipe does not hold together. Anything else that is thrown fails.
std::optional<Plan> plan_of(const Recipe& recipe) {
  try {
    return make_plan(recipe, shipped_library(), samples);
  } catch (const InputError&) {
    return std::nullopt;
  } catch (const std::exception& error) {
    FAIL_CHECK("not an InputError: " << error.what());
    return std::nullopt;
  }
}

}  // namespace

TEST_CASE("every plan keeps its promises", "[property]") {
  Random random(20240611);
  const int count = recipes();
  int accepted = 0;
  int refused = 0;
  int no_input = 0;
  for (int i = 0; i < count; ++i) {
    const Recipe recipe = random_recipe(random);
    CAPTURE(i, about(recipe));
    const auto plan = plan_of(recipe);
    if (!plan) {
      ++no_input;
      continue;
    }
    ++(plan->verdict == Verdict::refused ? refused : accepted);
    check_plan(*plan, random);
  }
  // The recipes must not all end up in one corner.
  CHECK(accepted > count / 8);
  CHECK(refused > count / 8);
  CHECK(no_input < count / 8);
}

TEST_CASE("the same recipe gives the same plan to the last byte", "[property]") {
  Random random(31);
  for (int i = 0; i < 200; ++i) {
    const Recipe recipe = random_recipe(random);
    CAPTURE(i, about(recipe));
    const auto first = plan_of(recipe);
    if (!first) continue;
    const auto second = plan_of(recipe);
    REQUIRE(second);
    CHECK(plan_json(*first) == plan_json(*second));
  }
}

TEST_CASE("higher up, water never boils hotter", "[property]") {
  Random random(32);
  for (int i = 0; i < 200; ++i) {
    Recipe recipe = random_recipe(random);
    recipe.own.boil_time.reset();  // it may lack its water, which is another matter
    recipe.site.pressure.reset();
    const double low = random.between(-430, 5000);
    const double high = random.between(low, 5000);
    CAPTURE(i, about(recipe), low, high);
    recipe.site.altitude = metres(low);
    const Temperature below = gather_inputs(recipe, shipped_library()).boiling;
    recipe.site.altitude = metres(high);
    const Temperature above = gather_inputs(recipe, shipped_library()).boiling;
    CHECK(above <= below);
  }
}

TEST_CASE("a higher setting never brings the first drop later", "[property]") {
  Random random(33);
  int compared = 0;
  for (int i = 0; i < 600; ++i) {
    Recipe recipe = random_recipe(random);
    const Volume pot = recipe.still.pot.volume.typical();
    recipe.charge = kilograms(in_litres(pot) * random.spread(0.002, 0.1));
    recipe.water = pot * random.between(0.15, 0.6);
    recipe.setting = fraction(random.between(0.3, 1.0));
    CAPTURE(i, about(recipe));
    const auto low = plan_of(recipe);
    recipe.setting = fraction(random.between(double(recipe.setting), 1.0));
    CAPTURE(double(recipe.setting));
    const auto high = plan_of(recipe);
    if (!low || !high || !low->run || !high->run) continue;
    CHECK(high->run->times.boil <= low->run->times.boil * (1.0 + rounding));
    CHECK(high->run->times.first_drop <= low->run->times.first_drop * (1.0 + rounding));
    ++compared;
  }
  CHECK(compared > 100);
}

TEST_CASE("being late for longer never needs less water", "[property]") {
  Random random(34);
  int compared = 0;
  for (int i = 0; i < 600; ++i) {
    Recipe recipe = random_recipe(random);
    recipe.water.reset();
    recipe.goal = HydrosolGoal{recipe.still.pot.volume.typical() * random.spread(0.02, 0.4)};
    recipe.limits.absence = minutes(random.between(0, 30));
    CAPTURE(i, about(recipe));
    const auto soon = plan_of(recipe);
    recipe.limits.absence += minutes(random.between(0, 30));
    const auto late = plan_of(recipe);
    if (!soon || !late) continue;
    if (late->verdict == Verdict::refused || soon->verdict == Verdict::refused) continue;
    if (late->charge.mass != soon->charge.mass) continue;  // lightened to make room
    CHECK(late->run->water.first_fill >= soon->run->water.first_fill);
    ++compared;
  }
  CHECK(compared > 100);
}

TEST_CASE("a recipe that can be read can be planned, at the ends of its ranges", "[property]") {
  const Library& library = shipped_library();
  int planned = 0;
  for (const char* room : {"-10 °C", "0 °C", "0.005 °C", "1 °C", "50 °C"}) {
    for (const char* pressure : {"50 kPa", "110 kPa"}) {
      for (const char* coolant : {"", R"(, "coolant": "0 °C")", R"(, "coolant": "60 °C")"}) {
        const std::string text = R"({"recipe": 1, "plant": "lavender", "still": "bench-column", )"
                                 R"("site": {"room": ")" +
                                 std::string(room) + R"(", "pressure": ")" + pressure + '"' +
                                 coolant + "}}";
        CAPTURE(text);
        try {
          const Recipe recipe = read_recipe(text, "recipe", library, {});
          const auto plan = plan_of(recipe);
          if (plan) ++planned;
        } catch (const InputError&) {
          continue;  // refused when read, which is as good
        }
      }
    }
  }
  CHECK(planned >= 6);
}
