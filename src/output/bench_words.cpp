#include "output/bench_words.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "output/stop_bounds.hpp"
#include "plan/cooling.hpp"
#include "quantity/numbers_text.hpp"
#include "quantity/unit_factors.hpp"

namespace firstdrop {
namespace {

struct JugMark {
  Volume volume;
  const char* name = "";
};

constexpr Volume fluid_ounces(double x) {
  return millilitres(x * millilitre_per_fluid_ounce);
}

// Marks of kitchen jugs and buckets (from memory).
constexpr std::array metric_marks = {
    JugMark{millilitres(50), "50 mL"},   JugMark{millilitres(100), "100 mL"},
    JugMark{millilitres(200), "200 mL"}, JugMark{millilitres(250), "250 mL"},
    JugMark{millilitres(500), "500 mL"}, JugMark{litres(1), "1 L"},
    JugMark{litres(2), "2 L"},           JugMark{litres(5), "5 L"},
    JugMark{litres(10), "10 L"}};
constexpr std::array us_marks = {JugMark{fluid_ounces(2), "2 fl oz (1/4 cup)"},
                                 JugMark{fluid_ounces(4), "4 fl oz (1/2 cup)"},
                                 JugMark{fluid_ounces(8), "8 fl oz (1 cup)"},
                                 JugMark{fluid_ounces(16), "16 fl oz (2 cups)"},
                                 JugMark{fluid_ounces(32), "32 fl oz (4 cups)"},
                                 JugMark{fluid_ounces(64), "1/2 gal"},
                                 JugMark{fluid_ounces(128), "1 gal"},
                                 JugMark{fluid_ounces(256), "2 gal"}};

constexpr Duration handy = minutes(5);
constexpr double step_of_a_clock = 5.0;  // s

template <class Marks>
const JugMark& nearest(const Marks& marks, VolumeFlow flow) {
  const auto off = [&](const JugMark& mark) {
    return std::abs(in_seconds(mark.volume / flow - handy));
  };
  return *std::min_element(marks.begin(), marks.end(),
                           [&](const JugMark& a, const JugMark& b) { return off(a) < off(b); });
}

// "4 min 45 s". Finer than text(), which is meant for a wall clock.
std::string to_the_second(Duration time) {
  const auto all = std::llround(in_seconds(time));
  const auto seconds_part = all % 60;
  const std::string rest = seconds_part == 0 ? "" : fmt::format("{} s", seconds_part);
  if (all < 60) return rest.empty() ? "0 s" : rest;
  return fmt::format("{} min{}{}", all / 60, rest.empty() ? "" : " ", rest);
}

const JugMark& mark_for(VolumeFlow flow, Units units) {
  return units == Units::us ? nearest(us_marks, flow) : nearest(metric_marks, flow);
}

// Less than this isn't worth mentioning.
constexpr Volume worth_telling = millilitres(5);

}  // namespace

std::string pour_text(const Plan& plan) {
  const Units units = plan.recipe.units;
  return text(neat_up(plan.run->water.pour, units), units);
}

std::string hydrosol_per_herb_in_words(const Plan& plan) {
  const Volume hydrosol = plan.run->uncertainty.hydrosol.typical;
  const auto per = [&](Mass herb) { return text(hydrosol / herb, plan.recipe.units); };
  const ChargePlan& charge = plan.charge;
  if (charge.as_fresh == charge.mass) return per(charge.mass) + " of herb";
  return fmt::format("{} of {} herb, {} as fresh", per(charge.mass), to_string(plan.recipe.state),
                     per(charge.as_fresh));
}

std::string charges_in_words(const Plan& plan) {
  const ChargePlan& charge = plan.charge;
  const bool clock = !plan.run->stop.hydrosol;
  const bool less = charge.least < charge.mass;
  const char* less_oil = plan.run->has_oil ? "less oil" : "weaker hydrosol";
  if (charge.most <= charge.mass) {
    return less ? fmt::format("Less herb: same water, same stop, {}. More needs a new plan.",
                              less_oil)
                : "Another amount needs a new plan.";
  }
  const std::string most = fmt::format("Up to {}, if it goes in loosely: same water, same stop",
                                       text(charge.most, plan.recipe.units));
  if (clock) return most + ", less hydrosol. Less herb needs a new plan.";
  return most + (less ? fmt::format(". Less herb: the same, {}.", less_oil)
                      : ". Less herb needs a new plan.");
}

std::string charges_in_few_words(const Plan& plan) {
  const ChargePlan& charge = plan.charge;
  const bool less = charge.least < charge.mass;
  if (charge.most <= charge.mass) return less ? "or less" : "no more or less";
  const std::string most = text(charge.most, plan.recipe.units);
  return less ? "at most " + most : span_text(text(charge.mass, plan.recipe.units), most);
}

std::string run_title(const Recipe& recipe) {
  return visible(recipe.title.empty() ? "Untitled run" : recipe.title);
}

std::string charge_in_words(const Recipe& recipe, Mass charge) {
  const Plant& plant = recipe.plant;
  const auto of_plant = [&](const Plant& one, Mass mass) {
    return fmt::format("{} of {}", text(mass, recipe.units), visible(one.name));
  };
  if (plant.blend.empty()) return of_plant(plant, charge);
  // Each but the last on a mark of the scale, so that they add up as printed.
  const Mass ounce = kilograms(kilogram_per_ounce);
  Mass mark = charge < kilograms(1) ? grams(1) : charge < kilograms(10) ? grams(10) : grams(100);
  if (recipe.units == Units::us) mark = ounce * (charge < ounce * 32.0 ? 0.1 : 1.0);
  std::vector<std::string> masses;
  Mass left = charge;
  for (const BlendPart& part : plant.blend) {
    const bool last = &part == &plant.blend.back();
    const Mass mass = last ? left : std::min(left, mark * std::round(charge * part.share / mark));
    masses.push_back(of_plant(part.plant, mass));
    left -= mass;
  }
  return in_a_row(masses, "and") + ", mixed";
}

std::string next_receiver_in_words(const Plan& plan, const ReceiverChange& change) {
  const std::vector<ReceiverChange>& changes = plan.run->receiver_changes;
  std::string words =
      fmt::format("next receiver, {} in total", text(change.caught, plan.recipe.units));
  if (plan.recipe.fractions.empty()) return words;
  const auto ended =
      std::count_if(changes.begin(), changes.end(),
                    [&](const ReceiverChange& other) { return other.caught <= change.caught; });
  return fmt::format("fraction {} begins: {}", ended + 1, words);
}

std::string subject_in_words(const Recipe& recipe) {
  return fmt::format("{} ({}, {}), {}, {}", visible(recipe.plant->name), to_string(recipe.state),
                     to_string(recipe.cut), in_words(recipe.method_used()),
                     visible(recipe.still->title));
}

std::string verdict_in_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::go:
      return "Go";
    case Verdict::caution:
      return "Go with caution";
    case Verdict::refused:
      break;
  }
  return "Refused";
}

