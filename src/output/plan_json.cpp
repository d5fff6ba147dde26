#include <array>
#include <charconv>
#include <nlohmann/json.hpp>

#include "firstdrop/output/finding_words.hpp"
#include "firstdrop/output/write.hpp"
#include "json/range_json.hpp"
#include "model/ranged_outputs.hpp"
#include "output/explain.hpp"
#include "quantity/clock_time.hpp"

namespace firstdrop {
namespace {

using Json = nlohmann::ordered_json;

Json findings_json(const Plan& plan) {
  Json list = Json::array();
  for (const Finding& finding : plan.findings) {
    Json entry = {{"code", finding.code()},
                  {"level", to_string(finding.level)},
                  {"text", finding_text(finding, plan.recipe.units)}};
    const auto [value, limit] = finding_amounts(finding);
    if (value) entry["value"] = value->number;
    // From either: some findings have only a limit.
    if (value || limit) entry["unit"] = value ? value->unit : limit->unit;
    if (limit) entry["limit"] = limit->number;
    const std::string reason = finding_reason(finding);
    const std::string follows = finding_follows(finding);
    if (!reason.empty()) entry["reason"] = reason;
    if (!follows.empty()) entry["follows"] = follows;
    list.push_back(std::move(entry));
  }
  return list;
}

// Standing findings and dangers. A script may want to print them unchanged.
Json cautions_json(const Plan& plan) {
  Json list = Json::array();
  for (const Finding& finding : plan.findings) {
    if (finding.kind->standing || finding.kind->danger)
      list.push_back(finding_text(finding, plan.recipe.units));
  }
  return list;
}

Json charge_json(const ChargePlan& charge) {
  return {{"mass_g", in_grams(charge.mass)},
          {"as_fresh_g", in_grams(charge.as_fresh)},
          {"dry_matter_g", in_grams(charge.dry_matter)},
          {"volume_ml", in_millilitres(charge.volume)},
          {"fill_pct", in_percent(charge.fill)},
          {"runs", charge.runs},
          {"harvest_g", in_grams(charge.harvest)},
          {"rest_g", in_grams(charge.rest)},
          {"least_g", in_grams(charge.least)},
          {"most_g", in_grams(charge.most)}};
}

Json water_json(const WaterPlan& water) {
  return {{"pour_ml", in_millilitres(water.pour)},
          {"first_fill_ml", in_millilitres(water.first_fill)},
          {"distilled_ml", in_millilitres(water.distilled)},
          {"held_by_charge_ml", in_millilitres(water.held)},
          {"uncondensed_ml", in_millilitres(water.uncondensed)},
          {"left_at_stop_ml", in_millilitres(water.left_at_stop)},
          {"reserve_ml", in_millilitres(water.reserve)},
          {"absence_ml", in_millilitres(water.absence)},
          {"after_heat_off_ml", in_millilitres(water.after_heat_off)},
          {"pot_fill_pct", in_percent(water.pot_fill)}};
}

Json times_json(const TimesPlan& times) {
  return {{"boil_min", in_minutes(times.boil)},
          {"first_drop_min", in_minutes(times.first_drop)},
          {"stop_min", in_minutes(times.stop)},
          {"reserve_min", in_minutes(times.reserve)},
          {"dry_min", in_minutes(times.dry)},
          {"earliest_stop_min", in_minutes(times.earliest_stop)},
          {"latest_min", in_minutes(times.latest)},
          {"stop_worst_min", in_minutes(times.stop_worst)},
          {"reserve_worst_min", in_minutes(times.reserve_worst)},
          {"dry_worst_min", in_minutes(times.dry_worst)},
          {"left_alone_to_reserve_min", in_minutes(times.reserve - times.stop)},
          {"left_alone_to_dry_min", in_minutes(times.dry - times.stop)}};
}

Json rates_json(const RatesPlan& rates) {
  Json j = {{"distillate_ml_per_min", in_millilitres_per_minute(rates.distillate)},
            {"distillate_most_ml_per_min", in_millilitres_per_minute(rates.distillate_most)},
            {"steam_kg_per_h_per_kg_charge", in_per_hour(rates.steam_per_charge)},
            {"heat_into_pot_w", in_watts(rates.heat_into_pot)},
            {"heat_lost_w", in_watts(rates.heat_lost)}};
  if (rates.steam_velocity) {
    j["steam_velocity_cm_per_s"] = in_centimetres_per_second(*rates.steam_velocity);
  }
  if (rates.bed_pressure_drop) j["bed_pressure_drop_pa"] = in_pascals(*rates.bed_pressure_drop);
  return j;
}

Json hydrosol_json(const Uncertainty& uncertainty, Mass as_fresh) {
  return {
      {"ml", range_json(uncertainty.hydrosol, in_millilitres)},
      {"l_per_kg_fresh", in_litres_per_kilogram(uncertainty.hydrosol.typical / as_fresh)},
      {"dissolved_oil_mg_per_l", range_json(uncertainty.dissolved_oil, in_milligrams_per_litre)}};
}

Json oil_json(const Uncertainty& uncertainty) {
  return {{"in_charge_g", range_json(uncertainty.oil_in_charge, in_grams)},
          {"vaporised_g", range_json(uncertainty.oil_vaporised, in_grams)},
          {"dissolved_g", range_json(uncertainty.oil_dissolved, in_grams)},
          {"in_receiver_g", range_json(uncertainty.oil_in_receiver, in_grams)},
          {"in_receiver_ml", range_json(uncertainty.oil_volume, in_millilitres)},
          {"density_g_per_ml", range_json(uncertainty.oil_density, in_grams_per_millilitre)},
          {"share_pct", range_json(uncertainty.oil_share, in_percent)}};
}

Json cooling_json(const CoolingPlan& cooling) {
  Json j = {{"duty_w", in_watts(cooling.duty)}};
  if (cooling.ice) j["ice_kg"] = in_kilograms(*cooling.ice);
  if (cooling.ice_ready) j["ice_ready_kg"] = in_kilograms(*cooling.ice_ready);
  if (cooling.first_ice) j["first_ice_kg"] = in_kilograms(*cooling.first_ice);
  if (!cooling.ice_changes.empty()) {
    Json changes = Json::array();
    for (const IceChange& change : cooling.ice_changes) {
      changes.push_back({{"at_min", in_minutes(change.at)}, {"ice_kg", in_kilograms(change.ice)}});
    }
    j["ice_changes"] = std::move(changes);
  }
  if (cooling.reservoir_end) j["reservoir_end_c"] = in_celsius(*cooling.reservoir_end);
  if (cooling.reservoir_limit) j["reservoir_limit_min"] = in_minutes(*cooling.reservoir_limit);
  if (cooling.flow) j["flow_l_per_min"] = in_litres_per_minute(*cooling.flow);
  if (cooling.flow_most) j["flow_most_l_per_min"] = in_litres_per_minute(*cooling.flow_most);
  if (cooling.coolant_used) j["coolant_l"] = in_litres(*cooling.coolant_used);
  j["surface_needed_m2"] = in_square_metres(cooling.surface_needed);
  if (cooling.distillate) j["distillate_c"] = in_celsius(*cooling.distillate);
  return j;
}

Json energy_json(const EnergyPlan& energy) {
  Json j = {{"kwh", in_kilowatt_hours(energy.plug)}};
  if (energy.energy_cost) j["cost"] = *energy.energy_cost;
  if (energy.plant_cost) j["plant_cost"] = *energy.plant_cost;
  if (energy.energy_cost || energy.plant_cost) j["currency"] = energy.currency;
  return j;
}

Json receiver_changes_json(const std::vector<ReceiverChange>& changes) {
  Json list = Json::array();
  for (const ReceiverChange& change : changes) {
    list.push_back(
        {{"at_min", in_minutes(change.at)}, {"hydrosol_ml", in_millilitres(change.caught)}});
  }
  return list;
}

Json timeline_json(const std::vector<TimelinePoint>& timeline) {
  Json list = Json::array();
  for (const TimelinePoint& point : timeline) {
    Json entry = {{"at_min", in_minutes(point.at)}, {"phase", to_string(point.phase)}};
    if (!point.event.empty()) entry["event"] = point.event;
    entry["pot_water_ml"] = in_millilitres(point.pot_water);
    entry["pot_c"] = in_celsius(point.pot);
    entry["hydrosol_ml"] = in_millilitres(point.hydrosol);
    entry["oil_ml"] = in_millilitres(point.oil.typical);
    entry["oil_p10_ml"] = in_millilitres(point.oil.low);
    entry["oil_p90_ml"] = in_millilitres(point.oil.high);
    if (point.coolant) entry["reservoir_c"] = in_celsius(*point.coolant);
    list.push_back(std::move(entry));
  }
  return list;
}

Json stop_json(const Stop& stop) {
  Json j = Json::object();
  if (stop.hydrosol) j["hydrosol_ml"] = in_millilitres(*stop.hydrosol);
  if (stop.clock) j["clock_min"] = in_minutes(*stop.clock);
  return j;
}

Json explained_json(const std::vector<Chapter>& chapters) {
  Json list = Json::array();
  for (const Chapter& chapter : chapters) {
    Json figures = Json::array();
    for (const ExplainedFigure& figure : chapter.figures) {
      Json entry = {{"symbol", figure.symbol},
                    {"name", figure.name},
                    {"value", figure.value.number},
                    {"unit", figure.value.unit}};
      if (figure.range) entry.update({{"p10", figure.range->low}, {"p90", figure.range->high}});
      if (!figure.equation.empty()) entry["equation"] = figure.equation;
      if (!figure.rule.empty()) entry["rule"] = figure.rule;
      const Evidence& evidence = figure.evidence;
      if (!evidence.basis.empty()) {
        entry["basis"] = evidence.basis;
        entry["known"] = to_string(evidence.known);
      }
      if (!evidence.sources.empty()) entry["sources"] = evidence.sources;
      figures.push_back(std::move(entry));
    }
    list.push_back({{"chapter", chapter.title}, {"figures", std::move(figures)}});
  }
  return list;
}

Json sensitivities_json(const Sensitivities& sensitivities) {
  Json list = Json::array();
  for (const Sensitivity& one : sensitivities) {
    list.push_back({{"parameter", to_string(one.parameter)}, {"share_pct", in_percent(one.share)}});
  }
  return list;
}

Json uncertainty_json(const Uncertainty& uncertainty) {
  Json j = {{"samples", uncertainty.samples}};
  for_each_range(uncertainty,
                 [&](const char* key, const char*, const char*, const auto& range, auto in_unit,
                     const char*) { j[key] = range_json(range, in_unit); });
  j["comes_from"] = {{"oil", sensitivities_json(uncertainty.oil_from)},
                     {"time", sensitivities_json(uncertainty.time_from)},
                     {"reserve", sensitivities_json(uncertainty.reserve_from)}};
  return j;
}

Json plan_as_json(const Plan& plan) {
  Json j = {{"plan", 1},
            {"title", plan.recipe.title},
            {"verdict", to_string(plan.verdict)},
            {"findings", findings_json(plan)},
            {"cautions", cautions_json(plan)},
            {"plant", plan.recipe.plant->key},
            {"still", plan.recipe.still->key},
            {"example_still", has_invented_figures(plan.recipe.still)},
            {"method", to_string(plan.recipe.method_used())},
            {"charge", charge_json(plan.charge)}};
  if (!plan.ways_out.empty()) j["ways_out"] = plan.ways_out;
  if (!plan.recipe.lot.empty()) j["lot"] = plan.recipe.lot;
  if (plan.run) j["water"] = water_json(plan.run->water);
  j["boiling"] = {{"pressure_kpa", in_kilopascals(plan.ambient)},
                  {"temperature_c", in_celsius(plan.boiling)},
                  {"latent_heat_kj_per_kg", in_kilojoules_per_kilogram(plan.latent_heat)}};
  if (plan.run) {
    const RunPlan& run = *plan.run;
    j["times"] = times_json(run.times);
    if (run.allow) j["times"]["allow_min"] = in_minutes(*run.allow);
    j["rates"] = rates_json(run.rates);
    j["hydrosol"] = hydrosol_json(run.uncertainty, plan.charge.as_fresh);
    j["oil"] = oil_json(run.uncertainty);
    // What sets the pace of the oil: its release by the plant, or how much of it steam can carry.
    j["oil"]["codistillation_limit_known"] = run.codistillation_limit_known;
    if (run.codistillation_limit_until) {
      j["oil"]["steam_sets_pace_until_min"] = in_minutes(*run.codistillation_limit_until);
    }
    j["cooling"] = cooling_json(run.cooling);
    if (!run.receiver_changes.empty()) {
      j["receiver_changes"] = receiver_changes_json(run.receiver_changes);
    }
    j["energy"] = energy_json(run.energy);
    j["balance"] = {{"mass_residual_g", in_grams(run.mass_residual)},
                    {"energy_residual_kj", in_kilojoules(run.energy_residual)}};
    j["stop_criterion"] = to_string(run.stop_criterion);
    j["stop_at"] = stop_json(run.stop);
    j["stop_at"]["never_beyond_ml"] = in_millilitres(run.water.never_beyond);
    j["quarter_hour_more"] = {{"hydrosol_ml", in_millilitres(run.more.hydrosol)},
                              {"oil_g", in_grams(run.more.oil)}};
    if (run.uncertainty.chance_of_goal) {
      j["chance_of_goal_pct"] = in_percent(*run.uncertainty.chance_of_goal);
    }
    if (plan.recipe.confidence) j["confidence_pct"] = in_percent(*plan.recipe.confidence);
    j["uncertainty"] = uncertainty_json(run.uncertainty);
    j["timeline"] = timeline_json(run.timeline);
  }
  j["defaults_used"] = plan.defaults_used;
  j["sources"] = plan.sources;
  j["source_count"] = {{"real", plan.source_count.real}, {"in_full", plan.source_count.in_full}};
  return j;
}

}  // namespace

std::string plan_json(const Plan& plan) {
  return json_document(plan_as_json(plan), 2);
}

std::string plan_json_line(const Plan& plan) {
  return json_document(plan_as_json(plan));
}

std::string plan_json(const Plan& plan, const std::vector<Chapter>& explained) {
  Json j = plan_as_json(plan);
  j["explain"] = explained_json(explained);
  return json_document(j, 2);
}

}  // namespace firstdrop
