#include "output/plan_outputs.hpp"

#include <functional>

#include "output/finding_outputs.hpp"
#include "physics/words.hpp"
#include "plan/words.hpp"
#include "quantity/words.hpp"
#include "tables/words.hpp"

namespace firstdrop {
namespace {

using OfPlan = Output<Plan>;
using OfRun = Output<RunPlan>;

const RunPlan& run_of(const Plan& plan) {
  return *plan.run;
}
const Uncertainty& ranges_of(const Plan& plan) {
  return plan.run->uncertainty;
}
bool has_oil(const RunPlan& run) {
  return run.has_oil;
}
bool has_samples(const Plan& plan) {
  return ranges_of(plan).samples > 0;
}

struct WrittenPart {
  const BlendPart& part;
  Mass mass;  // of one run
};

std::vector<WrittenPart> parts_of(const Plan& plan) {
  std::vector<WrittenPart> parts;
  for (const BlendPart& part : plan.recipe.plant->blend)
    parts.push_back({part, plan.charge.mass * part.share});
  return parts;
}

OfPlan blend() {
  using Of = Output<WrittenPart>;
  const Outputs<WrittenPart> part = {
      Of::text(
          "plant", [](const WrittenPart& w) -> const std::string& { return w.part.plant->key; },
          "The plant's key; `own` for one without.")
          .in_brief(),
      Of::words(
          "name", [](const WrittenPart& w) -> const std::string& { return w.part.plant->name; },
          "Its name for people.")
          .in_brief(),
      Of::amount(
          "share_pct", in_percent, [](const WrittenPart& w) { return w.part.share; },
          "Its share of the charge, by mass.")
          .from_to(0, 100)
          .in_brief(),
      Of::amount("mass_g", in_grams, &WrittenPart::mass, "To weigh of it, for one run.").in_brief(),
  };
  return OfPlan::list("blend", parts_of, part, "The plants of a blend.")
      .only_when([](const Plan& plan) { return !plan.recipe.plant->blend.empty(); },
                 "there is one plant")
      .in_brief();
}

Outputs<ChargePlan> charge() {
  using Of = Output<ChargePlan>;
  return {
      Of::amount("mass_g", in_grams, &ChargePlan::mass, "To weigh, for one run.").in_brief(),
      Of::amount("as_fresh_g", in_grams, &ChargePlan::as_fresh,
                 "The same herb as it was cut, or the charge itself where the tables know it only "
                 "dried."),
      Of::amount("dry_matter_g", in_grams, &ChargePlan::dry_matter,
                 "The charge without its water."),
      Of::amount("volume_ml", in_millilitres, &ChargePlan::volume, "The space it fills."),
      Of::amount("fill_pct", in_percent, &ChargePlan::fill,
                 "Share filled of the column, of the space over the grid, or of the pot with its "
                 "water.")
          .in_brief(),
      Of::whole("runs", &ChargePlan::runs,
                "Runs that the charge or the goal takes, all alike. The plan shows one of them.")
          .at_least(1)
          .in_brief(),
      Of::amount("harvest_g", in_grams, &ChargePlan::harvest, "Herb for all runs.").in_brief(),
      Of::amount("rest_g", in_grams, &ChargePlan::rest,
                 "Herb left over from the recipe's charge: too little for a run of its own."),
      Of::amount(
          "least_g", in_grams, &ChargePlan::least,
          "Down to this charge, water, stop and limits hold; it gives less oil. Less needs a "
          "new plan."),
      Of::amount("most_g", in_grams, &ChargePlan::most,
                 "Up to this charge, water, stop and limits hold. More needs a new plan."),
  };
}

Outputs<WaterPlan> water() {
  using Of = Output<WaterPlan>;
  return {
      Of::amount("pour_ml", in_millilitres, &WaterPlan::pour,
                 "To pour in, measured at the recipe's `water_temperature`, or at room "
                 "temperature."),
      Of::amount("first_fill_ml", in_millilitres, &WaterPlan::first_fill,
                 "The same water at room temperature.")
          .in_brief(),
      Of::amount("distilled_ml", in_millilitres, &WaterPlan::distilled,
                 "In the receiver at the stop.")
          .any_sign(),
      Of::nominal(&Uncertainty::held, &WaterPlan::held).named("held_by_charge_ml"),
      Of::nominal(&Uncertainty::uncondensed, &WaterPlan::uncondensed),
      Of::nominal(&Uncertainty::left_at_stop, &WaterPlan::left_at_stop).any_sign().in_brief(),
      Of::amount("reserve_ml", in_millilitres, &WaterPlan::reserve, "Must stay in the pot.")
          .in_brief(),
      Of::amount("absence_ml", in_millilitres, &WaterPlan::absence,
                 "Part of the first fill that covers a late stop, and the heat stored in the "
                 "heater, in the worst credible case.")
          .any_sign(),
      Of::amount("after_heat_off_ml", in_millilitres, &WaterPlan::after_heat_off,
                 "Hydrosol that typically still comes after heat off, from the heat stored in the "
                 "heater."),
      Of::amount("pot_fill_pct", in_percent, &WaterPlan::pot_fill,
                 "Share of the pot that is filled, with the charge if it lies in the water."),
  };
}

Outputs<TimesPlan> times() {
  using Of = Output<TimesPlan>;
  return {
      Of::nominal(&Uncertainty::boil, &TimesPlan::boil).in_brief(),
      Of::nominal(&Uncertainty::first_drop, &TimesPlan::first_drop).in_brief(),
      Of::nominal(&Uncertainty::stop, &TimesPlan::stop).in_brief(),
      Of::nominal(&Uncertainty::reserve, &TimesPlan::reserve),
      Of::nominal(&Uncertainty::dry, &TimesPlan::dry),
      Of::amount("earliest_stop_min", in_minutes, &TimesPlan::earliest_stop,
                 "The stop with the strongest heater. Look from then on."),
      Of::amount("latest_min", in_minutes, &TimesPlan::latest,
                 "Turn the heat off by then if nobody has seen the level. The worst case still "
                 "keeps its reserve.")
          .in_brief(),
      Of::amount("stop_worst_min", in_minutes, &TimesPlan::stop_worst,
                 "The stop in the worst case, with nobody late.")
          .in_brief(),
      Of::amount("reserve_worst_min", in_minutes, &TimesPlan::reserve_worst,
                 "The reserve is reached no sooner, even in the worst case.")
          .in_brief(),
      Of::amount("dry_worst_min", in_minutes, &TimesPlan::dry_worst,
                 "The pot is dry no sooner, even in the worst case.")
          .in_brief(),
      Of::nominal(&Uncertainty::left_alone_to_reserve,
                  [](const TimesPlan& times) { return times.reserve - times.stop; })
          .any_sign(),
      Of::nominal(&Uncertainty::left_alone_to_dry,
                  [](const TimesPlan& times) { return times.dry - times.stop; })
          .any_sign(),
  };
}

Outputs<RunPlan> times_and_allowance() {
  return {OfRun::part(&RunPlan::times, times()),
          OfRun::amount("allow_min", in_minutes, &RunPlan::allow,
                        "By then the stop has come as often as `goal.confidence` asks.",
                        "the recipe doesn't ask")};
}

Outputs<RatesPlan> rates() {
  using Of = Output<RatesPlan>;
  return {
      Of::nominal(&Uncertainty::distillate, &RatesPlan::distillate),
      Of::amount("distillate_most_ml_per_min", in_millilitres_per_minute,
                 &RatesPlan::distillate_most, "The same with the strongest heater."),
      Of::nominal(&Uncertainty::steam_per_charge, &RatesPlan::steam_per_charge),
      Of::nominal(&Uncertainty::heat_into_pot, &RatesPlan::heat_into_pot),
      Of::nominal(&Uncertainty::heat_lost, &RatesPlan::heat_lost),
      Of::nominal(&Uncertainty::steam_velocity, &RatesPlan::steam_velocity),
      Of::nominal(&Uncertainty::bed_pressure_drop, &RatesPlan::bed_pressure_drop),
  };
}

Outputs<Plan> hydrosol() {
  return {
      OfPlan::amount(
          "nominal_ml", in_millilitres, [](const Plan& p) { return p.run->nominal.hydrosol; },
          "In the receiver, in the nominal run.")
          .only_in(Extent::brief),
      OfPlan::amount(
          "ml", in_millilitres, [](const Plan& p) { return ranges_of(p).hydrosol; },
          "In the receiver at the stop. In brief, only with `--samples`.")
          .in_brief_when(has_samples),
      OfPlan::amount(
          "l_per_kg_fresh", in_litres_per_kilogram,
          [](const Plan& p) { return ranges_of(p).hydrosol.typical / p.charge.as_fresh; },
          "The median, over the charge as fresh herb."),
      OfPlan::amount(
          "dissolved_oil_mg_per_l", in_milligrams_per_litre,
          [](const Plan& p) { return ranges_of(p).dissolved_oil; }, "Oil that stays in it.")
          .only_when([](const Plan& p) { return p.run->has_oil; }, no_oil_known),
  };
}

Outputs<Uncertainty> oil_ranges() {
  using Of = Output<Uncertainty>;
  const auto sampled = [](const Uncertainty& ranges) { return ranges.samples > 0; };
  return {
      Of::amount("in_charge_g", in_grams, &Uncertainty::oil_in_charge, "In the charge."),
      Of::amount("vaporised_g", in_grams, &Uncertainty::oil_vaporised,
                 "Carried over by the steam."),
      Of::amount("dissolved_g", in_grams, &Uncertainty::oil_dissolved,
                 "The part of it that stays in the hydrosol."),
      Of::amount("in_receiver_g", in_grams, &Uncertainty::oil_in_receiver,
                 "The part of it that separates in the receiver. In brief, only with `--samples`.")
          .in_brief_when(sampled),
      Of::amount("in_receiver_ml", in_millilitres, &Uncertainty::oil_volume,
                 "The same by volume. In brief, only with `--samples`.")
          .in_brief_when(sampled),
      Of::amount("density_g_per_ml", in_grams_per_millilitre, &Uncertainty::oil_density,
                 "The oil's density."),
      Of::amount("share_pct", in_percent, &Uncertainty::oil_share,
                 "Share of the oil in the charge that is carried over."),
  };
}

Outputs<RunPlan> oil() {
  const auto nominal = [](auto NominalYield::*member) {
    return [=](const RunPlan& run) { return run.nominal.*member; };
  };
  return {
      OfRun::amount("nominal_in_receiver_g", in_grams, nominal(&NominalYield::oil),
                    "Separated in the receiver, in the nominal run.")
          .only_in(Extent::brief),
      OfRun::amount("nominal_in_receiver_ml", in_millilitres, nominal(&NominalYield::oil_volume),
                    "The same by volume.")
          .only_in(Extent::brief),
      OfRun::part(&RunPlan::uncertainty, oil_ranges()),
      OfRun::truth("codistillation_limit_known", &RunPlan::codistillation_limit_known,
                   "Whether it is known how much of this oil steam can carry."),
      OfRun::amount("steam_sets_pace_until_min", in_minutes, &RunPlan::codistillation_limit_until,
                    "Until then the oil comes as fast as steam can carry it. After that the plant "
                    "sets the pace.",
                    "the plant sets it from the beginning"),
  };
}

Outputs<IceChange> ice_change() {
  using Of = Output<IceChange>;
  return {Of::amount("at_min", in_minutes, &IceChange::at, "When."),
          Of::amount("ice_kg", in_kilograms, &IceChange::ice,
                     "Ice to put in. As much warm water comes out.")};
}

Outputs<CoolingPlan> cooling() {
  using Of = Output<CoolingPlan>;
  return {
      Of::nominal(&Uncertainty::duty, &CoolingPlan::duty).in_brief(),
      Of::nominal(&Uncertainty::ice, &CoolingPlan::ice).in_brief(),
      Of::amount("ice_ready_kg", in_kilograms, &CoolingPlan::ice_ready,
                 "Ice to have ready, in pieces as weighed out. It is enough for the strongest and "
                 "for the weakest heater.",
                 "neither takes any"),
      Of::amount("first_ice_kg", in_kilograms, &CoolingPlan::first_ice,
                 "The part of the ice that is in the bath at first drop.", "there is none"),
      Of::list("ice_changes", &CoolingPlan::ice_changes, ice_change(),
               "Ice that goes in during the run.")
          .unless_empty(&CoolingPlan::ice_changes, "there is none"),
      Of::nominal(&Uncertainty::reservoir_end, &CoolingPlan::reservoir_end).any_sign(),
      Of::amount("reservoir_limit_min", in_minutes, &CoolingPlan::reservoir_limit,
                 "When the coolant first gets too warm.", "it doesn't in this run"),
      Of::nominal(&Uncertainty::flow, &CoolingPlan::flow),
      Of::amount("flow_most_l_per_min", in_litres_per_minute, &CoolingPlan::flow_most,
                 "The same with the strongest heater.", "no coolant comes from a tap"),
      Of::nominal(&Uncertainty::coolant_used, &CoolingPlan::coolant_used).in_brief(),
      Of::nominal(&Uncertainty::surface_needed, &CoolingPlan::surface_needed)
          .saying("Condensing surface needed with the warmest coolant of the run."),
      Of::amount("distillate_c", in_celsius, &CoolingPlan::distillate,
                 "The distillate comes out no warmer than this.",
                 "the condenser can't condense and cool all of it")
          .any_sign(),
  };
}

Outputs<ReceiverChange> receiver_change() {
  using Of = Output<ReceiverChange>;
  return {Of::amount("at_min", in_minutes, &ReceiverChange::at, "When it is full."),
          Of::amount("hydrosol_ml", in_millilitres, &ReceiverChange::caught,
                     "Caught in all receivers by then.")};
}

struct WrittenFraction {
  FractionPlan when;
  FractionRanges yields;
  bool has_oil = true;
};

std::vector<WrittenFraction> fractions_of(const RunPlan& run) {
  std::vector<WrittenFraction> fractions;
  for (std::size_t i = 0; i < run.fractions.size() && i < run.uncertainty.fractions.size(); ++i)
    fractions.push_back({run.fractions[i], run.uncertainty.fractions[i], run.has_oil});
  return fractions;
}

Outputs<WrittenFraction> fraction() {
  using Of = Output<WrittenFraction>;
  const auto of = [](auto FractionRanges::*member) {
    return [=](const WrittenFraction& w) { return w.yields.*member; };
  };
  const auto oil = [](const WrittenFraction& w) { return w.has_oil; };
  return {
      Of::amount(
          "from_min", in_minutes, [](const WrittenFraction& w) { return w.when.from; },
          "When it begins, in the nominal run."),
      Of::amount(
          "to_min", in_minutes, [](const WrittenFraction& w) { return w.when.to; },
          "When it ends, in the nominal run."),
      Of::amount("hydrosol_ml", in_millilitres, of(&FractionRanges::hydrosol), "Its hydrosol."),
      Of::amount("dissolved_oil_mg_per_l", in_milligrams_per_litre,
                 of(&FractionRanges::dissolved_oil), "Oil that stays in that hydrosol.")
          .only_when(oil, no_oil_known),
      Of::amount("oil_g", in_grams, of(&FractionRanges::oil), "Oil that separates in its receiver.")
          .only_when(oil, no_oil_known),
      Of::amount("oil_ml", in_millilitres, of(&FractionRanges::oil_volume),
                 "The same oil by volume.")
          .only_when(oil, no_oil_known),
  };
}

Outputs<EnergyPlan> energy() {
  Outputs<EnergyPlan> outputs = {
      Output<EnergyPlan>::nominal(&Uncertainty::plug, &EnergyPlan::plug).in_brief()};
  outputs.insert(outputs.end(), cost_outputs().begin(), cost_outputs().end());
  return outputs;
}

Outputs<RunPlan> residuals() {
  return {OfRun::amount("mass_residual_g", in_grams, &RunPlan::mass_residual, "Water.").any_sign(),
          OfRun::amount("energy_residual_kj", in_kilojoules, &RunPlan::energy_residual, "Heat.")
              .any_sign()};
}

Outputs<RunPlan> quarter_hour_more() {
  const auto more = [](auto QuarterHourMore::*member) {
    return [=](const RunPlan& run) { return run.more.*member; };
  };
  return {OfRun::amount("hydrosol_ml", in_millilitres, more(&QuarterHourMore::hydrosol),
                        "More hydrosol.")
              .any_sign(),
          OfRun::amount("oil_g", in_grams, more(&QuarterHourMore::oil),
                        "More separated oil. It is below zero if the hydrosol dissolves more than "
                        "comes over.")
              .only_when(has_oil, no_oil_known)
              .any_sign()};
}

Outputs<Sensitivity> sensitivity() {
  using Of = Output<Sensitivity>;
  std::vector<std::string> parameters;
  for (std::size_t i = 0; i < parameter_count; ++i)
    parameters.push_back(to_string(static_cast<Parameter>(i)));
  return {Of::words(
              "parameter", [](const Sensitivity& one) { return to_string(one.parameter); },
              "The figure.")
              .one_of(parameters),
          Of::amount("share_pct", in_percent, &Sensitivity::share,
                     "The share of the variance that would go if it were known.")
              .from_to(0, 100)};
}

Outputs<Uncertainty> sensitivities() {
  using Of = Output<Uncertainty>;
  return {
      Of::list("oil", &Uncertainty::oil_from, sensitivity(),
               "Of the oil in the receiver, or of the oil carried over if none separates.")
          .unless_empty(&Uncertainty::oil_from, no_oil_known),
      Of::list("time", &Uncertainty::time_from, sensitivity(),
               "Of the time of the stop, or of first drop if the clock ends the run."),
      Of::list("reserve", &Uncertainty::reserve_from, sensitivity(),
               "Of the time from the stop to the reserve."),
  };
}

Outputs<Uncertainty> uncertainty() {
  using Of = Output<Uncertainty>;
  Outputs<Uncertainty> outputs = {
      Of::whole("samples", &Uncertainty::samples, "Runs behind the ranges.").at_least(1)};
  for_each_ranged_outcome([&](const auto& outcome) {
    outputs.push_back(Of::amount(outcome.key, outcome.unit.number, outcome.range, outcome.name,
                                 outcome.left_out));
  });
  outputs.push_back(
      Of::object("comes_from", sensitivities(),
                 "Which uncertain figures the ranges come from, largest shares first: what to "
                 "measure next. Shares below one per cent are left out."));
  return outputs;
}

std::vector<TimelineMoment> moments_of(const RunPlan& run) {
  std::vector<TimelineMoment> moments;
  for (const TimelinePoint& point : run.timeline) moments.push_back({point});
  return moments;
}

// What exists only for a run that gives distillate. `is_there` says whether it is written.
Outputs<Plan> of_run(const OfPlan::When& is_there) {
  const auto part = [&](const Outputs<RunPlan>& outputs) {
    return OfPlan::part("run", is_there, run_of, outputs);
  };
  const auto beside = [&](const Outputs<Plan>& outputs) {
    return OfPlan::part("run", is_there, std::identity(), outputs);
  };
  return {
      part({OfRun::object("water", &RunPlan::water, water(),
                          "The water of one run, from pot to receiver.")}),
      OfPlan::object(
          "boiling",
          {
              OfPlan::amount("pressure_kpa", in_kilopascals, &Plan::ambient, "Of the air."),
              OfPlan::amount("temperature_c", in_celsius, &Plan::boiling,
                             "The temperature at which water boils.")
                  .any_sign(),
              OfPlan::amount("latent_heat_kj_per_kg", in_kilojoules_per_kilogram,
                             &Plan::latent_heat, "The heat that evaporates water."),
          },
          "Water at the site."),
      part({OfRun::object("times", times_and_allowance(),
                          "When things happen. The worst case is the worst credible one: the "
                          "strongest heater, the least loss, the most water held, the least poured "
                          "in."),
            OfRun::object("rates", &RunPlan::rates, rates(),
                          "How fast things go, from the first drop on.")}),
      beside({OfPlan::object("hydrosol", hydrosol(), "The water under the oil.")}),
      part({
          OfRun::object("oil", oil(), "The oil of one run.").only_when(has_oil, no_oil_known),
          OfRun::object("cooling", &RunPlan::cooling, cooling(), "How the heat is taken away."),
          OfRun::list("receiver_changes", &RunPlan::receiver_changes, receiver_change(),
                      "When an empty receiver replaces a full one.")
              .unless_empty(&RunPlan::receiver_changes,
                            "one is enough, or the recipe doesn't give its size"),
          OfRun::list("fractions", fractions_of, fraction(),
                      "What each fraction of the distillate brings, in a receiver of its own.")
              .only_when([](const RunPlan& run) { return !run.fractions.empty(); },
                         "the recipe has none"),
          OfRun::object("energy", &RunPlan::energy, energy(), "What heating takes.")
              .rules(cost_rules, false),
          OfRun::object("balance", residuals(),
                        "What is left over when all water and heat are added up: only rounding."),
          OfRun::word("stop_criterion", &RunPlan::stop_criterion, "What ends the run.").in_brief(),
          OfRun::object(
              "stop_at", stop_outputs(),
              "What to watch for the stop: a level in the receiver, a clock, or whichever "
              "of both comes first.")
              .rules(stop_rules),
          OfRun::object("quarter_hour_more", quarter_hour_more(),
                        "What another quarter of an hour after the stop would bring."),
          OfRun::amount(
              "chance_of_goal_pct", in_percent,
              [](const RunPlan& run) { return run.uncertainty.chance_of_goal; },
              "How many of a hundred such runs meet the goal. In brief, only with `--samples`.",
              "the goal is a time, or there is none")
              .from_to(0, 100)
              .in_brief(),
      }),
      beside({OfPlan::amount(
                  "confidence_pct", in_percent, [](const Plan& p) { return p.recipe.confidence; },
                  "How often the recipe asks its goal to be met.", "it doesn't ask")
                  .from_to(1, 99)}),
      part({OfRun::object("uncertainty", &RunPlan::uncertainty, uncertainty(),
                          "The ranges of all other outcomes."),
            OfRun::list("timeline", moments_of, timeline_outputs(),
                        "The nominal run in steps, in the order of time.")
                .at_least_one()}),
  };
}

Outputs<ExplainedFigure> explained_figure() {
  using Of = Output<ExplainedFigure>;
  return {
      Of::words("symbol", &ExplainedFigure::symbol, "Its name in equations."),
      Of::words("name", &ExplainedFigure::name, "Its name for people."),
      Of::amount(
          "value", as_number, [](const ExplainedFigure& f) { return f.value.number; },
          "In its unit.")
          .any_sign(),
      Of::text(
          "unit", [](const ExplainedFigure& f) -> const std::string& { return f.value.unit; },
          "Empty for a pure number."),
      Of::amount(
          "p10", as_number,
          [](const ExplainedFigure& f) {
            return f.range ? std::optional(f.range->low) : std::nullopt;
          },
          "10th percentile.", "the figure has no range")
          .any_sign(),
      Of::amount(
          "p90", as_number,
          [](const ExplainedFigure& f) {
            return f.range ? std::optional(f.range->high) : std::nullopt;
          },
          "90th percentile.", "the figure has no range")
          .any_sign(),
      Of::words("equation", &ExplainedFigure::equation,
                "Its right-hand side, in symbols that are explained before it.",
                "the figure is given, or found by a rule"),
      Of::words("rule", &ExplainedFigure::rule,
                "How it was found where no formula gives it, or where it was given.",
                "it has an equation"),
      Of::words(
          "basis", [](const ExplainedFigure& f) -> const std::string& { return f.evidence.basis; },
          "What exactly it is of.", "there is nothing to add"),
      Of::word(
          "known",
          [](const ExplainedFigure& f) {
            return f.evidence.basis.empty() ? std::nullopt : std::optional(f.evidence.known);
          },
          "How it is known. The least reliable of several parts decides.", "it has no basis"),
      Of::texts(
          "sources", [](const ExplainedFigure& f) { return f.evidence.sources; },
          "Keys that `firstdrop sources` lists.")
          .unless_empty([](const ExplainedFigure& f) { return f.evidence.sources; },
                        "there are none"),
  };
}

Outputs<Chapter> chapter() {
  using Of = Output<Chapter>;
  return {Of::words("chapter", &Chapter::title, "What its figures are about."),
          Of::list("figures", &Chapter::figures, explained_figure(),
                   "Figures that belong together, each explained before another uses it.")
              .item_rules(R"("dependencies":
                 {"p10": ["p90"], "p90": ["p10"], "basis": ["known"], "known": ["basis"]})")};
}

OfPlan method() {
  return OfPlan::word(
             "method", [](const Plan& p) { return p.recipe.method_used(); },
             "How the still is run.")
      .in_brief();
}

OfPlan title(const char* help, bool always) {
  const auto of = [](const Plan& p) -> const std::string& { return p.recipe.title; };
  return always ? OfPlan::text("title", of, help)
                : OfPlan::words("title", of, help, "it has none").in_brief();
}

Output<WrittenPlan> set() {
  return Output<WrittenPlan>::json(
      "set", &WrittenPlan::set,
      "In a batch that varies keys: their values in this line, by key (`site.altitude`). It is "
      "null for a key that is left out.");
}
const Plan& plan_of(const WrittenPlan& written) {
  return written.plan;
}

}  // namespace

const char* const stop_rules =
    R"("anyOf": [{"required": ["hydrosol_ml"]}, {"required": ["clock_min"]}])";

const Outputs<RunPlan>& stop_outputs() {
  static const Outputs<RunPlan> outputs = {
      OfRun::amount(
          "hydrosol_ml", in_millilitres, [](const RunPlan& run) { return run.stop.hydrosol; },
          "Stop at this level in the receiver.", "the clock alone ends the run")
          .in_brief(),
      OfRun::amount(
          "clock_min", in_minutes, [](const RunPlan& run) { return run.stop.clock; },
          "Stop at this time.", "the level alone ends the run")
          .in_brief(),
      OfRun::amount(
          "never_beyond_ml", in_millilitres,
          [](const RunPlan& run) { return run.water.never_beyond; },
          "Never go on past this level: there the worst credible case is down to its reserve.")
          .any_sign()
          .in_brief(),
  };
  return outputs;
}

const char* const cost_rules = R"("dependencies": {
  "cost": ["currency"],
  "plant_cost": ["currency"],
  "currency": {"anyOf": [{"required": ["cost"]}, {"required": ["plant_cost"]}]}
})";

