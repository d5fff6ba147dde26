#include "plan_properties.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "condensing_by_steps.hpp"
#include "credible_point.hpp"
#include "firstdrop/output/finding_words.hpp"
#include "firstdrop/output/write.hpp"
#include "model/worst_case.hpp"
#include "physics/water.hpp"
#include "quantity/numbers_text.hpp"

namespace property {
namespace {

using namespace firstdrop;
using test_random::Random;

constexpr int random_points = 16;

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

/// A bound of a figure that is above zero by nature, as the planner takes it.
template <class T>
T end_of(const Range<T>& range, bool most) {
  const T end = most ? range.most() : range.least();
  return range.by_ratio ? end : std::max(end, range.low * 0.5);
}

// --- any plan ------------------------------------------------------------------------------------

template <class T>
void check_range(Judge& judge, const Range<T>& range) {
  judge.holds(std::isfinite(range.low.si()) && std::isfinite(range.high.si()), "ranges are finite");
  judge.holds(range.low <= range.typical && range.typical <= range.high, "percentiles in order");
}

void check_findings(Judge& judge, const Plan& plan) {
  // Each code occurs once. Only a plant may have several hazards, and each plant of a blend is
  // judged by itself.
  std::set<std::string> said;
  bool refuses = false;
  bool cautions = false;
  for (const Finding& finding : plan.findings) {
    const std::string named(finding.code());
    const char* code = named.c_str();
    const std::string text = finding_text(finding, plan.recipe.units);
    const auto [value, limit] = finding_amounts(finding);
    const bool of_a_plant =
        finding.is<found::PlantHazard>() ||
        (!plan.recipe.plant->blend.empty() &&
         (finding.is<found::NotToBeDistilled>() || finding.is<found::SteamSpoils>() ||
          finding.is<found::PlantUnknown>()));
    judge.holds(of_a_plant || said.insert(named).second, "findings are said once", code);
    judge.holds(!named.empty() && !text.empty(), "findings have words", code);
    judge.holds(!has_word(text, "nan") && !has_word(text, "inf"), "findings name real numbers",
                code);
    judge.holds(!value || !limit || value->unit == limit->unit,
                "value and limit of a finding have one unit", code);
    for (const auto& amount : {value, limit}) {
      judge.holds(!amount || std::isfinite(amount->number), "findings carry real numbers", code);
    }
    refuses = refuses || finding.level == Level::refuse;
    cautions = cautions || finding.level == Level::caution;
  }
  judge.holds((plan.verdict == Verdict::refused) == refuses, "verdict follows the findings");
  judge.holds((plan.verdict == Verdict::caution) == (!refuses && cautions),
              "verdict follows the findings");
  judge.holds(std::is_sorted(plan.findings.begin(), plan.findings.end(),
                             [](const Finding& a, const Finding& b) { return a.level > b.level; }),
              "worst findings first");
  judge.holds(plan.verdict == Verdict::refused || plan.run, "an accepted plan has a run");
}

void check_numbers(Judge& judge, const Plan& plan) {
  // NaN and infinity are written as null.
  judge.holds(plan_json(plan).find("null") == std::string::npos, "no null in JSON");
  if (!plan.run) return;
  const Uncertainty& uncertainty = plan.run->uncertainty;
  check_range(judge, uncertainty.hydrosol);
  check_range(judge, uncertainty.dissolved_oil);
  check_range(judge, uncertainty.oil_in_charge);
  check_range(judge, uncertainty.oil_vaporised);
  check_range(judge, uncertainty.oil_in_receiver);
  check_range(judge, uncertainty.oil_volume);
  check_range(judge, uncertainty.oil_density);
  check_range(judge, uncertainty.oil_share);
  check_range(judge, uncertainty.first_drop);
  check_range(judge, uncertainty.stop);
  judge.holds(uncertainty.oil_in_receiver.low >= grams(0), "no oil below zero");
  judge.no_more("no more oil than there is", uncertainty.oil_share.high, 1.0);
  if (uncertainty.chance_of_goal) {
    judge.holds(*uncertainty.chance_of_goal >= 0.0 && *uncertainty.chance_of_goal <= 1.0,
                "a chance is one");
  }
}

/// Checks the balances of water and heat at many times of a run that reaches its first drop.
void check_balances_of(Judge& judge, const Run& run, Duration stop) {
  if (run.failure()) return;
  const RunValues& v = run.values();
  // A heater that just exceeds the losses takes ten thousand years to dry a pot. Sums over such a
  // time are differences of large numbers, so stop at a year.
  const Duration end = std::min(std::max(run.time_until_left(grams(0)), stop), hours(24 * 365));
  for (int i = 0; i <= 12; ++i) {
    const Duration time = i == 12 ? stop : end * (i / 11.0);
    const WaterBalance w = run.water_at(time);
    const Mass mass = v.first_fill - w.distilled - w.uncondensed - w.held - w.left;
    judge.no_more("mass closes", std::abs(mass.si()), rounding * v.first_fill.si());
    const EnergyBalance e = run.energy_at(time);
    judge.no_more("energy closes", std::abs(e.residual().si()), rounding * e.put_in.si());
    judge.holds(w.distilled >= grams(0) && w.uncondensed >= grams(0) && w.held >= v.soaked,
                "no water below zero");
    judge.no_more("charge and walls hold no more than they can", w.held.si(),
                  (v.soaked + v.hold_up).si(), rounding * v.first_fill.si());
  }
}

void check_balances(Judge& judge, const Plan& plan, const Basis& basis) {
  const RunPlan& run = *plan.run;
  const Run typical = basis.run(SamplePoint::medians());
  check_balances_of(judge, typical, run.times.stop);
  const EnergyBalance energy = typical.energy_at(run.times.stop);
  judge.no_more("mass closes", std::abs(run.mass_residual.si()), rounding * basis.fill.si());
  judge.no_more("energy closes", std::abs(run.energy_residual.si()), rounding * energy.put_in.si());
  const Volume all =
      run.water.distilled + run.water.held + run.water.uncondensed + run.water.left_at_stop;
  judge.same("the plan's water adds up to its first fill", all / run.water.first_fill, 1.0);
  // Unless the heat was measured, the socket gives at least the heat that the pot gets.
  if (!plan.recipe.own.boil_time && !plan.recipe.own.distillate_rate) {
    judge.no_more("no more heat than the plug gives", energy.put_in.si(), run.energy.plug.si());
  }
}

void check_oil(Judge& judge, const Plan& plan, const Basis& basis) {
  const Run typical = basis.run(SamplePoint::medians());
  const RunValues& v = typical.values();
  const Duration stop = plan.run->times.stop;
  judge.no_more("no more oil than there is", v.oil_recoverable.si(),
                oil_in_charge(basis.parameters, SamplePoint::medians(), basis.charge).si());
  Mass oil_before;
  for (const double share : {0.01, 0.1, 0.5, 1.0, 2.0}) {
    const Duration running = (stop - typical.first_drop()) * share;
    if (running < seconds(0)) continue;
    const Mass vaporised = typical.oil_vaporised_at(typical.first_drop() + running);
    judge.no_more("no more oil than there is", vaporised.si(), v.oil_recoverable.si());
    const OilBalance oil = typical.oil_at(typical.first_drop() + running);
    judge.no_more("no less oil parts than none", 0.0, oil.separated.si());
    judge.no_more("no more oil dissolves than water holds", oil.dissolved.si(),
                  (v.hydrosol_oil * typical.distillate_rate() * running).si(),
                  v.oil_recoverable.si() * rounding);
    judge.no_more("separated oil stays separated but for what mixes",
                  oil_before.si() * (1.0 - v.mixing), oil.separated.si(),
                  v.oil_recoverable.si() * rounding);
    oil_before = oil.separated;
    if (!v.oil_per_steam) continue;
    judge.no_more("no more oil than steam carries", vaporised.si(),
                  (typical.vapour() * *v.oil_per_steam * running).si(),
                  v.oil_recoverable.si() * rounding);
  }
}

void check_fractions(Judge& judge, const Plan& plan) {
  const RunPlan& run = *plan.run;
  judge.holds(run.fractions.size() == plan.recipe.fractions.size(), "every fraction is planned");
  Duration before = std::min(run.times.first_drop, run.times.stop);
  for (const FractionPlan& fraction : run.fractions) {
    constexpr auto name = "fractions follow each other up to the stop";
    judge.no_more(name, fraction.from.si(), before.si(), before.si() * rounding);
    judge.no_more(name, before.si(), fraction.from.si(), before.si() * rounding);
    judge.no_more(name, fraction.from.si(), fraction.to.si(), before.si() * rounding);
    before = fraction.to;
  }
  for (const FractionRanges& ranges : run.uncertainty.fractions) {
    check_range(judge, ranges.hydrosol);
    check_range(judge, ranges.oil);
    judge.no_more("a fraction has no more hydrosol than the run", ranges.hydrosol.high.si(),
                  run.uncertainty.hydrosol.high.si(),
                  run.uncertainty.hydrosol.high.si() * rounding);
    judge.holds(ranges.oil.low >= grams(0), "no oil below zero in a fraction");
  }
}

void check_timeline(Judge& judge, const Plan& plan) {
  const auto& ice = plan.run->cooling.ice_changes;
  judge.holds(std::is_sorted(ice.begin(), ice.end(),
                             [](const IceChange& x, const IceChange& y) { return x.at < y.at; }),
              "ice changes in order");
  const auto& timeline = plan.run->timeline;
  judge.holds(timeline.size() >= 2, "a timeline has two ends");
  const double scale = plan.run->water.first_fill.si() * rounding;
  for (std::size_t i = 0; i < timeline.size(); ++i) {
    judge.holds(timeline[i].oil.has_value() == plan.run->has_oil, "oil only where it is known");
    if (timeline[i].oil) {
      check_range(judge, *timeline[i].oil);
      judge.holds(timeline[i].oil->low >= litres(0), "no oil below zero");
    }
    if (i == 0) continue;
    const TimelinePoint& a = timeline[i - 1];
    const TimelinePoint& b = timeline[i];
    constexpr auto name = "the timeline never turns back";
    judge.no_more(name, a.at.si(), b.at.si());
    judge.no_more(name, b.pot_water.si(), a.pot_water.si(), scale);
    judge.no_more(name, a.hydrosol.si(), b.hydrosol.si());
    judge.no_more(name, a.pot.kelvin(), b.pot.kelvin());
  }
}

// --- accepted plans ------------------------------------------------------------------------------

void check_times(Judge& judge, const Plan& plan) {
  const TimesPlan& t = plan.run->times;
  judge.holds(seconds(0) < t.boil && t.boil < t.first_drop && t.first_drop <= t.stop,
              "boils, drips and stops in order");
  judge.holds(t.stop < t.reserve && t.reserve <= t.dry, "stops before reserve before dry");
  if (plan.recipe.limits.time) {
    judge.no_more("the limit of time holds", t.stop.si(), plan.recipe.limits.time->si());
  }
}

void check_goal(Judge& judge, const Plan& plan, const Basis& basis) {
  const RunPlan& run = *plan.run;
  const double runs = plan.charge.runs;
  const Run typical = basis.run(SamplePoint::medians());
  const Duration stop = run.times.stop;
  const auto* hydrosol = std::get_if<HydrosolGoal>(&plan.recipe.goal);
  const auto* ratio = std::get_if<RatioGoal>(&plan.recipe.goal);
  if (hydrosol != nullptr || ratio != nullptr) {
    if (run.stop_criterion == StopRule::hydrosol) {
      // The plan rounds up to the next mark of the jug.
      const Volume wanted = hydrosol != nullptr ? hydrosol->volume / runs
                                                : ratio->hydrosol_per_fresh * plan.charge.as_fresh;
      const Volume mark = neat_up(wanted, plan.recipe.units);
      for (const Volume given : {typical.hydrosol_at(stop), run.water.distilled}) {
        judge.no_more("the hydrosol wanted", wanted.si(), given.si(), wanted.si() * rounding);
        judge.no_more("a mark more than the hydrosol wanted", given.si(), mark.si(),
                      mark.si() * rounding);
      }
    }
  }
  if (const auto* share = std::get_if<OilShareGoal>(&plan.recipe.goal)) {
    if (run.stop_criterion == StopRule::oil_share) {
      judge.no_more("the share of oil wanted", share->share,
                    typical.oil_vaporised_at(stop) / typical.values().oil_recoverable);
    }
  }
  if (const auto* time = std::get_if<TimeGoal>(&plan.recipe.goal)) {
    if (run.stop_criterion == StopRule::time) {
      judge.no_more("the time wanted", stop.si(), time->time.si());
    }
  }
  if (plan.recipe.confidence) {
    judge.holds(run.uncertainty.chance_of_goal.has_value(), "a goal has its chance");
    judge.no_more("the goal is met as often as wanted", *plan.recipe.confidence,
                  run.uncertainty.chance_of_goal.value_or(fraction(0)));
  }
  if (const auto* oil = std::get_if<OilGoal>(&plan.recipe.goal)) {
    if (run.stop_criterion == StopRule::oil && !plan.recipe.confidence) {
      const Mass got = typical.oil_in_receiver_at(stop) * runs;
      const Density density = basis.parameters.selected->oil_density.typical();
      const Mass wanted = std::holds_alternative<Mass>(oil->amount)
                              ? std::get<Mass>(oil->amount)
                              : std::get<Volume>(oil->amount) * density;
      judge.no_more("the oil wanted", wanted.si(), got.si());
    }
  }
}

/// Checks the room for water and charge, with the still's own dimensions at their lower bounds as
/// well.
void check_pot(Judge& judge, const Plan& plan, const Basis& basis, const DesignDefaults& defaults) {
  const Still& still = plan.recipe.still;
  const Volume fill = plan.run->water.pour;
  judge.holds(fill > litres(0), "water in the pot");
  Volume in_pot = fill;
  if (plan.recipe.method_used() == Method::hydro) {
    in_pot += basis.charge / defaults.particle_density.typical();
  }
  const Volume room =
      end_of(still.pot.volume.range, false) * end_of(still.pot.fill_limit.range, false);
  judge.no_more("the pot is not overfilled", in_litres(in_pot), in_litres(room));
  judge.no_more("the pot is not overfilled", plan.run->water.pot_fill,
                still.pot.fill_limit.typical());
  if (plan.recipe.method_used() == Method::water_and_steam) {
    const Volume below = end_of(still.grid->water_below.range, false);
    judge.no_more("water stays below the grid", in_litres(fill),
                  in_litres(below) * (1.0 - defaults.grid_clearance.typical()));
    // Even with a misread jug and hot water (a kilogram takes up to 5 % more room).
    const double misread = 1.0 + basis.parameters.selected->fill_error.range.most();
    judge.no_more("water stays below the grid", in_litres(fill) * misread * 1.05, in_litres(below));
  }
  if (plan.recipe.method_used() != Method::hydro) {
    const auto space = plan.recipe.method_used() == Method::steam ? still.column->volume.range
                                                                  : still.grid->space.range;
    const Volume takes = basis.charge / basis.parameters.selected->bulk_density.typical();
    judge.no_more("the charge has its head space", in_litres(takes),
                  in_litres(end_of(space, false)) * (1.0 - defaults.head_space.typical()));
  }
  if (plan.recipe.water) {
    judge.same("the water asked for", plan.run->water.pour / *plan.recipe.water, 1.0);
  }
  const Temperature poured = plan.recipe.water_temperature.value_or(plan.recipe.site.room);
  judge.same("what is poured in is the first fill",
             fill * liquid_density(poured) /
                 (plan.run->water.first_fill * liquid_density(plan.recipe.site.room)),
             1.0);
  if (plan.recipe.charge) {
    judge.same(
        "the charge asked for",
        (plan.charge.mass * double(plan.charge.runs) + plan.charge.rest) / *plan.recipe.charge,
        1.0);
    judge.holds(plan.charge.rest <= plan.charge.mass * 0.2,
                "what is left over is no run of its own");
  }
}

/// The longest time that the pot may boil on after the heat is off.
Duration after_heat(const ModelParameters& parameters) {
  return std::max(end_of(parameters.selected->stored_heat.range, true), seconds(0));
}

/// An accepted plan at one sample point, when the person comes late.
class LateRun {
 public:
  LateRun(Judge& judge, const Plan& plan, const DesignDefaults& defaults, Mass reserve,
          Duration after_heat)
      : judge_(judge),
        plan_(plan),
        defaults_(defaults),
        reserve_(reserve),
        after_heat_(after_heat) {}

