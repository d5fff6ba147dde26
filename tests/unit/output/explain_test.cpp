// Checks --explain. A small calculator evaluates every printed equation with the values printed
// before it. The result must equal the value printed with the equation.
#include "output/explain.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <numbers>
#include <optional>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "physics/water.hpp"
#include "test_random.hpp"
#include "test_stills.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using test_stills::shipped;

namespace {

/// sum := product (('+'|'-') product)*; product := signed (('*'|'/') signed)*;
/// signed := '-'* power; power := atom ('^' signed)?; atom := number | name | name '(' args ')' |
/// '(' sum ')'.
class Calculator {
 public:
  Calculator(const std::string& text, const std::map<std::string, double>& values)
      : text_(text), values_(values) {}

  double result() {
    const double value = sum();
    if (peek() != '\0') throw std::runtime_error("left over: " + text_.substr(at_));
    return value;
  }

 private:
  char peek() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
    return at_ < text_.size() ? text_[at_] : '\0';
  }
  bool take(char c) {
    if (peek() != c) return false;
    ++at_;
    return true;
  }

  double sum() {
    double value = product();
    while (true) {
      if (take('+')) {
        value += product();
      } else if (take('-')) {
        value -= product();
      } else {
        return value;
      }
    }
  }
  double product() {
    double value = with_sign();
    while (true) {
      if (take('*')) {
        value *= with_sign();
      } else if (take('/')) {
        value /= with_sign();
      } else {
        return value;
      }
    }
  }
  double with_sign() { return take('-') ? -with_sign() : power(); }
  double power() {
    const double base = atom();
    return take('^') ? std::pow(base, with_sign()) : base;
  }
  double atom() {
    if (take('(')) {
      const double value = sum();
      if (!take(')')) throw std::runtime_error("no closing bracket: " + text_);
      return value;
    }
    const char c = peek();
    if (std::isdigit(static_cast<unsigned char>(c)) != 0) {
      std::size_t length = 0;
      const double value = std::stod(text_.substr(at_), &length);
      at_ += length;
      return value;
    }
    std::string name;
    while (at_ < text_.size() &&
           (std::isalnum(static_cast<unsigned char>(text_[at_])) != 0 || text_[at_] == '_')) {
      name += text_[at_++];
    }
    if (name.empty()) throw std::runtime_error("no name at: " + text_.substr(at_));
    if (!take('(')) {
      if (name == "pi") return std::numbers::pi;
      return values_.at(name);  // throws for a symbol that wasn't explained before
    }
    std::vector<double> arguments = {sum()};
    while (take(',')) arguments.push_back(sum());
    if (!take(')')) throw std::runtime_error("no closing bracket: " + text_);
    return call(name, arguments);
  }

  static double call(const std::string& name, const std::vector<double>& a) {
    if (name == "ln") return std::log(a.at(0));
    if (name == "exp") return std::exp(a.at(0));
    if (name == "min") return *std::min_element(a.begin(), a.end());
    if (name == "max") return *std::max_element(a.begin(), a.end());
    // tests/reference checks the functions of water against IAPWS.
    if (name == "saturation_temperature") {
      return in_celsius(saturation_temperature(kilopascals(a.at(0))));
    }
    if (name == "saturation_pressure") return in_pascals(saturation_pressure(celsius(a.at(0))));
    if (name == "latent_heat") return in_kilojoules_per_kilogram(latent_heat(celsius(a.at(0))));
    if (name == "mean_specific_heat") {
      return in_kilojoules_per_kilogram_kelvin(
          mean_liquid_specific_heat(celsius(a.at(0)), celsius(a.at(1))));
    }
    if (name == "water_density") return in_grams_per_millilitre(liquid_density(celsius(a.at(0))));
    if (name == "steam_density") return saturated_vapour_density(celsius(a.at(0))).si();
    if (name == "steam_viscosity") return saturated_vapour_viscosity(celsius(a.at(0))).si();
    throw std::runtime_error("unknown function " + name);
  }