const Outputs<EnergyPlan>& cost_outputs() {
  using Of = Output<EnergyPlan>;
  static const Outputs<EnergyPlan> outputs = {
      Of::amount("cost", as_number, &EnergyPlan::energy_cost, "Of the energy.",
                 "the recipe has no price for it")
          .in_brief(),
      Of::amount("plant_cost", as_number, &EnergyPlan::plant_cost, "Of the plant material.",
                 "the recipe has no price for it"),
      Of::text("currency", &EnergyPlan::currency, "Of the costs.")
          .at_least_one()
          .only_when(
              [](const EnergyPlan& energy) { return energy.energy_cost || energy.plant_cost; },
              "there are no costs"),
  };
  return outputs;
}

const Outputs<TimelineMoment>& timeline_outputs() {
  using Of = Output<TimelineMoment>;
  const auto of = [](auto TimelinePoint::*member) {
    return [=](const TimelineMoment& moment) -> const auto& {
      return moment.point.*member;
    };
  };
  const auto oil = [](Volume Range<Volume>::*of_range) {
    return [=](const TimelineMoment& moment) {
      const auto& range = moment.point.oil;
      return range ? std::optional((*range).*of_range) : std::nullopt;
    };
  };
  static const Outputs<TimelineMoment> outputs = {
      Of::amount("at_min", in_minutes, of(&TimelinePoint::at), "From the start of heating."),
      Of::words(
          "clock",
          [](const TimelineMoment& moment) {
            return moment.start ? date_and_time(clock_time(*moment.start, moment.point.at)) : "";
          },
          "Day and time, as in `2026-06-20 09:30`.", "the start isn't known")
          .only_in(Extent::table),
      Of::word("phase", of(&TimelinePoint::phase), "What the still is doing."),
      Of::words("event", of(&TimelinePoint::event), "What happens then.", "nothing happens")
          .one_of({"heat on", "boils", "first drop", "stop", "before ice", "ice", "next receiver"}),
      Of::amount("pot_water_ml", in_millilitres, of(&TimelinePoint::pot_water),
                 "Free water in the pot.")
          .any_sign(),
      Of::amount("pot_c", in_celsius, of(&TimelinePoint::pot), "Its temperature.").any_sign(),
      Of::amount("hydrosol_ml", in_millilitres, of(&TimelinePoint::hydrosol), "In the receiver."),
      Of::amount("oil_ml", in_millilitres, oil(&Range<Volume>::typical),
                 "Separated in the receiver, median.", no_oil_known),
      Of::amount("oil_p10_ml", in_millilitres, oil(&Range<Volume>::low), "10th percentile of it.",
                 no_oil_known),
      Of::amount("oil_p90_ml", in_millilitres, oil(&Range<Volume>::high), "90th percentile of it.",
                 no_oil_known),
      Of::amount("reservoir_c", in_celsius, of(&TimelinePoint::coolant),
                 "The coolant's temperature.", "the coolant comes from a tap")
          .any_sign(),
  };
  return outputs;
}

