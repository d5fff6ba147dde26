#include "batch/batch_summary.hpp"

#include "firstdrop/output/finding_words.hpp"
#include "output/range_sums.hpp"

namespace firstdrop {
namespace {

void add_to(BatchSummary::OfPlant& plant, const PlanOutcome& outcome) {
  ++plant.plans;
  plant.runs += outcome.runs;
  plant.herb += outcome.herb;
}

}  // namespace

PlanOutcome outcome_of(const Plan& plan) {
  PlanOutcome outcome;
  outcome.title = plan.recipe.title;
  outcome.verdict = plan.verdict;
  outcome.units = plan.recipe.units;
  for (const Finding& finding : plan.findings) {
    if (finding.level == Level::refuse) outcome.refusals.push_back(finding);
  }
  if (!plan.may_be_run()) return outcome;
  const Uncertainty& uncertainty = plan.run->uncertainty;
  const int runs = plan.charge.runs;
  outcome.plant = plan.recipe.plant->name;
  outcome.runs = runs;
  outcome.herb = plan.charge.harvest;
  outcome.water = plan.run->water.first_fill * runs;
  if (uncertainty.ice) outcome.ice = times(*uncertainty.ice, runs);
  outcome.energy = times(uncertainty.plug, runs);
  outcome.hydrosol = times(uncertainty.hydrosol, runs);
  outcome.oil = times(uncertainty.oil_in_receiver, runs);
  outcome.oil_volume = times(uncertainty.oil_volume, runs);
  outcome.heat_on = times(uncertainty.stop, runs);
  outcome.nominal = uncertainty.samples == 0;
  return outcome;
}

void RunSums::add(const RunSums& other) {
  runs += other.runs;
  herb += other.herb;
  water += other.water;
  add_to(ice, other.ice);
  add_to(energy, other.energy);
  add_to(hydrosol, other.hydrosol);
  add_to(oil, other.oil);
  add_to(oil_volume, other.oil_volume);
  add_to(heat_on, other.heat_on);
  nominal = nominal || other.nominal;
}

void BatchSummary::add(const PlanOutcome& outcome) {
  if (outcome.verdict == Verdict::refused) {
    ++refused;
    for (const Finding& refusal : outcome.refusals) {
      Refused& kind = refusals[std::string(refusal.code())];
      ++kind.plans;
      if (kind.first.size() < most_told)
        kind.first.emplace_back(outcome.title, finding_text(refusal, outcome.units));
    }
    return;
  }
  ++(outcome.verdict == Verdict::caution ? caution : go);
  RunSums::add(outcome);
  const bool has_place = plants.size() < most_plants || plants.contains(outcome.plant);
  add_to(has_place ? plants[outcome.plant] : other_plants, outcome);
}

void BatchSummary::add(const BrokenRecipe& recipe) {
  ++broken;
  if (first_broken.size() < most_told) first_broken.push_back(recipe);
}

}  // namespace firstdrop