  const std::string& text_;
  const std::map<std::string, double>& values_;
  std::size_t at_ = 0;
};

/// Checks every equation, and returns the values by symbol.
std::map<std::string, double> check_all(const Plan& plan, int& equations) {
  std::map<std::string, double> values;
  for (const Chapter& chapter : explain(plan, shipped())) {
    for (const ExplainedFigure& figure : chapter.figures) {
      CAPTURE(chapter.title, figure.symbol, figure.name, figure.equation, figure.value.number);
      CHECK_FALSE(values.contains(figure.symbol));  // each symbol has one meaning
      // Every figure says where it comes from.
      CHECK((!figure.equation.empty() || !figure.rule.empty() || !figure.evidence.basis.empty()));
      for (const std::string& source : figure.evidence.sources) {
        CAPTURE(source);
        CHECK(shipped().sources.contains(source));
      }
      if (!figure.equation.empty()) {
        ++equations;
        const double result = Calculator(figure.equation, values).result();
        // The rounded figures of a fit, and the two directions of IF97, differ by less than this.
        CHECK_THAT(result,
                   WithinAbs(figure.value.number, 1e-7 * std::abs(figure.value.number) + 1e-9));
      }
      values[figure.symbol] = figure.value.number;
    }
  }
  return values;
}

/// Checks that each number of the plan's JSON is explained, as a value or as the end of a range.
/// Leaves out the number of sources and the timeline, which uses the same equations at other times.
/// Leaves out the findings, whose numbers repeat figures of the plan or say what would help.
/// Returns how many numbers it checked.
int check_covered(const Plan& plan) {
  using nlohmann::json;
  const std::set<std::string> apart = {"timeline", "findings", "explain", "plan", "source_count"};
  std::vector<double> explained;
  std::set<std::string> sources;
  for (const Chapter& chapter : explain(plan, shipped())) {
    for (const ExplainedFigure& figure : chapter.figures) {
      explained.push_back(figure.value.number);
      const bool equation = figure.evidence.basis.empty();
      if (!equation) sources.insert(figure.evidence.sources.begin(), figure.evidence.sources.end());
      if (!figure.range) continue;
      explained.push_back(figure.range->low);
      explained.push_back(figure.range->high);
    }
  }
  int checked = 0;
  const auto look = [&](const auto& self, const json& node, const std::string& way) -> void {
    for (const auto& [key, value] : node.items()) {
      if (way.empty() && apart.contains(key)) continue;
      const std::string here = way + "/" + key;
      if (value.is_structured()) self(self, value, here);
      if (!value.is_number()) continue;
      const double number = value.template get<double>();
      ++checked;
      CAPTURE(here, number);
      CHECK(std::any_of(explained.begin(), explained.end(), [&](double e) {
        return std::abs(e - number) <= 1e-9 * std::abs(number) + 1e-9;
      }));
    }
  };
  look(look, json::parse(plan_json(plan)), "");
  // The plan also names every source that a figure of the explanation rests on.
  for (const std::string& source : sources) {
    CAPTURE(source);
    CHECK(plan.sources.contains(source));
  }
  return checked;
}

}  // namespace

TEST_CASE("the calculator of this test calculates", "[explain]") {
  const std::map<std::string, double> values = {{"a", 3.0}, {"b_1", 4.0}};
  CHECK_THAT(Calculator("2 + a * b_1 ^ 2 / (1 - -3)", values).result(), WithinRel(14.0, 1e-15));
  CHECK_THAT(Calculator("min(a, b_1) + max(a, b_1, 5) - 1e-3", values).result(),
             WithinRel(7.999, 1e-15));
  CHECK_THAT(Calculator("exp(-ln(2) / 2 * 4)", values).result(), WithinRel(0.25, 1e-15));
  CHECK_THROWS(Calculator("c", values).result());
  CHECK_THROWS(Calculator("a b_1", values).result());
}