  /// No accepted plan touches its reserve. `least` is a second bound on what is left, from the
  /// worst credible case.
  void check_water(const Run& run, Mass least, const char* name) {
    if (run.failure()) return;  // nothing ever boils off
    const Duration late =
        stop_time(run, plan_.run->stop) + plan_.recipe.limits.absence + after_heat_;
    const Mass left = run.water_at(late).left;
    const double slack = run.values().first_fill.si() * rounding;
    judge_.no_more("the reserve is not touched", reserve_.si(), left.si(), slack);
    judge_.no_more(name, least.si(), left.si(), slack);
    check_latest(run, slack);
  }

  /// A person who hasn't seen the level turns the heat off by the clock. A person who comes late
  /// turns it off before the level that must not be passed. Neither touches the reserve.
  void check_latest(const Run& run, double slack) {
    const TimesPlan& t = plan_.run->times;
    judge_.no_more("by the latest moment the reserve is not touched", reserve_.si(),
                   run.water_at(t.latest + after_heat_).left.si(), slack);
    // A stop by level may also have a clock, which ends the run before a weak heater reaches the
    // level.
    const RunPlan& planned = *plan_.run;
    Duration at_level = run.time_of_hydrosol(planned.water.never_beyond);
    if (planned.stop.clock) {
      at_level = std::min(at_level, planned.stops_by_clock() ? t.latest : *planned.stop.clock);
    }
    judge_.no_more("before the level never to pass the reserve is not touched", reserve_.si(),
                   run.water_at(at_level + after_heat_).left.si(), slack);
    const auto no_sooner = [&](const char* name, Duration at_worst, Mass left) {
      const Duration there = run.time_until_left(left);
      judge_.no_more(name, at_worst.si(), there.si(), rounding * there.si());
    };
    no_sooner("no run reaches its reserve sooner than at worst", t.reserve_worst, reserve_);
    no_sooner("no run is dry sooner than at worst", t.dry_worst, grams(0));
    const Duration stop = stop_time(run, plan_.run->stop);
    judge_.no_more("no run is at its stop before the earliest", t.earliest_stop.si(), stop.si(),
                   rounding * stop.si());
  }