const Outputs<Plan>& plan_outputs() {
  static const Outputs<Plan> outputs = [] {
    Outputs<Plan> all = {
        title("The recipe's; empty if it has none.", true),
        OfPlan::word("verdict", &Plan::verdict,
                     "What becomes of the recipe. Nobody may work from the numbers of a refused "
                     "plan.")
            .in_brief(),
        OfPlan::list("findings", written_findings, finding_outputs(),
                     "What the plan says beyond its numbers: the worst first, what holds for every "
                     "run of its kind last.")
            .item_rules(finding_rules),
        OfPlan::texts(
            "cautions", standing_texts,
            "Texts of the findings that hold for every run of its kind, to print as they are."),
        OfPlan::text(
            "plant", [](const Plan& p) -> const std::string& { return p.recipe.plant->key; },
            "The plant's key; `own` for one without. Those of a blend, with + between them.")
            .in_brief(),
        OfPlan::text(
            "still", [](const Plan& p) -> const std::string& { return p.recipe.still->key; },
            "The still's key; `own` for one without.")
            .in_brief(),
        OfPlan::truth(
            "example_still", [](const Plan& p) { return has_invented_figures(p.recipe.still); },
            "Whether the still has invented figures, as the example stills have. Measure yours "
            "before you rely on the plan."),
        method(),
        OfPlan::object("charge", &Plan::charge, charge(), "The plant material."),
        blend(),
        OfPlan::texts("ways_out", &Plan::ways_out,
                      "For people: changes of the recipe, each of which gives a plan that may be "
                      "run. What costs least comes first.")
            .unless_empty(&Plan::ways_out, "none is needed, or none was found")
            .at_most(3),
        OfPlan::texts("measure_next", &Plan::measure_next,
                      "For people: measurements of the still that would let the plan go as it was "
                      "asked for, if the still turns out as usual.")
            .unless_empty(&Plan::measure_next, "none is needed, or none would help")
            .at_most(2),
        OfPlan::words(
            "lot", [](const Plan& p) -> const std::string& { return p.recipe.lot; },
            "The recipe's code for the label.", "it has none")
            .in_brief(),
    };
    const Outputs<Plan> run = of_run([](const Plan& plan) { return plan.run.has_value(); });
    all.insert(all.end(), run.begin(), run.end());
    all.insert(
        all.end(),
        {OfPlan::texts("defaults_used", &Plan::defaults_used,
                       "For people: where the plant has no figure of its own, and what is used "
                       "instead."),
         OfPlan::texts("sources", &Plan::sources,
                       "Keys of all sources whose figures the plan uses. `firstdrop sources` has "
                       "them in full.")
             .each_once(),
         OfPlan::object(
             "source_count", &Plan::source_count,
             Outputs<SourceCount>{
                 Output<SourceCount>::whole(
                     "real", &SourceCount::real,
                     "Sources of which something was read: all, an abstract, "
                     "an excerpt, a quotation, or the figures in a package."),
                 Output<SourceCount>::whole("in_full", &SourceCount::in_full,
                                            "Those of them that were read in full."),
             },
             "How many of these sources are real. Memory, practice of the trade and our own "
             "inventions are not.")});
    return all;
  }();
  return outputs;
}

