#include "firstdrop/plan/planner.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "base/text_layout.hpp"
#include "model/model_parameters.hpp"
#include "model/parameter_sources.hpp"
#include "model/sampling.hpp"
#include "physics/stop.hpp"
#include "plan/cautions.hpp"
#include "plan/describe_run.hpp"
#include "plan/settle.hpp"
#include "plan/workings.hpp"

namespace firstdrop {
namespace {

// Keeps the order within a level. Insertion needs no memory, and there are few findings.
void worst_first(std::vector<Finding>& findings) {
  const auto heavier = [](const Finding& a, const Finding& b) { return a.level > b.level; };
  for (auto next = findings.begin(); next != findings.end(); ++next) {
    std::rotate(std::upper_bound(findings.begin(), next, *next, heavier), next, next + 1);
  }
}

// Compares how often the goal is met with how often the recipe asks for it.
void add_confidence(const Planning& p, const GoalOfRun& goal, const DescribedRun& described,
                    Plan& plan) {
  const Fraction often = *p.recipe.confidence;
  const GoalOdds odds =
      goal_odds(p.parameters, described.decision, goal, often, enough_samples(p.sampling));
  plan.run->allow = odds.time;
  if (odds.chance < often)
    plan.findings.emplace_back(Level::refuse, found::ConfidenceOutOfReach{odds.chance, often});
}

void append(std::vector<Finding>& findings, std::vector<Finding> more) {
  findings.insert(findings.end(), std::make_move_iterator(more.begin()),
                  std::make_move_iterator(more.end()));
}

found::PlantUnknown unknown_plant(const Plant& plant, const Tables& tables) {
  const auto near = tables.plants.find(plant.like);
  if (near != tables.plants.end())
    return {plant.name, near->second->name, false, has_oil_figures(plant)};
  return {plant.name, spaced(plant.like), true, has_oil_figures(plant)};
}

// What comes before everything else: plants that nobody should distil, and unknown hazards.
void judge_plant(const Plant& plant, const Tables& tables, std::vector<Finding>& findings) {
  for (const BlendPart& part : plant.blend) judge_plant(part.plant, tables, findings);
  if (!plant.blend.empty()) return;
  if (!plant.like.empty()) findings.emplace_back(Level::caution, unknown_plant(plant, tables));
  const auto& unsuited = plant.unsuited;
  if (!unsuited) return;
  if (unsuited->refused)
    findings.emplace_back(Level::refuse, found::NotToBeDistilled{plant.name, in_words(*unsuited)});
  else
    findings.emplace_back(Level::caution, found::SteamSpoils{plant.name, in_words(*unsuited)});
}

// Makes the plan, without its `recipe`.
Plan make_from(const Planning& p, Settled settled) {
  Plan plan;
  plan.ambient = p.parameters.ambient;
  plan.boiling = p.parameters.boiling;
  plan.latent_heat = p.parameters.latent_heat;
  if (!p.brief()) {
    plan.sources = sources_of(p.parameters, p.tables);
    plan.defaults_used = p.parameters.selected->defaults_used;
  }
  judge_plant(p.recipe.plant, p.tables, plan.findings);
  append(plan.findings, std::move(settled.heater));
  DescribedRun described;
  if (settled.has_run) {
    described = describe_run(p, settled);
    append(plan.findings, std::move(described.findings));
    plan.run = described.run;
  }
  if (settled.refusal) plan.findings.push_back(*std::move(settled.refusal));
  if (plan.run && p.recipe.confidence) add_confidence(p, settled.stop.goal, described, plan);
  plan.charge = describe_charge(p, settled, described);
  add_cautions(plan, p, described.coldest_coolant);
  plan.source_count = counted(plan.sources, p.tables.sources);
  worst_first(plan.findings);
  plan.verdict = verdict_of(plan.findings);
  if (!p.brief()) plan.workings = workings_of(p.parameters, p.defaults, described.workings);
  return plan;
}

// The chance of meeting the goal if the run is sized for `aim`; none when the run can't be made as
// settled.
std::optional<Fraction> chance_at(const Planning& p, Sharing sharing, double aim, Fraction often) {
  const Settled settled = settle(p, sharing, aim);
  if (settled.refused || !settled.stop.goal.any()) return std::nullopt;
  const Decision decision = settled.decision(p);
  const Run run = p.nominal.of(decision.charge, decision.first_fill);
  const Duration stop = stop_time(run, decision.stop);
  if (stop > p.defaults.longest_run.typical() || stop <= run.first_drop()) return std::nullopt;
  const Cooling cooling = plan_cooling(p.parameters, p.defaults, run,
                                       upper_heater_run(p, decision.charge, decision.first_fill),
                                       {decision.charge, decision.first_fill}, decision.stop);
  if (any_refuses(cooling.findings)) return std::nullopt;
  return goal_odds(p.parameters, decision, settled.stop.goal, often, enough_samples(p.sampling))
      .chance;
}

// The distribution of oil is skewed, so a run aimed at the amount wanted usually gives less. Finds
// how much higher to aim so that the goal is met `often`. If that can't be done, returns the aim
// that comes closest.
double aim_for(Fraction often, const Planning& p, Sharing sharing) {
  constexpr double step = 1.3;
  constexpr double highest = 60.0;
  // Rounding to the marks of jug and scale hides a finer aim.
  constexpr double fine = 1.01;
  const auto chance = [&](double aim) { return chance_at(p, sharing, aim, often); };
  double low = 1.0;
  const auto as_wanted = chance(low);
  if (!as_wanted || *as_wanted >= often) return low;
  // A fixed charge has no more oil to aim for, and the surest level of an oil goal is found without
  // an aim.
  const bool oil = std::holds_alternative<OilGoal>(p.recipe.goal);
  if (oil && p.recipe.confidence && p.recipe.charge) return low;
  // Aims higher until the goal is met as often as asked, or the plan can no longer be run.
  double high = low;
  bool met = false;
  while (!met && high < highest) {
    high *= step;
    const auto there = chance(high);
    if (!there) break;
    met = *there >= often;
    if (met) break;
    low = high;
  }
  while (high / low > fine) {
    const double middle = std::sqrt(low * high);
    const auto there = chance(middle);
    met = met || (there && *there >= often);
    const bool too_high = !there || *there >= often;
    (too_high ? high : low) = middle;
  }
  return met ? high : low;
}

Plan planned(const Planning& p, Sharing sharing) {
  // An oil goal without a confidence is met in half of the runs. The other goals are what the
  // nominal run gives.
  const bool oil = std::holds_alternative<OilGoal>(p.recipe.goal);
  const bool share = std::holds_alternative<OilShareGoal>(p.recipe.goal);
  double aim = 1.0;
  if (oil || (share && p.recipe.confidence)) {
    aim = aim_for(p.recipe.confidence.value_or(percent(50)), p, sharing);
  }
  return make_from(p, settle(p, sharing, aim));
}

Plan planned(ModelParameters parameters, const Tables& tables, const Sampling& sampling,
             Detail detail) {
  Plan plan = [&] {
    const Planning p(parameters, tables, sampling, detail);
    Plan with_rest = planned(p, Sharing::full_runs);
    if (with_rest.charge.rest <= grams(0) || with_rest.may_be_run()) return with_rest;
    // With fewer runs, each must give more, which may be too much.
    return planned(p, Sharing::evenly);
  }();
  plan.recipe = std::move(parameters.recipe);
  return plan;
}

}  // namespace

Plan make_plan(Recipe recipe, const Tables& tables, const Sampling& sampling, Detail detail) {
  return planned(model_parameters(std::move(recipe), tables), tables, sampling, detail);
}

PlanMaker::PlanMaker(const Tables& tables) : tables_(tables), cache_(new ParameterCache) {}

PlanMaker::~PlanMaker() {
  delete cache_;
}

Plan PlanMaker::make(Recipe recipe, const Sampling& sampling, Detail detail) {
  return planned(cache_->gather(std::move(recipe), tables_), tables_, sampling, detail);
}

}  // namespace firstdrop