  /// Checks that the condenser takes all steam, because any other steam comes into the room.
  void check_steam(const ModelParameters& parameters, const Still& still, const Run& run) {
    if (run.failure()) return;
    const RunPlan& planned = *plan_.run;
    const Duration stop = stop_time(run, planned.stop);
    Duration last_ice = stop;
    if (!planned.cooling.ice_changes.empty()) {
      // The last ice goes in at a level in the receiver or by the clock, whichever is first, as for
      // the stop of the run.
      const Duration before = planned.times.stop - planned.cooling.ice_changes.back().at;
      if (planned.stop.clock) last_ice = std::min(last_ice, *planned.stop.clock - before);
      if (planned.stop.hydrosol) {
        const Volume level = *planned.stop.hydrosol - planned.rates.distillate * before;
        last_ice = std::min(last_ice, run.time_of_hydrosol(level));
      }
      last_ice = std::max(last_ice, run.first_drop());
    }
    const Steam steam{run.vapour(), run.first_drop(), stop, after_heat_, last_ice};
    const auto left_over = steam_left_over(plan_, parameters, still, defaults_, steam);
    if (left_over) judge_.add("the condenser takes all steam", *left_over);
  }

 private:
  Judge& judge_;
  const Plan& plan_;
  const DesignDefaults& defaults_;
  Mass reserve_;
  Duration after_heat_;
};

/// A quantile of the heater's range, and a factor for its heat.
struct Heat {
  double place;
  double times;
};

/// At an end of the heater's range, draws one of the cases that are equally rare. It is the heater
/// at that end, or one at its P90 or P10 with other mains, or one at its P90 with a wrong dial.
/// Mains are 10 % above or below the nominal voltage (IEC 60038), or give 5 % more or less power
/// than measured. A dial that is turned down gives a fifth more than it says.
Heat heat_at(const Basis& basis, double place, Random& random) {
  const std::size_t which = random.below(3);
  if ((place != 0.0 && place != 1.0) || which == 0) return {place, 1.0};
  const bool most = place == 1.0;
  const double near = most ? 0.9 : 0.1;
  const Recipe& recipe = basis.parameters.recipe;
  if (which == 1) {
    if (recipe.own.mains) return {near, most ? 1.05 : 0.95};
    if (recipe.still->heater.kind == HeaterKind::gas_burner) return {near, 1.0};
    return {near, most ? 1.1 * 1.1 : 0.9 * 0.9};
  }
  const Fraction rate_setting = recipe.own.setting.value_or(recipe.setting);
  const Fraction boil_setting = recipe.own.boil_setting.value_or(rate_setting);
  const bool by_rate = basis.parameters.own_rate.has_value();
  const bool by_time = basis.parameters.own_boil_time.has_value();
  const bool as_read = (by_rate || by_time) && (!by_rate || rate_setting == recipe.setting) &&
                       (!by_time || boil_setting == recipe.setting);
  if (!most || as_read) return {place, 1.0};
  return {near, std::min(1.2, 1.0 / double(recipe.setting))};
}

/// The run of this basis at this point. At an end of the heater's range it is one of the equally
/// rare cases of heat_at().
Run run_at(const Basis& basis, SamplePoint point, Random& random) {
  const Heat heat = heat_at(basis, point[Parameter::heater], random);
  return basis.run(credible_point::credible(point).set(Parameter::heater, heat.place), heat.times);
}

/// Checks that water, stop and limits of an accepted plan hold for all the charges that the plan
/// names.
void check_other_charges(Judge& judge, const Plan& plan, const Basis& basis, Mass reserve,
                         Duration stored, Random& random) {
  const ChargePlan& charge = plan.charge;
  judge.holds(charge.least <= charge.mass && charge.mass <= charge.most,
              "the plan's charge is one of those it holds for");
  const RunPlan& planned = *plan.run;
  for (const bool more : {false, true}) {
    const Mass end = more ? charge.most : charge.least;
    if (end == charge.mass) continue;
    for (const double share : {1.0, random.between(0.0, 1.0)}) {
      const Mass other = charge.mass + (end - charge.mass) * share;
      SamplePoint corner = SamplePoint::medians();
      for (std::size_t i = 0; i < parameter_count; ++i) {
        corner.set(static_cast<Parameter>(i), random.chance(0.5) ? 1.0 : 0.0);
      }
      for (const SamplePoint& point : {worst_for_water(), corner}) {
        Basis loaded = basis;
        loaded.charge = other;
        const Run run = run_at(loaded, point, random);
        if (run.failure()) continue;
        const double slack = run.values().first_fill.si() * rounding;
        const auto keeps = [&](const char* name, Duration off) {
          judge.no_more(name, reserve.si(), run.water_at(off + stored).left.si(), slack);
        };
        keeps("with another charge the reserve lasts past the stop",
              stop_time(run, planned.stop) + plan.recipe.limits.absence);
        keeps("with another charge the reserve lasts until the latest moment",
              planned.times.latest);
        Duration level = run.time_of_hydrosol(planned.water.never_beyond);
        if (planned.stop.clock) {
          level = std::min(level,
                           planned.stops_by_clock() ? planned.times.latest : *planned.stop.clock);
        }
        keeps("with another charge the reserve lasts until the level never to pass", level);
      }
    }
  }
}

/// The parameters that the pot's water depends on. The first six affect the steam as well.
constexpr std::array of_the_pot = {Parameter::heater,           Parameter::heat_loss,
                                   Parameter::moisture,         Parameter::dry_specific_heat,
                                   Parameter::uncondensed_loss, Parameter::fill_error,
                                   Parameter::hold_up,          Parameter::film_hold_up,
                                   Parameter::wall_hold_up};
constexpr std::size_t of_the_steam = 6;

/// The still with heater power, condensing surface, coolant and tap flow each at one bound of its
/// range. The head's surface isn't moved, because it follows the quantile of the heat loss.
Still still_at_ends(const Still& still, Random& random, bool& moved) {
  Still at = still;
  const auto move = [&](auto& figure) {
    if (figure.range.low < figure.range.high) moved = true;
    const auto end = end_of(figure.range, random.chance(0.5));
    figure.range = decltype(figure.range)::exactly(end);
  };
  move(at.heater.power);
  Condenser& condenser = at.condenser;
  move(condenser.surface);
  if (condenser.coolant) move(*condenser.coolant);
  if (condenser.flow_limit) move(*condenser.flow_limit);
  return at;
}

void check_everywhere(Judge& judge, const Plan& plan, const Basis& basis,
                      const DesignDefaults& defaults, Random& random) {
  const RunPlan& run = *plan.run;
  const Mass minimum =
      end_of(plan.recipe.still->pot.minimum_water.range, true) * basis.parameters.fill_density;
  Mass reserve = std::max(basis.fill * defaults.reserve_share.typical(), minimum);
  if (plan.recipe.method_used() == Method::hydro) {
    reserve = std::max(
        reserve, basis.charge * defaults.hydro_wetting.typical() * basis.parameters.fill_density);
  }
  judge.same("the reserve is the largest of its reasons",
             run.water.reserve * basis.parameters.fill_density / reserve, 1.0);

  const Duration stored = after_heat(basis.parameters);
  const Duration lateness = plan.recipe.limits.absence + stored;
  check_other_charges(judge, plan, basis, reserve, stored, random);
  const Run worst = WorstCase(basis.parameters, basis.charge).run(basis.fill, run.stop, lateness);
  const Mass left_worst =
      worst.failure() ? basis.fill : worst.water_at(stop_time(worst, run.stop) + lateness).left;
  LateRun place(judge, plan, defaults, reserve, stored);
  if (!worst.failure()) {
    judge.no_more("the reserve is not touched", reserve.si(), left_worst.si(),
                  worst.values().first_fill.si() * rounding);
    check_balances_of(judge, worst, run.times.stop_worst);
    judge.no_more("late is before the reserve at worst", (run.times.stop_worst + lateness).si(),
                  run.times.reserve_worst.si(), 1e-6 * run.times.reserve_worst.si());
    judge.no_more("the reserve comes before dry", run.times.reserve_worst.si(),
                  run.times.dry_worst.si());
    judge.no_more("the latest moment is no later than allowed", run.times.latest.si(),
                  (run.times.stop_worst + plan.recipe.limits.absence).si());
  }

  constexpr auto bound = "the worst credible case is a bound";
  // A figure measured on the bench may be wrong. Then the heater gives what the tables say.
  std::vector<Basis> possible = {basis};
  if (basis.parameters.own_rate || basis.parameters.own_boil_time) {
    possible.push_back(basis);
    possible.back().parameters.own_rate.reset();
    possible.back().parameters.own_boil_time.reset();
  }
  // Water from the kettle may have warmed the pot, or cooled down in it.
  if (plan.recipe.water_temperature) {
    for (std::size_t i = possible.size(); i-- > 0;) {
      for (const Temperature start : {plan.recipe.site.room, *plan.recipe.water_temperature}) {
        possible.push_back(possible[i]);
        possible.back().start = start;
      }
    }
  }
  const auto at = [&](const SamplePoint& point, bool steam) {
    for (const Basis& one : possible) {
      place.check_water(run_at(one, point, random), left_worst, bound);
      if (steam) place.check_steam(one.parameters, plan.recipe.still, one.run(point));
    }
  };
  at(SamplePoint::medians(), true);
  at(worst_for_water(), true);
  // Every corner of the pot's parameters.
  for (std::size_t corner = 0; corner < (std::size_t{1} << of_the_pot.size()); ++corner) {
    SamplePoint point = SamplePoint::medians();
    for (std::size_t i = 0; i < of_the_pot.size(); ++i) {
      point.set(of_the_pot.at(i), double((corner >> i) & 1U));
    }
    at(point, corner < (std::size_t{1} << of_the_steam));
  }
  // No heater between the weakest and the strongest is worse either, with the most heat to take up
  // and to lose.
  for (int i = 1; i < 20; ++i) {
    SamplePoint point = worst_for_water();
    point.set(Parameter::heater, i / 20.0).set(Parameter::heat_loss, 1);
    point.set(Parameter::moisture, 1).set(Parameter::dry_specific_heat, 1);
    at(point, true);
  }
  for (int i = 0; i < random_points; ++i) {
    SamplePoint point;
    for (std::size_t input = 0; input < parameter_count; ++input) {
      const double p = random.chance(0.5) ? random.between(0, 1) : random.chance(0.5) ? 0 : 1;
      point.set(static_cast<Parameter>(input), p);
    }
    at(point, true);
    if (i < 2) check_balances_of(judge, basis.run(point), run.times.stop);
  }

  // The still's own dimensions, if they have ranges.
  bool moved = false;
  for (int i = 0; i < 8; ++i) {
    const Still still = still_at_ends(plan.recipe.still, random, moved);
    if (!moved) break;
    SamplePoint hot = worst_for_water();
    if (i >= 4) {
      for (const Parameter input : of_the_pot) hot.set(input, random.chance(0.5) ? 0 : 1);
    }
    for (Basis other : possible) {
      other.parameters.recipe.still = still;
      const Run there = other.run(credible_point::credible(hot));
      place.check_water(there, left_worst, bound);
      place.check_steam(other.parameters, other.parameters.recipe.still, there);
    }
  }
}

}  // namespace

Basis basis_of(const Plan& plan, const Tables& tables) {
  ModelParameters parameters = model_parameters(plan.recipe, tables);
  const Mass fill = plan.run->water.first_fill * parameters.fill_density;
  return {std::move(parameters), plan.charge.mass, fill};
}

Violations plan_violations(const Plan& plan, const Tables& tables, Random& random) {
  Judge judge;
  check_findings(judge, plan);
  check_numbers(judge, plan);
  if (!plan.run) return judge.take();
  const Basis basis = basis_of(plan, tables);
  check_balances(judge, plan, basis);
  check_oil(judge, plan, basis);
  check_fractions(judge, plan);
  check_timeline(judge, plan);
  if (plan.verdict == Verdict::refused) return judge.take();
  check_pot(judge, plan, basis, tables.design_defaults);
  check_times(judge, plan);
  check_goal(judge, plan, basis);
  check_everywhere(judge, plan, basis, tables.design_defaults, random);
  return judge.take();
}

}  // namespace property