std::string how_warm_to_pour(const Recipe& recipe) {
  return recipe.water_temperature ? "at " + text(*recipe.water_temperature, recipe.units)
                                  : "at room temperature";
}

HeaterCheck heater_check(VolumeFlow most, Units units) {
  const JugMark& mark = mark_for(most, units);
  const double steps = std::floor(in_seconds(mark.volume / most) / step_of_a_clock + 1e-9);
  return {mark.name, seconds(steps * step_of_a_clock)};
}

std::string heater_check_in_words(const Plan& plan) {
  const HeaterCheck check = heater_check(plan.run->rates.distillate_most, plan.recipe.units);
  return fmt::format(
      "{} in less than {}? Too hot for this plan: turn down until it takes longer, or "
      "heat off.",
      check.mark, to_the_second(check.at_least));
}

std::string setting_by_drip(const Plan& plan) {
  const Recipe& recipe = plan.recipe;
  if (recipe.still->heater.kind != HeaterKind::gas_burner || is_full(recipe.setting)) return "";
  const VolumeFlow flow = plan.run->rates.distillate;
  const JugMark& mark = mark_for(flow, recipe.units);
  const double steps = std::round(in_seconds(mark.volume / flow) / step_of_a_clock);
  return fmt::format("{} in about {} once it drips", mark.name,
                     to_the_second(seconds(steps * step_of_a_clock)));
}

IceToHave ice_to_have_ready(const CoolingPlan& cooling, Units units) {
  IceToHave have;
  if (cooling.ice) have.expected = ice_to_have(cooling, units);
  have.ready = have.expected;
  if (cooling.ice_ready) have.ready = std::max(have.ready, {ice_up(*cooling.ice_ready, units)});
  return have;
}