TEST_CASE("every equation gives the figure it stands with: all plants, stills and methods",
          "[explain]") {
  int equations = 0;
  int runs = 0;
  for (Recipe& recipe : plain_recipes()) {
    CAPTURE(recipe.still->key, to_string(recipe.method_used()), recipe.plant->key);
    recipe.site.altitude = metres(300);
    recipe.site.coolant = celsius(12);
    const Plan plan = make_plan(recipe, shipped(), 16);
    const auto values = check_all(plan, equations);
    if (!plan.run) continue;
    ++runs;
    // The plan's own values, not worked out again.
    CHECK(values.at("m") == in_grams(plan.charge.mass));
    CHECK(values.at("V_fill") == in_millilitres(plan.run->water.pour));
    CHECK(values.at("t_boil") == in_minutes(plan.run->times.boil));
    CHECK(values.at("t_drop") == in_minutes(plan.run->times.first_drop));
    CHECK(values.at("t_stop") == in_minutes(plan.run->times.stop));
    // The worst case is above its reserve, unless the plan is refused.
    if (plan.verdict != Verdict::refused && values.contains("V_left_w")) {
      CHECK(values.at("V_left_w") >= values.at("V_res") * (1 - 1e-6));
    }
  }
  CHECK(runs > 60);
  CHECK(equations > 3000);
}

TEST_CASE("every equation gives the figure it stands with: random recipes", "[explain]") {
  test_random::Random random(11);
  int equations = 0;
  int runs = 0;
  for (int i = 0; i < 300; ++i) {
    CAPTURE(i);
    auto still = shipped().stills.begin();
    std::advance(still, random.between(0, 5.999));
    auto plant = shipped().plants.begin();
    std::advance(plant, random.between(0, double(shipped().plants.size()) - 0.001));
    const bool has_oil = has_oil_figures(plant->second);
    Recipe recipe;
    recipe.plant = plant->second;
    recipe.state = recipe.plant->states.rbegin()->first;
    recipe.cut = random.chance(0.5) ? Cut::whole : Cut::crushed;
    recipe.still = still->second;
    recipe.method = recipe.still->methods.back();
    if (random.chance(0.5))
      recipe.site.altitude = metres(random.between(0, 3000));
    else
      recipe.site.pressure = kilopascals(random.between(75, 103));
    recipe.site.room = celsius(random.between(8, 30));
    recipe.site.coolant = celsius(random.between(2, 20));
    recipe.setting = percent(random.between(60, 100));
    recipe.limits.absence = minutes(random.between(0, 20));
    if (random.chance(0.3)) recipe.limits.time = minutes(random.between(40, 200));
    if (random.chance(0.3)) recipe.charge = grams(random.between(50, 5000));
    if (random.chance(0.3)) recipe.own.bulk_density = grams_per_litre(random.between(60, 300));
    if (random.chance(0.3) && has_oil) recipe.own.oil_content = percent(random.between(0.1, 2));
    if (random.chance(0.2)) {
      recipe.own.boil_time = minutes(random.between(15, 60));
      recipe.own.boil_water = litres(random.between(1, 2));
    }
    if (random.chance(0.2)) {
      recipe.own.distillate_rate = millilitres_per_minute(random.between(5, 20));
    }
    if (random.chance(0.4))
      recipe.goal = HydrosolGoal{millilitres(random.between(100, 900))};
    else if (random.chance(0.3))
      recipe.goal = TimeGoal{minutes(random.between(50, 150))};
    else if (random.chance(0.2))
      recipe.goal = RatioGoal{litres_per_kilogram(random.between(0.5, 5))};
    else if (random.chance(0.3) && has_oil)
      recipe.goal = OilShareGoal{percent(random.between(30, 95))};
    if (random.chance(0.2)) recipe.water = litres(random.between(0.3, 3));
    if (random.chance(0.15) && has_oil) recipe.goal = OilGoal{grams(random.between(0.05, 5))};
    if (random.chance(0.1)) recipe.site.coolant = celsius(random.between(34, 48));   // too warm
    if (random.chance(0.1)) recipe.goal = TimeGoal{minutes(random.between(2, 12))};  // too short
    if (random.chance(0.2) && has_oil) {
      recipe.plant.change().release_class.clear();
      for (const Method method : {Method::steam, Method::water_and_steam, Method::hydro}) {
        recipe.plant.change().release[method] = {
            test_stills::exactly(minutes(random.between(0.1, 60))),
            test_stills::exactly(percent(random.between(0, 95))),
            {}};
      }
    }
    if (random.chance(0.2)) {
      recipe.still.change().condenser.ice_per_change = test_stills::exactly(kilograms(0));
    }
    if (random.chance(0.1)) recipe.plant.change().constituents.clear();
    recipe.prices = {0.3, 5.0, "EUR"};
    const Plan plan = make_plan(recipe, shipped(), 16);
    check_all(plan, equations);
    if (!plan.run) continue;
    ++runs;
    check_covered(plan);
  }
  CHECK(runs > 100);
  CHECK(equations > 3000);
}

