#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <utility>

#include "firstdrop/base/error.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/tables/tables.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {
namespace {

constexpr std::size_t most_ways = 3;
// Number of values tried between the value asked for and the farthest it may be changed to. Then
// the number of halvings between the last value that doesn't work and the first that does.
constexpr int steps = 16;
constexpr int halvings = 5;
// A part more than so many times larger belongs to another still.
constexpr double much_larger = 5.0;
// A condenser is easier to replace.
constexpr double much_more_surface = 10.0;

/// A value of the recipe that may be changed. All numbers are in one unit.
struct Change {
  double asked;                        ///< value in the recipe, for which it is refused
  double last;                         ///< farthest value it may be changed to
  std::function<double(double)> neat;  ///< rounds to a mark, towards `last`
  std::function<void(Recipe&, double)> make;
  std::function<std::string(double)> words;
};

/// Rounds to a multiple of `mark`, towards `last`.
std::function<double(double)> down_to(double mark) {
  return [mark](double x) { return std::floor(x / mark + 1e-9) * mark; };
}
std::function<double(double)> up_to(double mark) {
  return [mark](double x) { return std::ceil(x / mark - 1e-9) * mark; };
}
/// Rounds up to two digits.
double two_digits_up(double x) {
  const double mark = std::pow(10.0, std::floor(std::log10(x)) - 1.0);
  return std::ceil(x / mark - 1e-9) * mark;
}

template <class Figure, class Value>
void set(Figure& figure, Value value) {
  figure.range = decltype(figure.range)::exactly(value);
}

/// Gives the pot another volume, with the same make and proportions.
void resize_pot(Still& still, Volume volume, Units units) {
  const double scale = volume / still.pot.volume.typical();
  const auto by = [](auto& figure, double times) { set(figure, figure.typical() * times); };
  by(still.pot.volume, scale);
  by(still.pot.diameter, std::cbrt(scale));
  by(still.pot.mass, std::cbrt(scale * scale));
  if (still.grid) {
    set(still.grid->water_below, neat_down(still.grid->water_below.typical() * scale, units));
  }
}

class Finder {
 public:
  /// Keeps references. If `only_from` names a finding, a change counts when it removes that
  /// finding, even if something else then refuses the plan.
  Finder(const Plan& refused, const Tables& tables, const Sampling& sampling,
         std::string_view only_from = {})
      : plan_(refused),
        asked_(refused.recipe),
        tables_(tables),
        sampling_(sampling),
        only_from_(only_from),
        units_(asked_.units),
        maker_(tables) {}

  std::vector<WayOut> find() {
    if (plan_.verdict != Verdict::refused) return {};
    drop_readings();
    less_lateness();
    less_heat();
    colder_coolant();
    lower_goal();
    longer_time();
    less_herb();
    other_water();
    more_heat();
    more_herb();
    less_confidence();
    other_condenser();
    larger_pot();
    other_heater();
    return std::move(found_);
  }

  /// For when no single change works: a change that leads to another refusal, followed by one that
  /// leads out of that.
  std::vector<WayOut> find_two() {
    if (plan_.verdict != Verdict::refused) return {};
    for (const WayOut& first :
         Finder(plan_, tables_, sampling_, plan_.findings.front().code()).find()) {
      const auto then = any_plan(first.recipe);
      if (!then) continue;
      for (const WayOut& second : Finder(*then, tables_, sampling_).find()) {
        found_.push_back({fmt::format("{}, and {}", first.text, second.text), second.recipe});
        break;
      }
    }
    return std::move(found_);
  }

 private:
  static bool has_code(const Plan& plan, std::string_view code) {
    return std::any_of(plan.findings.begin(), plan.findings.end(),
                       [&](const Finding& finding) { return finding.code() == code; });
  }
  template <class Quantity>
  std::string text(Quantity quantity) const {
    return firstdrop::text(quantity, units_);
  }

  /// None when the changed recipe isn't valid.
  std::optional<Plan> any_plan(const Recipe& recipe) {
    try {
      return maker_.make(recipe, sampling_, Detail::brief);
    } catch (const Error&) {
    }
    return std::nullopt;
  }

  bool does(const Recipe& recipe) {
    const auto plan = any_plan(recipe);
    if (!plan) return false;
    return only_from_.empty() ? plan->verdict != Verdict::refused : !has_code(*plan, only_from_);
  }

  Recipe changed(const Change& change, double value) const {
    Recipe recipe = asked_;
    change.make(recipe, value);
    return recipe;
  }

