#include "monotone_properties.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "firstdrop/plan/plan.hpp"
#include "model/model_parameters.hpp"
#include "model/parameters_at.hpp"
#include "model/worst_case.hpp"
#include "physics/water.hpp"
#include "plan_properties.hpp"
#include "random_recipe.hpp"

namespace property {
namespace {

using namespace firstdrop;
using test_random::Random;

class Comparison {
 public:
  Comparison(const Plan& plan, const Tables& tables, int samples, Random& random, Pairs& pairs)
      : plan_(plan),
        tables_(tables),
        samples_(samples),
        random_(random),
        pairs_(pairs),
        basis_(basis_of(plan, tables)) {}

  Violations make() {
    more_heat("more power is never later", [&](ModelParameters& parameters, double by) {
      auto& range = parameters.recipe.still.change().heater.power.range;
      range = {range.low * by, range.typical * by, range.high * by, range.by_ratio};
    });
    more_heat("a higher setting is never later", [&](ModelParameters& parameters, double by) {
      parameters.recipe.setting = parameters.recipe.setting * by;
    });
    higher_up();
    more_water();
    more_charge();
    // Each of these plans the recipe again, so only one of them is drawn.
    switch (random_.below(4)) {
      case 0:
        longer_absence();
        break;
      case 1:
        larger_minimum();
        break;
      case 2:
        larger_reserve_share();
        break;
      default:
        higher_setting_planned();
    }
    return judge_.take();
  }

 private:
  SamplePoint some_point() {
    SamplePoint point = SamplePoint::medians();
    switch (random_.below(3)) {
      case 0:
        break;
      case 1:
        point = worst_for_water();
        break;
      default:
        for (std::size_t input = 0; input < parameter_count; ++input) {
          point.set(static_cast<Parameter>(input), random_.between(0, 1));
        }
    }
    return point;
  }

  void no_later(const char* name, Duration a, Duration b) {
    judge_.no_more(name, a.si(), b.si(), rounding);
  }

  /// Compares the same charge, fill and stop with more heat under it.
  template <class Change>
  void more_heat(const char* name, Change change) {
    Basis hotter = basis_;
    change(hotter.parameters, random_.between(1.0, 2.5));
    const SamplePoint point = some_point();
    const Run low = basis_.run(point);
    const Run high = hotter.run(point);
    if (low.failure()) return;
    judge_.holds(!high.failure(), name, "more heat, and it fails");
    if (high.failure()) return;
    ++pairs_[name];
    no_later(name, high.boil(), low.boil());
    no_later(name, high.first_drop(), low.first_drop());
    if (const auto& level = plan_.run->stop.hydrosol) {
      no_later(name, high.time_of_hydrosol(*level), low.time_of_hydrosol(*level));
    }
    const Mass reserve = plan_.run->water.reserve * basis_.parameters.fill_density;
    for (const Mass left : {reserve, grams(0)}) {
      no_later(name, high.time_until_left(left), low.time_until_left(left));
    }
  }

  void higher_up() {
    constexpr auto name = "higher up never boils hotter";
    Recipe recipe = plan_.recipe;
    recipe.site.pressure.reset();
    const double low = random_.between(-430, 5000);
    recipe.site.altitude = metres(low);
    const ModelParameters below = model_parameters(recipe, tables_);
    recipe.site.altitude = metres(random_.between(low, 5000));
    const ModelParameters above = model_parameters(recipe, tables_);
    ++pairs_[name];
    judge_.no_more(name, above.boiling.kelvin(), below.boiling.kelvin());
    const Run high(run_values_at(above, SamplePoint::medians(), basis_.charge, basis_.fill));
    const Run deep(run_values_at(below, SamplePoint::medians(), basis_.charge, basis_.fill));
    if (high.failure() || deep.failure()) return;
    const Duration boiling = std::max(high.boil(), deep.boil());
    judge_.no_more(name, high.pot_temperature(boiling).kelvin(),
                   deep.pot_temperature(boiling).kelvin());
  }

  void more_water() {
    constexpr auto name = "more water is never dry earlier";
    const double by = random_.between(1.0, 1.6);
    const SamplePoint point = some_point();
    const Run less = basis_.run(point);
    const Run more(run_values_at(basis_.parameters, point, basis_.charge, basis_.fill * by));
    if (!less.failure()) {
      judge_.holds(!more.failure(), name, "more water, and it fails");
      if (more.failure()) return;
      ++pairs_[name];
      no_later(name, less.boil(), more.boil());
      no_later(name, less.time_until_left(grams(0)), more.time_until_left(grams(0)));
    }
    constexpr auto at_worst = "more water is never dry earlier at worst";
    const auto worst = [&](Mass fill) {
      return WorstCase(basis_.parameters, basis_.charge)
          .run(fill, plan_.run->stop, plan_.recipe.limits.absence);
    };
    const Run worst_less = worst(basis_.fill);
    const Run worst_more = worst(basis_.fill * by);
    if (worst_less.failure() || worst_more.failure()) return;
    ++pairs_[at_worst];
    no_later(at_worst, worst_less.time_until_left(grams(0)), worst_more.time_until_left(grams(0)));
  }