const Outputs<WrittenPlan>& written_plan_outputs() {
  using Of = Output<WrittenPlan>;
  static const Outputs<WrittenPlan> outputs = {
      set(),
      Of::version("plan"),
      Of::part(plan_of, plan_outputs()),
      Of::list(
          "explain", [](const WrittenPlan& w) -> const auto& { return *w.explained; }, chapter(),
          "Every figure with its equation, in an order in which they can be worked out. Only with "
          "`--explain`.")
          .only_when([](const WrittenPlan& w) { return w.explained != nullptr; }, ""),
  };
  return outputs;
}

const Outputs<WrittenPlan>& written_brief_outputs() {
  using Of = Output<WrittenPlan>;
  static const Outputs<WrittenPlan> outputs = [] {
    const auto as_in_plan = [](const char* path) { return output_at(plan_outputs(), path); };
    Outputs<Plan> of_plan = {
        title("The recipe's.", false),
        as_in_plan("lot"),
        as_in_plan("verdict"),
        OfPlan::list("findings", written_findings, short_finding_outputs(),
                     "Findings that caution or refuse. Those that rest on ranges are there only "
                     "with `--samples`.",
                     is_more_than_a_note)
            .item_rules(R"("if": {"properties": {"level": {"const": "refuse"}}},
                           "then": {"required": ["text"]},
                           "else": {"not": {"required": ["text"]}})")
            .in_brief(),
        as_in_plan("plant"),
        as_in_plan("still"),
        as_in_plan("method"),
        as_in_plan("charge"),
        as_in_plan("blend"),
    };
    const Outputs<Plan> run = of_run([](const Plan& plan) { return plan.may_be_run(); });
    of_plan.insert(of_plan.end(), run.begin(), run.end());
    return Outputs<WrittenPlan>{set(), Of::version("brief").in_brief(), Of::part(plan_of, of_plan)};
  }();
  return outputs;
}

Document plan_document() {
  return written_document(
      "plan",
      "What `firstdrop plan RECIPE --json` prints, and `firstdrop batch` on a line. Numbers are "
      "plain and metric, and a key ends in its unit. What doesn't apply is left out, never null. "
      "Times count from the start of heating. The keys that belong to the run itself are there "
      "together, or not at all if the still gives no distillate as asked. A later version may have "
      "further keys, which its own schema then has.",
      written_plan_outputs(), Extent::full,
      R"("if": {"properties": {"verdict": {"enum": ["go", "caution"]}}, "required": ["verdict"]},
         "then": {"required": ["water"]})");
}

Document brief_document() {
  return written_document(
      "brief",
      "A plan in brief: the most important keys of a plan, with the nominal run, in which every "
      "figure is at its median. The medians of the outcomes can differ.",
      written_brief_outputs(), Extent::brief,
      R"("if": {"properties": {"verdict": {"const": "refused"}}, "required": ["verdict"]},
         "then": {"not": {"required": ["water"]}},
         "else": {"required": ["water"]})");
}

}  // namespace firstdrop