  /// Finds the smallest change of its kind that works.
  void look(const Change& change) {
    if (found_.size() == most_ways) return;
    const auto enough_is = [&](double value) { return does(changed(change, value)); };
    double refused = change.asked;
    std::optional<double> enough;
    for (int i = 1; i <= steps && !enough; ++i) {
      const double way = double(i) / steps;
      const double value = change.neat(change.asked * std::pow(change.last / change.asked, way));
      if (value == refused || !(value > 0.0)) continue;
      if (enough_is(value))
        enough = value;
      else
        refused = value;
    }
    if (!enough) return;
    for (int i = 0; i < halvings; ++i) {
      const double middle = change.neat((refused + *enough) / 2.0);
      if (middle == refused || middle == *enough) break;
      (enough_is(middle) ? *enough : refused) = middle;
    }
    found_.push_back({change.words(*enough), changed(change, *enough)});
  }

  void offer(const std::string& words, const Recipe& recipe) {
    if (found_.size() == most_ways || !does(recipe)) return;
    found_.push_back({words, recipe});
  }

  // --- the run ----------------------------------------------------------------------------------

  void drop_readings() {
    if (finding_of<found::OwnFigureImpossible>(plan_.findings) == nullptr) return;
    Recipe recipe = asked_;
    recipe.own.boil_time.reset();
    recipe.own.distillate_rate.reset();
    offer("leave out own.distillate_rate and own.boil_time until you have measured them again",
          recipe);
  }

  void less_lateness() {
    const double late = in_minutes(asked_.limits.absence);
    if (late <= 1.0) return;
    look({late, 1.0, down_to(1.0),
          [](Recipe& recipe, double x) { recipe.limits.absence = minutes(x); },
          [&](double x) {
            return fmt::format("stop no more than {} late (limits.absence)", text(minutes(x)));
          }});
  }

  // Readings taken on the bench stay tied to the setting at which they were taken.
  static void turn(Recipe& recipe, double per_cent) {
    if (!recipe.own.setting) recipe.own.setting = recipe.setting;
    recipe.setting = percent(per_cent);
  }
  std::string turned(double per_cent) const {
    const bool measured = asked_.own.boil_time || asked_.own.distillate_rate;
    return fmt::format("set the heater to {:.0f} %{}", per_cent,
                       measured && !asked_.own.setting
                           ? fmt::format(" (and own.setting to {:.0f} %, at which you measured)",
                                         in_percent(asked_.setting))
                           : "");
  }
  void less_heat() {
    const double setting = in_percent(asked_.setting);
    if (setting <= 10.0) return;
    look({setting, 10.0, down_to(5.0), turn, [&](double x) { return turned(x); }});
  }
  void more_heat() {
    const double setting = in_percent(asked_.setting);
    if (setting >= 100.0) return;
    look({setting, 100.0, up_to(5.0), turn, [&](double x) { return turned(x); }});
  }

  void colder_coolant() {
    const double coolant = in_celsius(asked_.site.coolant.value_or(asked_.site.room));
    if (coolant <= 5.0) return;
    look({coolant, 5.0, down_to(1.0),
          [](Recipe& recipe, double x) { recipe.site.coolant = celsius(x); },
          [&](double x) { return fmt::format("start with coolant at {}", text(celsius(x))); }});
  }

  // --- what is asked for ------------------------------------------------------------------------

  void less_hydrosol(Volume asked, Volume least) {
    look({asked.si(), least.si(),
          [&](double x) { return neat_down(Volume::from_si(x), units_).si(); },
          [](Recipe& recipe, double x) { recipe.goal = HydrosolGoal{Volume::from_si(x)}; },
          [&](double x) {
            const Volume less = Volume::from_si(x);
            const auto* goal = std::get_if<HydrosolGoal>(&asked_.goal);
            const double times = goal ? std::ceil(goal->volume / less - 1e-9) : 1.0;
            return fmt::format("ask for {} of hydrosol{}", text(less),
                               plan_.charge.runs == 1 && times > 1.0
                                   ? fmt::format(" at a time, {:.0f} times", times)
                                   : "");
          }});
  }