TEST_CASE("every figure of a plan is explained", "[explain]") {
  int checked = 0;
  for (Recipe& recipe : plain_recipes({"lavender", "clove-bud", "norway-spruce", "rose"})) {
    CAPTURE(recipe.still->key, to_string(recipe.method_used()), recipe.plant->key);
    recipe.site.coolant = celsius(12);
    recipe.goal = HydrosolGoal{millilitres(150)};
    recipe.receiver_volume = millilitres(100);
    recipe.limits.time = hours(3);
    recipe.prices = {0.3, 5.0, "EUR"};
    const Plan plan = make_plan(recipe, shipped(), 16);
    if (!plan.run) continue;
    checked += check_covered(plan);
  }
  CHECK(checked > 1500);
}

TEST_CASE("a class default says so where it is explained", "[explain]") {
  Recipe recipe;
  recipe.plant = shipped().plants.at("lavender");
  recipe.plant.change().states.at(State::fresh).bulk_density.clear();
  recipe.still = shipped().stills.at("bench-column");
  bool said = false;
  for (const Chapter& chapter : explain(make_plan(recipe, shipped(), 16), shipped())) {
    for (const ExplainedFigure& figure : chapter.figures) {
      if (figure.symbol == "rho_b") said = figure.evidence.basis.starts_with("class default");
    }
  }
  CHECK(said);
}

TEST_CASE("a plan without a run is explained as far as it goes", "[explain]") {
  Recipe recipe;
  recipe.plant = shipped().plants.at("lavender");
  recipe.still = shipped().stills.at("bench-column");
  recipe.setting = percent(3);  // never boils
  const Plan plan = make_plan(recipe, shipped(), 16);
  REQUIRE(plan.verdict == Verdict::refused);
  const auto chapters = explain(plan, shipped());
  REQUIRE(chapters.size() == 2);
  CHECK(chapters[1].title == "The charge");
}

TEST_CASE("a plan without workings can't be explained", "[explain]") {
  Recipe recipe;
  recipe.plant = shipped().plants.at("lavender");
  recipe.still = shipped().stills.at("bench-column");
  CHECK_THROWS_AS(explain(make_plan(recipe, shipped(), 16, Detail::brief), shipped()), Error);
  CHECK_THROWS_AS(explain(Plan(), shipped()), Error);
}

TEST_CASE("a copy of a plan outlives it, and has the same explanation", "[explain]") {
  Recipe recipe;
  recipe.plant = shipped().plants.at("lavender");
  recipe.still = shipped().stills.at("bench-column");
  std::optional<Plan> plan = make_plan(recipe, shipped(), 16);
  const std::string explained = plan_json(*plan, explain(*plan, shipped()));
  const Plan copy = *plan;
  plan.reset();
  CHECK(plan_json(copy, explain(copy, shipped())) == explained);
}

TEST_CASE("equations and functions name sources of the table", "[explain]") {
  for (const EquationSource& source : equation_sources()) {
    CAPTURE(source.supports);
    CHECK(shipped().sources.contains(std::string(source.key)));
  }
  for (const PropertyFunction& function : property_functions()) {
    CHECK(shipped().sources.contains(std::string(function.source.key)));
  }
}
