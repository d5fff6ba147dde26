#include "campaign/campaign_report.hpp"

#include <nlohmann/json.hpp>

#include "campaign/campaign_content.hpp"
#include "firstdrop/output/finding_words.hpp"
#include "json/range_json.hpp"
#include "output/stop_bounds.hpp"

namespace firstdrop {
namespace {

using Json = nlohmann::ordered_json;

std::string moment(LocalMinute minute) {
  std::string text = date_and_time(minute);
  text.replace(text.find(' '), 1, "T");
  return text;
}

Json order_json(const WorkOrder& order) {
  if (const auto* harvest = std::get_if<HarvestOrder>(&order.order)) {
    return {{"harvest_g", in_grams(harvest->mass)}};
  }
  if (const auto* hydrosol = std::get_if<HydrosolGoal>(&order.order)) {
    return {{"hydrosol_ml", in_millilitres(hydrosol->volume)}};
  }
  const auto& amount = std::get<OilGoal>(order.order).amount;
  if (const auto* mass = std::get_if<Mass>(&amount)) return {{"oil_g", in_grams(*mass)}};
  return {{"oil_ml", in_millilitres(std::get<Volume>(amount))}};
}

Json one_run_json(const CampaignWork& work) {
  const RunPlan& run = *work.plan.run;
  Json j = {{"charge_g", in_grams(work.plan.charge.mass)},
            {"pour_ml", in_millilitres(run.water.pour)},
            {"first_fill_ml", in_millilitres(run.water.first_fill)},
            {"first_drop_min", in_minutes(run.times.first_drop)},
            {"stop_min", in_minutes(run.times.stop)},
            {"heat_off_by_min", in_minutes(stop_bounds(work.plan).by)},
            {"done_by_min", in_minutes(done_by(work.plan))},
            {"hydrosol_ml", range_json(run.uncertainty.hydrosol, in_millilitres)},
            {"oil_ml", range_json(run.uncertainty.oil_volume, in_millilitres)}};
  if (run.stop.hydrosol) j["stop_at_ml"] = in_millilitres(*run.stop.hydrosol);
  if (run.stop.clock) j["stop_clock_min"] = in_minutes(*run.stop.clock);
  j["never_beyond_ml"] = in_millilitres(run.water.never_beyond);
  if (work.ice) j["ice_kg"] = in_kilograms(*work.ice);
  if (work.ice_ready) j["ice_ready_kg"] = in_kilograms(*work.ice_ready);
  if (run.cooling.coolant_used) j["tap_water_l"] = in_litres(*run.cooling.coolant_used);
  j["kwh"] = in_kilowatt_hours(run.energy.plug);
  return j;
}

Json totals_of(const CampaignWork& work) {
  Json j = {{"herb_g", in_grams(work.herb())},
            {"hydrosol_ml", range_json(work.hydrosol(), in_millilitres)},
            {"oil_g", range_json(work.oil(), in_grams)},
            {"oil_ml", range_json(work.oil_volume(), in_millilitres)},
            {"kwh", range_json(work.plug(), in_kilowatt_hours)}};
  const EnergyPlan& energy = work.plan.run->energy;
  if (energy.energy_cost) j["cost"] = *energy.energy_cost * work.placed;
  if (energy.plant_cost) j["plant_cost"] = *energy.plant_cost * work.placed;
  if (energy.energy_cost || energy.plant_cost) j["currency"] = energy.currency;
  return j;
}

Json problems_json(const std::vector<CampaignProblem>& problems) {
  Json list = Json::array();
  for (const CampaignProblem& problem : problems) {
    list.push_back({{"code", problem.code}, {"text", problem.text}});
  }
  return list;
}

Json work_json(const CampaignWork& work, const WorkOrder& order) {
  const Recipe& recipe = work.plan.recipe;
  const Plant& plant = recipe.plant;
  const Still& still = recipe.still;
  Json j = {{"title", recipe.title}};
  if (!order.file.empty()) j["recipe"] = order.file;
  j.update({{"plant", plant.key},
            {"state", to_string(recipe.state)},
            {"still", still.key},
            {"example_still", has_invented_figures(still)},
            {"method", to_string(recipe.method_used())},
            {"verdict", to_string(work.plan.verdict)},
            {"order", order_json(order)}});
  if (order.confidence) j["confidence_pct"] = in_percent(*order.confidence);
  Json findings = Json::array();
  for (const Finding& finding : work.plan.findings) {
    if (finding.level == Level::note) continue;
    findings.push_back({{"code", finding.code()},
                        {"level", to_string(finding.level)},
                        {"text", finding_text(finding, recipe.units)}});
  }
  j["findings"] = std::move(findings);
  j["problems"] = problems_json(work.problems);
  j["cautions"] = problems_json(work.cautions);
  j["runs"] = work.runs;
  j["placed"] = work.placed;
  if (work.plan.may_be_run()) j["each_run"] = one_run_json(work);
  if (work.placed > 0) j["in_all"] = totals_of(work);
  return j;
}

Json needs_json(const CampaignNeeds& needs) {
  Json j = {{"pot_water_ml", in_millilitres(needs.pot_water)}};
  if (needs.tap_water > litres(0)) j["tap_water_l"] = in_litres(needs.tap_water);
  if (needs.ice) j["ice_kg"] = in_kilograms(*needs.ice);
  if (needs.ice_ready) j["ice_ready_kg"] = in_kilograms(*needs.ice_ready);
  j["kwh"] = in_kilowatt_hours(needs.plug);
  return j;
}

Json day_json(const CampaignDay& day, const CampaignPlan& plan) {
  Json runs = Json::array();
  for (const CampaignRun& run : day.runs) {
    runs.push_back({{"run", run.number},
                    {"work", run.work},
                    {"heat_on", moment(run.heat_on)},
                    {"stop", moment(run.stop)},
                    {"heat_off_by", moment(run.heat_off_by)},
                    {"done_by", moment(run.done_by)}});
  }
  Json herb = Json::array();
  for (const auto& [work, of_it] : runs_by_work(day)) {
    herb.push_back(
        {{"work", work}, {"mass_g", in_grams(plan.work[work].plan.charge.mass * double(of_it))}});
  }
  Json j = {{"day", day_text(day.day)}, {"herb", std::move(herb)}};
  j.update(needs_json(day.needs));
  j["runs"] = std::move(runs);
  return j;
}

}  // namespace

std::string campaign_json(const CampaignPlan& plan) {
  const CampaignContent content = campaign_content(plan);
  Json j = {{"campaign", 1},
            {"title", plan.campaign.title},
            {"verdict", to_string(verdict_of(plan))},
            {"work", Json::array()},
            {"days", Json::array()}};
  for (std::size_t i = 0; i < plan.work.size(); ++i) {
    j["work"].push_back(work_json(plan.work[i], plan.campaign.work[i]));
  }
  for (const CampaignDay& day : plan.days) j["days"].push_back(day_json(day, plan));
  Json all = {{"runs", plan.runs()}, {"days", plan.days.size()}};
  all.update(needs_json(plan.needs()));
  j["in_all"] = std::move(all);
  j["between_runs_min"] = in_minutes(plan.campaign.bench.between_runs);
  j["cautions"] = content.always;
  return json_document(j, 2);
}

}  // namespace firstdrop