  void lower_goal() {
    const Volume least =
        tables_.design_defaults.least_run.typical() * double(std::max(plan_.charge.runs, 1));
    const Volume pot = asked_.still->pot.volume.typical();
    if (const auto* hydrosol = std::get_if<HydrosolGoal>(&asked_.goal)) {
      if (hydrosol->volume > least) less_hydrosol(hydrosol->volume, least);
    } else if (const auto* ratio = std::get_if<RatioGoal>(&asked_.goal)) {
      const double asked = in_litres_per_kilogram(ratio->hydrosol_per_fresh);
      if (asked > 0.2) {
        look({asked, 0.2, down_to(0.1),
              [](Recipe& recipe, double x) { recipe.goal = RatioGoal{litres_per_kilogram(x)}; },
              [](double x) { return fmt::format("ask for {:.1f} L per kg of fresh herb", x); }});
      }
    } else if (const auto* share = std::get_if<OilShareGoal>(&asked_.goal)) {
      const double asked = in_percent(share->share);
      if (asked > 5.0) {
        look({asked, 5.0, down_to(1.0),
              [](Recipe& recipe, double x) { recipe.goal = OilShareGoal{percent(x)}; },
              [](double x) { return fmt::format("ask for {:.0f} % of the oil", x); }});
      }
    } else if (const auto* oil = std::get_if<OilGoal>(&asked_.goal)) {
      const bool by_mass = std::holds_alternative<Mass>(oil->amount);
      const double asked = by_mass ? in_grams(std::get<Mass>(oil->amount))
                                   : in_millilitres(std::get<Volume>(oil->amount));
      const double mark = asked < 1.0 ? 0.01 : asked < 100.0 ? 0.1 : 1.0;
      look({asked, asked / 20.0, down_to(mark),
            [by_mass](Recipe& recipe, double x) {
              if (by_mass)
                recipe.goal = OilGoal{grams(x)};
              else
                recipe.goal = OilGoal{millilitres(x)};
            },
            [by_mass](double x) {
              return fmt::format("ask for {:.3g} {} of oil", x, by_mass ? "g" : "mL");
            }});
      Recipe recipe = asked_;
      recipe.goal = HarvestGoal{};
      recipe.confidence.reset();
      offer(
          "leave out the goal, so that the run stops when the oil that is left isn't worth more "
          "water",
          recipe);
    } else if (const auto* time = std::get_if<TimeGoal>(&asked_.goal)) {
      const double asked = in_minutes(time->time);
      if (asked > 10.0) {
        look({asked, 10.0, down_to(1.0),
              [](Recipe& recipe, double x) { recipe.goal = TimeGoal{minutes(x)}; },
              [&](double x) { return fmt::format("stop {} after the start", text(minutes(x))); }});
      }
      less_hydrosol(pot, least);
    } else {
      less_hydrosol(pot, least);
    }
  }

  void longer_time() {
    const double most = in_minutes(tables_.design_defaults.longest_run.typical());
    if (const auto* time = std::get_if<TimeGoal>(&asked_.goal)) {
      look({in_minutes(time->time), std::min(most, 8.0 * in_minutes(time->time)), up_to(5.0),
            [](Recipe& recipe, double x) { recipe.goal = TimeGoal{minutes(x)}; },
            [&](double x) { return fmt::format("run for {} from the start", text(minutes(x))); }});
    } else if (asked_.limits.time) {
      const double limit = in_minutes(*asked_.limits.time);
      look({limit, std::min(most, 8.0 * limit), up_to(5.0),
            [](Recipe& recipe, double x) { recipe.limits.time = minutes(x); },
            [&](double x) { return fmt::format("allow {} (limits.time)", text(minutes(x))); }});
    }
  }

  void less_confidence() {
    if (!asked_.confidence) return;
    look({in_percent(*asked_.confidence), 5.0, down_to(1.0),
          [](Recipe& recipe, double x) { recipe.confidence = percent(x); },
          [](double x) { return fmt::format("accept a goal.confidence of {:.0f} %", x); }});
  }

  // --- what is loaded ---------------------------------------------------------------------------

  void less_herb() {
    const Mass asked = asked_.charge.value_or(plan_.charge.mass * double(plan_.charge.runs));
    if (asked <= grams(1)) return;
    // Down to half the charge of one run, or less.
    look_at_herb(asked, asked / std::max(30.0, 2.0 * plan_.charge.runs), neat_down);
  }
  void more_herb() {
    if (asked_.charge) look_at_herb(*asked_.charge, *asked_.charge * 20.0, neat_up);
  }
  void look_at_herb(Mass asked, Mass last, Mass (*neat)(Mass, Units)) {
    look({asked.si(), last.si(), [&](double x) { return neat(Mass::from_si(x), units_).si(); },
          [](Recipe& recipe, double x) { recipe.charge = Mass::from_si(x); },
          [&](double x) { return fmt::format("use {} of herb", text(Mass::from_si(x))); }});
  }

  // Pours as much as the plan would choose by itself.
  void other_water() {
    if (!asked_.water || found_.size() == most_ways) return;
    Recipe recipe = asked_;
    if (!recipe.own.boil_water) recipe.own.boil_water = recipe.water;
    recipe.water.reset();
    const auto plan = any_plan(recipe);
    if (!plan || !plan->run) return;
    recipe.water = plan->run->water.pour;
    // A measured time to boil stays tied to the water with which it was measured.
    const bool of_this_water = asked_.own.boil_time && !asked_.own.boil_water;
    offer(fmt::format("pour {} of water{}", text(*recipe.water),
                      of_this_water ? fmt::format(" (and set own.boil_water to {}, with which "
                                                  "you measured own.boil_time)",
                                                  text(*asked_.water))
                                    : ""),
          recipe);
  }