std::string ice_in_words(const Plan& plan) {
  const CoolingPlan& cooling = plan.run->cooling;
  const Units units = plan.recipe.units;
  const IceToHave have = ice_to_have_ready(cooling, units);
  if (!have.ready) return "";
  if (!have.expected) {
    return fmt::format("no ice expected; have {} ready", text(*have.ready, units));
  }
  std::string words = text(*have.expected, units) + " expected";
  const auto& changes = cooling.ice_changes;
  if (cooling.first_ice) {
    words += changes.empty() ? std::string(", all at the start")
                             : fmt::format(", {} of it at the start",
                                           text(ice_up(*cooling.first_ice, units), units));
  }
  if (!changes.empty()) {
    words += cooling.first_ice ? ", the rest " : ", ";
    if (changes.size() > 1) words += fmt::format("in {} changes from ", changes.size());
    words += fmt::format("{}about {}{}", changes.size() == 1 ? "at " : "", text(changes.front().at),
                         changes.size() > 1 ? " on" : "");
    if (!cooling.first_ice) words += " and not at the start";
  }
  return words + fmt::format("; have {} ready", text(*have.ready, units));
}

std::string coolant_in_words(const Plan& plan) {
  const Cited<Volume>& coolant = *plan.recipe.still->condenser.coolant;
  std::string words = text(coolant.typical(), plan.recipe.units);
  const std::string most = text(most_of(coolant), plan.recipe.units);
  if (most != words) words += fmt::format(" (up to {})", most);
  return words;
}

bool is_before_stop(const Plan& plan, const IceChange& change) {
  const auto& planned = plan.run->cooling.ice_before_stop;
  return planned && std::abs(in_seconds(change.at - *planned)) < 1.0;
}

std::string sign_for_ice(const Plan& plan, const IceChange& change) {
  const RunPlan& run = *plan.run;
  const Units units = plan.recipe.units;
  if (!is_before_stop(plan, change)) {
    const Condenser& condenser = plan.recipe.still->condenser;
    return "coolant at " + text(condenser.coolant_limit.typical(), units);
  }
  // Uses what stops the run: the level, the clock, or whichever comes first.
  const Duration before = run.times.stop - change.at;
  std::string sign;
  if (run.stop.hydrosol) {
    const Volume level = *run.stop.hydrosol - run.rates.distillate * before;
    Volume mark = neat_up(std::max(level, Volume()), units);
    if (mark >= *run.stop.hydrosol) mark = neat_down(level, units);
    sign = mark <= Volume()
               ? "first drop"
               : text(mark, units) + (one_receiver(plan) ? " in the receiver" : " caught in total");
  }
  if (run.stop.clock) {
    if (!sign.empty()) sign += " or ";
    sign += text(*run.stop.clock - before) + " by the clock";
  }
  return sign + ", coolant warm or not";
}

std::string ice_change_in_words(Mass ice, Units units) {
  const Mass piece = ice_up(ice, units);
  // The same weight of water. At a jug's accuracy, a litre of it is a kilogram.
  return fmt::format("take out {} of warm water, put in {} of ice",
                     text(litres(in_kilograms(piece)), units), text(piece, units));
}

std::string coolant_limit_in_words(const Plan& plan) {
  const Condenser& condenser = plan.recipe.still->condenser;
  if (condenser.kind == CondenserKind::run_through) return "";
  const CoolingPlan& cooling = plan.run->cooling;
  const std::string limit = text(condenser.coolant_limit.typical(), plan.recipe.units);
  // Ice that is in the bath from the start can't be put in later.
  const IceToHave ice = ice_to_have_ready(cooling, plan.recipe.units);
  const bool spare = ice.ready && *ice.ready > cooling.first_ice.value_or(Mass()) + least_ice;
  return fmt::format("Coolant at its limit ({}): {}HEAT OFF.", limit,
                     spare ? "ice in, each time; no ice left: " : "");
}

std::string gauge_in_words(const Plan& plan) {
  const Still& still = plan.recipe.still;
  return still.pot.material == "glass" ? "" : "The jug is the gauge: a metal pot shows no level.";
}

std::string more_after_heat_in_words(const Plan& plan) {
  const Volume more = plan.run->water.after_heat_off;
  if (more < worth_telling) return "";
  return fmt::format("About {} more comes", text(more, plan.recipe.units));
}

std::string after_heat_in_words(const Plan& plan) {
  const std::string more = more_after_heat_in_words(plan);
  return (more.empty() ? "" : more + " after heat off. ") +
         "Leave the pot where it is, and the coolant on until nothing drips.";
}

}  // namespace firstdrop
