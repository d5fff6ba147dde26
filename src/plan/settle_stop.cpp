#include <algorithm>
#include <cmath>

#include "model/outcomes.hpp"
#include "physics/stop.hpp"
#include "plan/settle.hpp"

namespace firstdrop {
namespace {

// Releasing all of the oil would take infinite time. A stop that is aimed high leaves at least this
// share.
constexpr double least_left = 1e-9;
// Enough to tell which of two levels is better.
constexpr Sampling rough_sampling = 256;
// Below this, the page would show no oil (common practice, no source).
constexpr Mass hardly_any_oil = grams(0.05);

// The level at which the oil goal is met most often. A high level dissolves the oil that a poor
// charge would separate. A low level stops a slow charge before its oil has come.
Volume surest_level(const Planning& p, Mass charge, const GoalOfRun& goal, const Run& nominal) {
  const Mass fill = fill_to_judge_by(p, charge);
  const Volume crest = nominal.hydrosol_at(time_of_most_oil(nominal));
  const Mass reserve = p.water.reserve(charge, fill);
  Volume surest = p.neat_up(crest);
  Fraction most;
  for (const double share : {0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.85, 1.0, 1.25, 1.5, 2.0, 3.0}) {
    const Volume level = p.neat_up(std::max(crest * share, p.defaults.least_run.typical()));
    const Stop stop{level, p.recipe.limits.time};
    if (p.water.worst_margin(charge, fill, stop, p.lateness()) < grams(0)) break;
    const Fraction chance = goal_odds(p.parameters, {charge, fill, reserve, stop}, goal,
                                      *p.recipe.confidence, rough_sampling)
                                .chance;
    if (chance > most) {
      most = chance;
      surest = level;
    }
  }
  return surest;
}

// `wanted` is the oil of one run.
Finding out_of_reach(const Planning& p, Mass charge, Mass wanted, const Run& run) {
  const Mass most = run.oil_in_receiver_at(time_of_most_oil(run));
  const Mass in_charge = oil_in_charge(p.parameters, SamplePoint::medians(), charge);
  if (most < hardly_any_oil) {
    const Mass comes = run.oil_vaporised_at(default_end(p, run, charge));
    return {Level::refuse, found::OilStaysDissolved{wanted, charge, in_charge, comes, most}};
  }
  const Fraction recovery = p.parameters.selected->recovery.typical();
  return {Level::refuse, found::OilBeyondCharge{wanted, charge, in_charge, recovery, most}};
}

StopChoice stop_at_oil(const Planning& p, const ChargeChoice& charge, const OilGoal& goal,
                       const Run& run, double aim, StopChoice choice) {
  const Mass each = oil_asked(p, goal) / charge.runs;
  const auto level = level_of_oil(p, charge.charge, each * aim);
  if (!level && !(p.recipe.confidence && aim > 1.0)) {
    choice.refusal = out_of_reach(p, charge.charge, each, run);
    return choice;
  }
  if (const auto* volume = std::get_if<Volume>(&goal.amount)) {
    choice.goal.oil_volume = *volume / charge.runs;
  } else {
    choice.goal.oil = each;
  }
  choice.stop.hydrosol =
      p.recipe.confidence ? surest_level(p, charge.charge, choice.goal, run) : *level;
  choice.rule = StopRule::oil;
  return choice;
}

}  // namespace

StopChoice choose_stop(const Planning& p, const ChargeChoice& charge, double aim) {
  const Recipe& recipe = p.recipe;
  StopChoice choice;
  choice.stop.clock = recipe.limits.time;
  if (const auto asked = hydrosol_asked(p, charge.charge * double(charge.runs))) {
    choice.goal.hydrosol = *asked / charge.runs;
    choice.stop.hydrosol = p.neat_up(*choice.goal.hydrosol);
    return choice;
  }
  const Run run = p.nominal.of(charge.charge, fill_to_judge_by(p, charge.charge));
  if (const auto* oil = std::get_if<OilGoal>(&recipe.goal))
    return stop_at_oil(p, charge, *oil, run, aim, std::move(choice));
  if (const auto* share = std::get_if<OilShareGoal>(&recipe.goal)) {
    choice.goal.oil_share = share->share;
    // `aim` times the steam leaves the share (1 - share) ^ aim. It must not be zero, because
    // releasing everything would take infinite time.
    const double left = std::max(std::pow(1.0 - share->share, aim), least_left);
    const Fraction aimed = std::max(share->share, fraction(1.0 - left));
    choice.stop.hydrosol = p.neat_up(run.hydrosol_at(run.time_of_oil_share(aimed)));
    choice.rule = StopRule::oil_share;
  } else if (const auto* time = std::get_if<TimeGoal>(&recipe.goal)) {
    choice.stop.clock = std::min(time->time, recipe.limits.time.value_or(time->time));
    choice.rule = StopRule::time;
  } else {
    choice.stop.hydrosol = p.neat_up(run.hydrosol_at(default_end(p, run, charge.charge)));
    choice.rule = p.parameters.selected->has_oil ? StopRule::oil_left : StopRule::customary;
  }
  return choice;
}

}  // namespace firstdrop
