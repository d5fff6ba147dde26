#include "batch/batch_summary.hpp"

#include <nlohmann/json.hpp>

#include "base/visible_text.hpp"
#include "firstdrop/output/finding_words.hpp"
#include "json/range_json.hpp"
#include "output/range_sums.hpp"

namespace firstdrop {
namespace {

using Json = nlohmann::ordered_json;

Json plant_json(const BatchSummary::OfPlant& plant) {
  return {{"plans", plant.plans}, {"runs", plant.runs}, {"herb_kg", in_kilograms(plant.herb)}};
}

void add_sums(const BatchSummary& s, Json& j) {
  j["runs"] = s.runs;
  j["herb_kg"] = in_kilograms(s.herb);
  j["water_l"] = in_litres(s.water);
  Json& sums = s.nominal ? j["nominal"] : j;
  const auto put = [&](const char* key, const auto& range, auto in) {
    sums[key] = s.nominal ? Json(in(range.typical)) : Json(range_json(range, in));
  };
  put("ice_kg", s.ice, in_kilograms);
  put("energy_kwh", s.energy, in_kilowatt_hours);
  put("hydrosol_l", s.hydrosol, in_litres);
  put("oil_g", s.oil, in_grams);
  put("oil_ml", s.oil_volume, in_millilitres);
  put("heat_on_h", s.heat_on, in_hours);
  Json plants = Json::object();
  for (const auto& [name, plant] : s.plants) plants[name] = plant_json(plant);
  j["plants"] = std::move(plants);
  if (s.other_plants.plans > 0) j["other_plants"] = plant_json(s.other_plants);
}

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

std::string summary_members(const BatchSummary& s, bool with_sums) {
  Json j = {{"planned", s.planned()},
            {"go", s.go},
            {"caution", s.caution},
            {"refused", s.refused},
            {"broken", s.broken}};
  if (with_sums) add_sums(s, j);
  Json refusals = Json::object();
  for (const auto& [code, refused] : s.refusals) {
    Json first = Json::array();
    for (const auto& [title, text] : refused.first)
      first.push_back({{"title", title}, {"text", text}});
    refusals[code] = {{"plans", refused.plans}, {"first", std::move(first)}};
  }
  j["refusals"] = std::move(refusals);
  Json broken = Json::array();
  for (const BrokenRecipe& recipe : s.first_broken) {
    Json entry = {{"file", visible(recipe.file)}};
    if (recipe.line > 0) entry["line"] = recipe.line;
    entry["reason"] = recipe.reason;
    broken.push_back(std::move(entry));
  }
  j["first_broken"] = std::move(broken);
  const std::string object = json_document(j);
  return object.substr(1, object.size() - 2);
}

}  // namespace firstdrop
