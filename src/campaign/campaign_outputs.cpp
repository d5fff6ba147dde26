#include "campaign/campaign_outputs.hpp"

#include <cstddef>
#include <functional>
#include <optional>
#include <utility>
#include <variant>

#include "campaign/campaign_content.hpp"
#include "output/finding_outputs.hpp"
#include "output/plan_outputs.hpp"
#include "output/stop_bounds.hpp"
#include "plan/words.hpp"
#include "tables/words.hpp"

namespace firstdrop {
namespace {

/// One entry of the work, planned and as it was asked for.
struct WrittenWork {
  const CampaignWork& work;
  const WorkOrder& order;
};
/// The plant material of one entry on one day.
struct DayHerb {
  std::size_t work;
  Mass mass;
};
struct WrittenDay {
  const CampaignDay& day;
  const CampaignPlan& plan;
};

using OfWork = Output<WrittenWork>;
using EachRun = Output<CampaignWork>;

const CampaignWork& work_of(const WrittenWork& of) {
  return of.work;
}
const Plan& plan_of_run(const CampaignWork& work) {
  return work.plan;
}
const RunPlan& run_of_work(const CampaignWork& work) {
  return *work.plan.run;
}

bool has_oil(const CampaignWork& work) {
  return run_of_work(work).has_oil;
}

// --- one entry of the work

template <class Goal, class Amount>
std::optional<Amount> ordered(const WorkOrder& order, Amount Goal::*member) {
  const auto* goal = std::get_if<Goal>(&order.order);
  return goal ? std::optional((*goal).*member) : std::nullopt;
}
template <class Amount>
std::optional<Amount> ordered_oil(const WorkOrder& order) {
  const auto* goal = std::get_if<OilGoal>(&order.order);
  const auto* amount = goal ? std::get_if<Amount>(&goal->amount) : nullptr;
  return amount ? std::optional(*amount) : std::nullopt;
}

Outputs<WorkOrder> order() {
  using Of = Output<WorkOrder>;
  constexpr const char* otherwise = "something else was asked for";
  return {
      Of::amount(
          "harvest_g", in_grams, [](const WorkOrder& o) { return ordered(o, &HarvestOrder::mass); },
          "Plant material to use up.", otherwise),
      Of::amount(
          "hydrosol_ml", in_millilitres,
          [](const WorkOrder& o) { return ordered(o, &HydrosolGoal::volume); }, "Hydrosol wanted.",
          otherwise),
      Of::amount(
          "oil_g", in_grams, [](const WorkOrder& o) { return ordered_oil<Mass>(o); },
          "Oil wanted, by mass.", otherwise),
      Of::amount(
          "oil_ml", in_millilitres, [](const WorkOrder& o) { return ordered_oil<Volume>(o); },
          "Oil wanted, by volume.", otherwise),
  };
}

// An output of the plan of one run, under the name that it has here.
EachRun as_in_plan(const char* path, const char* name) {
  return lifted<CampaignWork>(plan_of_run, output_at(plan_outputs(), path)).named(name);
}

Outputs<CampaignWork> each_run() {
  Outputs<CampaignWork> outputs = {
      as_in_plan("charge.mass_g", "charge_g"),
      as_in_plan("water.pour_ml", "pour_ml"),
      as_in_plan("water.first_fill_ml", "first_fill_ml"),
      as_in_plan("times.first_drop_min", "first_drop_min"),
      as_in_plan("times.stop_min", "stop_min"),
      EachRun::amount(
          "heat_off_by_min", in_minutes,
          [](const CampaignWork& w) { return stop_bounds(w.plan).by; },
          "Turn the heat off by then if nobody has seen the level. Whole minutes, for the worst "
          "credible case."),
      EachRun::amount(
          "done_by_min", in_minutes, [](const CampaignWork& w) { return done_by(w.plan); },
          "By then nine runs in ten have ended, with the person as late as the recipe allows. It "
          "is "
          "for planning the day and doesn't limit the heat."),
      as_in_plan("hydrosol.ml", "hydrosol_ml").saying("In the receiver at the stop."),
      EachRun::amount(
          "oil_ml", in_millilitres,
          [](const CampaignWork& w) { return run_of_work(w).uncertainty.oil_volume; },
          "Oil that separates in the receiver.")
          .only_when(has_oil, no_oil_known),
  };
  for (const Output<RunPlan>& stop : stop_outputs()) {
    EachRun output = lifted<CampaignWork>(run_of_work, stop);
    if (output.key.name == "hydrosol_ml") output = std::move(output).named("stop_at_ml");
    if (output.key.name == "clock_min") output = std::move(output).named("stop_clock_min");
    outputs.push_back(std::move(output));
  }
  outputs.insert(
      outputs.end(),
      {EachRun::amount("ice_kg", in_kilograms, &CampaignWork::ice,
                       "Ice expected to be used, in pieces as weighed out.", "none is used"),
       EachRun::amount("ice_ready_kg", in_kilograms, &CampaignWork::ice_ready,
                       "Ice to have ready: enough for any heater.", "none is needed"),
       as_in_plan("cooling.coolant_l", "tap_water_l"), as_in_plan("energy.kwh", "kwh")});
  return outputs;
}

Outputs<CampaignWork> totals() {
  Outputs<CampaignWork> outputs = {
      EachRun::amount("herb_g", in_grams, &CampaignWork::herb, "Plant material."),
      EachRun::amount("hydrosol_ml", in_millilitres, &CampaignWork::hydrosol, "Hydrosol."),
      EachRun::amount("oil_g", in_grams, &CampaignWork::oil, "Oil, separated from the hydrosol.")
          .only_when(has_oil, no_oil_known),
      EachRun::amount("oil_ml", in_millilitres, &CampaignWork::oil_volume,
                      "The same oil by volume.")
          .only_when(has_oil, no_oil_known),
      EachRun::amount("kwh", in_kilowatt_hours, &CampaignWork::plug,
                      "Energy from the socket, or of the gas."),
  };
  const auto costs = [](const CampaignWork& work) {
    EnergyPlan all = run_of_work(work).energy;
    if (all.energy_cost) *all.energy_cost *= work.placed;
    if (all.plant_cost) *all.plant_cost *= work.placed;
    return all;
  };
  outputs.push_back(EachRun::part(costs, cost_outputs()));
  return outputs;
}

Output<CampaignProblem> code_of_problem() {
  return Output<CampaignProblem>::words("code", &CampaignProblem::code,
                                        "What it is about. It never changes.");
}
Output<CampaignProblem> text_of_problem() {
  return Output<CampaignProblem>::words("text", &CampaignProblem::text,
                                        "For people, with ways out.");
}

Outputs<WrittenWork> work() {
  const auto recipe = [](auto Recipe::*member) {
    return [=](const WrittenWork& w) -> const auto& {
      return w.work.plan.recipe.*member;
    };
  };
  const auto of_plan = [](const WrittenWork& w) -> const Plan& { return w.work.plan; };
  const auto as_in_plan = [&](const char* path) {
    return lifted<WrittenWork>(of_plan, output_at(plan_outputs(), path));
  };
  return {
      as_in_plan("title"),
      OfWork::words(
          "recipe", [](const WrittenWork& w) -> const std::string& { return w.order.file; },
          "Path of the recipe.", "the campaign spells it out"),
      as_in_plan("plant"),
      OfWork::word("state", recipe(&Recipe::state), "How the plant material is."),
      as_in_plan("still"),
      as_in_plan("example_still"),
      as_in_plan("method"),
      as_in_plan("verdict").saying("What becomes of one run."),
      OfWork::object(
          "order", [](const WrittenWork& w) -> const WorkOrder& { return w.order; }, order(),
          "What was asked for: one of these.")
          .rules(R"("minProperties": 1, "maxProperties": 1)"),
      OfWork::amount(
          "confidence_pct", in_percent, [](const WrittenWork& w) { return w.order.confidence; },
          "How often each run must give its share of what is wanted.", "the campaign doesn't ask")
          .from_to(1, 99),
      OfWork::list(
          "findings", [](const WrittenWork& w) { return written_findings(w.work.plan); },
          short_finding_outputs(), "Findings of one run that caution or refuse.",
          is_more_than_a_note),
      OfWork::list(
          "problems", [](const WrittenWork& w) -> const auto& { return w.work.problems; },
          Outputs<CampaignProblem>{code_of_problem().one_of({"refused", "run-too-long", "ice-short",
                                                             "days-run-out", "too-many-runs"}),
                                   text_of_problem()},
          "Why some of it has no day."),
      OfWork::list(
          "cautions", [](const WrittenWork& w) -> const auto& { return w.work.cautions; },
          Outputs<CampaignProblem>{code_of_problem().one_of({"ice-ready-short"}),
                                   text_of_problem()},
          "What to mind at this bench, besides the findings of the run."),
      OfWork::whole(
          "runs", [](const WrittenWork& w) { return w.work.runs; },
          "Runs that it takes; 0 if it is refused."),
      OfWork::whole(
          "placed", [](const WrittenWork& w) { return w.work.placed; },
          "Those of them that have a day."),
      OfWork::object("each_run", work_of, each_run(), "One of its runs.")
          .only_when([](const WrittenWork& w) { return w.work.plan.may_be_run(); },
                     "it is refused"),
      OfWork::object("in_all", work_of, totals(), "All of its runs that have a day.")
          .rules(cost_rules)
          .only_when([](const WrittenWork& w) { return w.work.placed > 0; }, "none has a day"),
  };
}

// --- days

Outputs<CampaignNeeds> needs() {
  using Of = Output<CampaignNeeds>;
  return {
      Of::amount("pot_water_ml", in_millilitres, &CampaignNeeds::pot_water,
                 "Water to pour into the pots."),
      Of::amount("tap_water_l", in_litres, &CampaignNeeds::tap_water, "Coolant from the tap.")
          .only_when([](const CampaignNeeds& n) { return n.tap_water > litres(0); },
                     "none is needed"),
      Of::amount("ice_kg", in_kilograms, &CampaignNeeds::ice,
                 "Ice expected to be used, in pieces as weighed out.", "none is used"),
      Of::amount("ice_ready_kg", in_kilograms, &CampaignNeeds::ice_ready,
                 "Ice to have ready when the bench opens: enough for any heater.",
                 "none is needed"),
      Of::amount("kwh", in_kilowatt_hours, &CampaignNeeds::plug,
                 "Energy from the socket, or of the gas."),
  };
}

Outputs<CampaignRun> run() {
  using Of = Output<CampaignRun>;
  const auto moment = [](const char* name, LocalMinute CampaignRun::*member, const char* help) {
    return Of::words(
               name,
               [=](const CampaignRun& of) {
                 std::string text = date_and_time(of.*member);
                 return text.replace(text.find(' '), 1, "T");
               },
               help)
        .as(KeyForm::minute);
  };
  return {
      Of::whole("run", &CampaignRun::number, "Its number in the campaign, from 1, for `--run`.")
          .at_least(1),
      Of::whole("work", &CampaignRun::work, "Its entry of `work`, from 0."),
      moment("heat_on", &CampaignRun::heat_on, "Start of heating, local time."),
      moment("stop", &CampaignRun::stop, "Heat off in the nominal run."),
      moment("heat_off_by", &CampaignRun::heat_off_by,
             "Turn the heat off by then if nobody has seen the level."),
      moment("done_by", &CampaignRun::done_by,
             "By then nine runs in ten have ended. It doesn't limit the heat."),
  };
}

std::vector<DayHerb> herb_of(const WrittenDay& of) {
  std::vector<DayHerb> all;
  for (const auto& [work, runs] : runs_by_work(of.day))
    all.push_back({work, of.plan.work[work].plan.charge.mass * double(runs)});
  return all;
}

Outputs<WrittenDay> day() {
  using Of = Output<WrittenDay>;
  const Outputs<DayHerb> herb = {
      Output<DayHerb>::whole("work", &DayHerb::work, "The entry of `work`, from 0."),
      Output<DayHerb>::amount("mass_g", in_grams, &DayHerb::mass, "Plant material for it.")};
  return {
      Of::words(
          "day", [](const WrittenDay& of) { return day_text(of.day.day); },
          "The day on which the bench opens.")
          .as(KeyForm::day),
      Of::list("herb", herb_of, herb, "Plant material to have ready."),
      Of::part(
          [](const WrittenDay& of) -> const auto& { return of.day.needs; }, needs()),
      Of::list(
          "runs", [](const WrittenDay& of) -> const auto& { return of.day.runs; }, run(),
          "Its runs, in the order of time.")
          .at_least_one(),
  };
}

std::vector<WrittenWork> work_entries(const WrittenCampaign& of) {
  std::vector<WrittenWork> all;
  for (std::size_t i = 0; i < of.plan.work.size(); ++i)
    all.push_back({of.plan.work[i], of.plan.campaign.work[i]});
  return all;
}

std::vector<WrittenDay> days_of(const WrittenCampaign& of) {
  std::vector<WrittenDay> all;
  for (const CampaignDay& one : of.plan.days) all.push_back({one, of.plan});
  return all;
}

Outputs<CampaignPlan> in_all() {
  using Of = Output<CampaignPlan>;
  return {Of::whole("runs", &CampaignPlan::runs, "Runs that have a day."),
          Of::whole(
              "days", [](const CampaignPlan& plan) { return plan.days.size(); }, "Days with runs."),
          Of::part(&CampaignPlan::needs, needs())};
}

}  // namespace

const Outputs<WrittenCampaign>& written_campaign_outputs() {
  using Of = Output<WrittenCampaign>;
  static const Outputs<WrittenCampaign> outputs = {
      Of::version("campaign"),
      Of::text(
          "title", [](const WrittenCampaign& of) -> const auto& { return of.plan.campaign.title; },
          "The campaign's; empty if it has none."),
      Of::word(
          "verdict", [](const WrittenCampaign& of) { return verdict_of(of.plan); },
          "The worst of all work. It is also refused if some of the work has no day."),
      Of::list("work", work_entries, work(), "In the order of the campaign's work.").at_least_one(),
      Of::list("days", days_of, day(), "Days with runs, in their order."),
      Of::object(
          "in_all", [](const WrittenCampaign& of) -> const CampaignPlan& { return of.plan; },
          in_all(), "What all days need."),
      Of::amount(
          "between_runs_min", in_minutes,
          [](const WrittenCampaign& of) { return of.plan.campaign.bench.between_runs; },
          "The least time from `done_by` of a run to the next start of heating."),
      Of::texts("cautions", &WrittenCampaign::cautions,
                "What holds for every run, to print as it is."),
  };
  return outputs;
}

Document campaign_plan_document() {
  return written_document(
      "campaign-plan",
      "What `firstdrop campaign CAMPAIGN --json` prints: runs on days, and what to have ready for "
      "each.",
      written_campaign_outputs());
}

}  // namespace firstdrop