  /// A larger charge takes more heat. The water left in the pot isn't compared, because it depends
  /// on how much the charge holds or lets drip back.
  void more_charge() {
    constexpr auto name = "more charge never drips sooner";
    // A measured time to boil gives the heat from all that was heated, so a larger charge would
    // mean a stronger heater.
    if (plan_.recipe.own.boil_time) return;
    const SamplePoint point = some_point();
    const Run less = basis_.run(point);
    const Run more(run_values_at(basis_.parameters, point,
                                 basis_.charge * random_.between(1.0, 2.0), basis_.fill));
    if (less.failure() || more.failure()) return;
    ++pairs_[name];
    no_later(name, less.boil(), more.boil());
    no_later(name, less.first_drop(), more.first_drop());
  }

  std::optional<Plan> planned(const Recipe& recipe, const Tables& tables) {
    return random_recipe::planned(recipe, tables, samples_);
  }

  static bool accepted(const Plan& plan) { return plan.verdict != Verdict::refused; }

  /// Whether both plans are accepted, with the same charge and stop. The more careful plan may
  /// instead have brought its stop forward to make room, which is careful as well.
  bool comparable(const std::optional<Plan>& careful) {
    return careful && accepted(plan_) && accepted(*careful) &&
           careful->charge.mass == plan_.charge.mass && careful->charge.runs == plan_.charge.runs &&
           careful->run->stop.hydrosol == plan_.run->stop.hydrosol &&
           careful->run->stop.clock == plan_.run->stop.clock;
  }

  void longer_absence() {
    constexpr auto name = "a longer absence never needs less water";
    if (!accepted(plan_)) return;
    Recipe recipe = plan_.recipe;
    recipe.limits.absence += minutes(random_.log_uniform(0.5, 90));
    const auto late = planned(recipe, tables_);
    if (!comparable(late)) return;
    ++pairs_[name];
    judge_.no_more(name, plan_.run->water.first_fill.si(), late->run->water.first_fill.si());
  }

  /// Water left in the pot in the worst credible case when the person comes late.
  Mass left_at_worst(const Plan& plan) {
    const Mass fill = plan.run->water.first_fill * basis_.parameters.fill_density;
    const Run worst = WorstCase(basis_.parameters, plan.charge.mass)
                          .run(fill, plan.run->stop, plan.recipe.limits.absence);
    if (worst.failure()) return fill;
    return worst.water_at(stop_time(worst, plan.run->stop) + plan.recipe.limits.absence).left;
  }

  void no_less_margin(const char* name, const std::optional<Plan>& careful) {
    if (!comparable(careful)) return;
    ++pairs_[name];
    const double slack = rounding * basis_.fill.si();
    judge_.no_more(name, left_at_worst(plan_).si(), left_at_worst(*careful).si(), slack);
    judge_.no_more(name, plan_.run->water.reserve.si(), careful->run->water.reserve.si());
  }

  void larger_minimum() {
    if (!accepted(plan_)) return;
    Recipe recipe = plan_.recipe;
    auto& range = recipe.still.change().pot.minimum_water.range;
    const double by = random_.between(1.0, 3.0);
    range = {range.low * by, range.typical * by, range.high * by, range.by_ratio};
    no_less_margin("a larger least water never leaves less", planned(recipe, tables_));
  }

  void larger_reserve_share() {
    if (!accepted(plan_)) return;
    static const Tables careful = [&] {
      Tables other = tables_;
      auto& range = other.design_defaults.reserve_share.range;
      range = Range<Fraction>::exactly(range.typical * 1.4);
      return other;
    }();
    no_less_margin("a larger reserve share never leaves less", planned(plan_.recipe, careful));
  }

  void higher_setting_planned() {
    constexpr auto name = "a plan at a higher setting never drips later";
    Recipe recipe = plan_.recipe;
    if (!recipe.charge || !recipe.water) {
      recipe.charge = plan_.charge.harvest;
      recipe.water = plan_.run->water.first_fill;
    }
    const auto low = planned(recipe, tables_);
    recipe.setting = fraction(random_.between(double(recipe.setting), 1.0));
    const auto high = planned(recipe, tables_);
    if (!low || !high || !low->run || !high->run || low->charge.mass != high->charge.mass) return;
    ++pairs_[name];
    no_later(name, high->run->times.boil, low->run->times.boil);
    no_later(name, high->run->times.first_drop, low->run->times.first_drop);
  }

  const Plan& plan_;
  const Tables& tables_;
  int samples_;
  Random& random_;
  Pairs& pairs_;
  Basis basis_;
  Judge judge_;
};

}  // namespace

Violations monotone_violations(const Plan& plan, const Tables& tables, int samples, Random& random,
                               Pairs& pairs) {
  return Comparison(plan, tables, samples, random, pairs).make();
}

}  // namespace property