  // --- another still ----------------------------------------------------------------------------

  void other_condenser() {
    const Condenser& condenser = asked_.still->condenser;
    if (condenser.coolant) {
      const Volume bath = condenser.coolant->typical();
      if (!condenser.ice_per_change || condenser.ice_per_change->typical() <= Mass()) {
        Recipe recipe = asked_;
        const Mass ice = neat_down(bath * kilograms_per_cubic_metre(500), units_);
        Cited<Mass> figure;
        figure.range = Range<Mass>::exactly(ice);
        recipe.still.change().condenser.ice_per_change = figure;
        if (ice > grams(0)) {
          offer(fmt::format("use ice, up to {} at a time (the still's ice_per_change)", text(ice)),
                recipe);
        }
      }
      look({bath.si(), bath.si() * 20.0,
            [&](double x) { return neat_up(Volume::from_si(x), units_).si(); },
            [](Recipe& recipe, double x) {
              set(*recipe.still.change().condenser.coolant, Volume::from_si(x));
            },
            [&](double x) {
              return fmt::format("use {} of coolant in total", text(Volume::from_si(x)));
            }});
    } else {
      look({in_litres_per_minute(condenser.flow_limit->typical()),
            10.0 * in_litres_per_minute(condenser.flow_limit->typical()), two_digits_up,
            [](Recipe& recipe, double x) {
              set(*recipe.still.change().condenser.flow_limit, millilitres_per_minute(x * 1e3));
            },
            [&](double x) {
              return fmt::format("use a hose that delivers {}",
                                 text(millilitres_per_minute(x * 1e3)));
            }});
    }
    const double limit = in_celsius(condenser.coolant_limit.typical());
    if (finding_of<found::CoolantLimitHigh>(plan_.findings) != nullptr) {
      look({limit, 30.0, down_to(1.0),
            [](Recipe& recipe, double x) {
              set(recipe.still.change().condenser.coolant_limit, celsius(x));
            },
            [&](double x) {
              return fmt::format(
                  "let the coolant get no warmer than {} (lower the still's coolant_limit)",
                  text(celsius(x)));
            }});
    }
    const double surface = in_square_metres(condenser.surface.typical());
    look({surface, much_more_surface * surface, two_digits_up,
          [](Recipe& recipe, double x) {
            set(recipe.still.change().condenser.surface, square_metres(x));
          },
          [&](double x) {
            return fmt::format("use a condenser with {} of surface", text(square_metres(x)));
          }});
  }

  void larger_pot() {
    const Volume pot = asked_.still->pot.volume.typical();
    look({pot.si(), pot.si() * much_larger,
          [&](double x) { return neat_up(Volume::from_si(x), units_).si(); },
          [&](Recipe& recipe, double x) {
            resize_pot(recipe.still.change(), Volume::from_si(x), units_);
          },
          [&](double x) {
            Still still = *asked_.still;
            resize_pot(still, Volume::from_si(x), units_);
            std::string words = fmt::format("use a pot of about {}", text(Volume::from_si(x)));
            if (asked_.method_used() == Method::water_and_steam) {
              words +=
                  fmt::format(" with {} below its grid", text(still.grid->water_below.typical()));
            }
            return words;
          }});
  }

  void other_heater() {
    const double power = in_watts(asked_.still->heater.power.typical());
    const auto make = [](Recipe& recipe, double x) {
      set(recipe.still.change().heater.power, watts(x));
    };
    const auto words = [&](double x) { return fmt::format("use a heater of {}", text(watts(x))); };
    look({power, power * much_larger, up_to(50.0), make, words});
    look({power, power / much_larger, down_to(50.0), make, words});
  }

  const Plan& plan_;
  const Recipe& asked_;
  const Tables& tables_;
  Sampling sampling_;
  std::string_view only_from_;
  Units units_;
  PlanMaker maker_;
  std::vector<WayOut> found_;
};

}  // namespace

std::vector<WayOut> ways_out(const Plan& refused, const Tables& tables, const Sampling& sampling) {
  std::vector<WayOut> single = Finder(refused, tables, sampling).find();
  return single.empty() ? Finder(refused, tables, sampling).find_two() : std::move(single);
}

void add_ways_out(Plan& plan, const Tables& tables, const Sampling& sampling) {
  plan.ways_out.clear();
  if (finding_of<found::NotToBeDistilled>(plan.findings) != nullptr) return;
  for (WayOut& way : ways_out(plan, tables, sampling)) plan.ways_out.push_back(std::move(way.text));
  plan.measure_next = measurements_that_help(plan, tables, sampling);
}

}  // namespace firstdrop
