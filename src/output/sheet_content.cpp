#include "output/sheet_content.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <utility>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "firstdrop/output/finding_words.hpp"
#include "output/bench_words.hpp"
#include "output/stop_bounds.hpp"
#include "plan/cooling.hpp"
#include "quantity/clock_time.hpp"
#include "quantity/range_text.hpp"

namespace firstdrop {
namespace {

// More moments of one kind than this are put in one line.
constexpr std::size_t most_rows = 5;
// Steps at the bench that have no figure of the plan behind them are common practice, no source.

using Start = std::optional<LocalMinute>;

bool in_water(const Plan& plan) {
  return plan.recipe.method_used() == Method::hydro;
}
bool indoors(const Plan& plan) {
  return plan.recipe.site.place == Place::indoors;
}
bool parts_oil(const Plan& plan) {
  return plan.run->uncertainty.oil_volume.high >= a_drop_of_oil;
}
/// How many parts of the distillate are kept apart: the fractions that begin, or one.
std::size_t kept_apart(const Plan& plan) {
  return plan.recipe.fractions.empty() ? 1 : plan.run->receiver_changes.size() + 1;
}
std::string limit_text(const Plan& plan) {
  return text(plan.recipe.still->condenser.coolant_limit.typical(), plan.recipe.units);
}
std::string ice_text(Mass ice, Units units) {
  return text(ice_up(ice, units), units);
}

// ---- head

std::string sheet_subject(const Recipe& recipe) {
  return fmt::format("{}, {}, {} · {} · {}", visible(recipe.plant->name), to_string(recipe.state),
                     to_string(recipe.cut), in_words(recipe.method_used()),
                     visible(recipe.still->title));
}

// The plant's key and the day, because the label must lead back to this sheet. Longer keys are
// cut to keep the label's width. No two shipped plants share these first letters.
std::string lot_of(const Plan& plan, const Start& start) {
  if (!plan.recipe.lot.empty()) return visible(plan.recipe.lot);
  constexpr std::size_t most_lot_letters = 20;
  std::string code;
  const Plant& plant = plan.recipe.plant;
  for (const char c : plant.key == "own" ? plant.name : plant.key) {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0 && code.size() < most_lot_letters) {
      code += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    }
  }
  if (code.empty()) code = "LOT";
  if (!start) return code + "-______";
  const std::string day = date_and_time(*start);
  return code + "-" + day.substr(2, 2) + day.substr(5, 2) + day.substr(8, 2) +
         (plan.charge.runs > 1 ? "-__" : "");
}

// ---- weigh, pour, set

// The steps say when it goes in.
std::string expected_ice(const CoolingPlan& cooling, Units units) {
  const auto expected = ice_to_have_ready(cooling, units).expected;
  if (!expected) return "none expected";
  std::string words = text(*expected, units) + " expected";
  if (cooling.first_ice) {
    words += cooling.ice_changes.empty()
                 ? std::string(", all at the start")
                 : fmt::format(", {} at the start", ice_text(*cooling.first_ice, units));
  }
  return words;
}

std::vector<SheetAmount> coolant_amounts(const Plan& plan) {
  const Units units = plan.recipe.units;
  const Still& still = plan.recipe.still;
  const CoolingPlan& cooling = plan.run->cooling;
  const auto& coolant = plan.recipe.site.coolant;
  const std::string cold = coolant ? fmt::format("{} at most", text(*coolant, units))
                                   : std::string("as warm as the room at most");
  const CondenserKind kind = still.condenser.kind;
  if (kind == CondenserKind::run_through) {
    const VolumeFlow flow = tap_up(cooling.flow.value_or(VolumeFlow()), units);
    const VolumeFlow most = tap_up(cooling.flow_most.value_or(VolumeFlow()), units);
    return {{"Tap", text(flow, units), fmt::format("up to {}, {}", text(most, units), cold)}};
  }
  std::vector<SheetAmount> amounts = {{kind == CondenserKind::ice_bath ? "Bath" : "Bucket",
                                       coolant_in_words(plan),
                                       cold + (cooling.first_ice ? " before the ice" : "")}};
  if (const auto ready = ice_to_have_ready(cooling, units).ready) {
    amounts.push_back({"Ice", text(*ready, units), "ready; " + expected_ice(cooling, units)});
  }
  return amounts;
}

std::vector<SheetAmount> sheet_amounts(const Plan& plan) {
  const Recipe& recipe = plan.recipe;
  // The step says how to load it, because there is little room here.
  const std::string how =
      in_water(plan) ? "in the water" : fmt::format("{} full", text(plan.charge.fill));
  const std::string mixed = recipe.plant->blend.empty()
                                ? std::string()
                                : charge_in_words(recipe, plan.charge.mass) + "; ";
  std::vector<SheetAmount> amounts = {{"Herb", text(plan.charge.mass, recipe.units),
                                       mixed + how + "; " + charges_in_few_words(plan)},
                                      {"Water", pour_text(plan), how_warm_to_pour(recipe)}};
  for (SheetAmount& amount : coolant_amounts(plan)) amounts.push_back(std::move(amount));
  std::string heat = text(recipe.still->heater.power.typical());
  if (!is_full(recipe.setting)) heat = "of " + heat;
  const std::string drip = setting_by_drip(plan);
  if (!drip.empty()) heat += ": " + drip;
  amounts.push_back({"Heat", text(recipe.setting), heat});
  return amounts;
}

// The brief text of a finding that holds for every run, to put where the step is done.
template <class What>
std::string always(const Plan& plan) {
  const Finding* const finding = finding_of<What>(plan.findings);
  return finding == nullptr ? "" : finding->kind->brief;
}

// How to set up a gas burner. Empty for any other heater.
std::string burner_words(const Plan& plan) {
  const Finding* const finding = finding_of<found::OpenFlame>(plan.findings);
  if (finding == nullptr) return "";
  return fmt::format(
      "Burner: {} clear all round, hose tested with soapy water, screen between flame and "
      "receiver.",
      text(std::get<found::OpenFlame>(finding->what).clear, plan.recipe.units));
}

// ---- set up and check

std::string coolant_set_up(const Plan& plan) {
  const auto& first_ice = plan.run->cooling.first_ice;
  switch (plan.recipe.still->condenser.kind) {
    case CondenserKind::ice_bath:
      return first_ice ? fmt::format("Bath: {} of it ice, topped up with water.",
                                     ice_text(*first_ice, plan.recipe.units))
                       : std::string("Bath filled with cold water.");
    case CondenserKind::reservoir:
      return "Bucket full, thermometer in, pump tested.";
    case CondenserKind::run_through:
      break;
  }
  return "Tap and hoses tested, outflow free to the drain.";
}

std::string receiver_words(const Plan& plan) {
  const Units units = plan.recipe.units;
  const RunPlan& run = *plan.run;
  if (const auto& receiver = plan.recipe.receiver_volume) {
    // This much comes if the person is late in the worst credible case.
    const double most = std::ceil(run.water.most_caught / *receiver - 1e-9);
    return most > 1 ? fmt::format(
                          "{:.0f} receivers of {} each, one under the outlet, the others at hand.",
                          most, text(*receiver, units))
                    : fmt::format("A receiver of {}.", text(*receiver, units));
  }
  if (!run.receiver_changes.empty()) {
    std::vector<std::string> sizes;
    Volume before;
    for (const ReceiverChange& change : run.receiver_changes) {
      sizes.push_back(text(change.caught - before, units));
      before = change.caught;
    }
    sizes.push_back(text(neat_up(run.water.most_caught - before, units), units));
    return fmt::format("{} receivers, one for each fraction, of {} or more.", sizes.size(),
                       in_a_row(sizes, "and"));
  }
  std::string words =
      fmt::format("Receiver: {} or more", text(neat_up(run.water.most_caught, units), units));
  if (run.stop.hydrosol) words += fmt::format(", a mark at {}", text(*run.stop.hydrosol, units));
  return words + ".";
}

std::vector<std::string> things_to_set_up(const Plan& plan) {
  const Still& still = plan.recipe.still;
  std::vector<std::string> list;
  list.emplace_back(indoors(plan) ? "Still level, steady, free all round."
                                  : "Out of the wind, level, steady, free all round.");
  list.push_back((indoors(plan) ? "Window open. " : "") + always<found::AirAndDistance>(plan));
  list.push_back(still.heater.kind == HeaterKind::gas_burner ? burner_words(plan)
                                                             : always<found::WetElectricity>(plan));
  if (still.pot.material == "glass") {
    list.emplace_back("Glass: no star cracks, chips or scratches.");
  }
  list.push_back(coolant_set_up(plan));
  list.push_back(receiver_words(plan) + " " + always<found::SuckBack>(plan));
  list.emplace_back("Gloves, glasses, towel, timer, pen.");
  return list;
}

std::vector<std::string> checks_before_heat(const Plan& plan) {
  const CondenserKind condenser = plan.recipe.still->condenser.kind;
  return {
      fmt::format("{} of water is in the pot. {}", pour_text(plan),
                  in_water(plan) ? "Herb in it, stirred, all of it wet."
                                 : "Herb in loosely, not pressed, clear of the outlet."),
      "Blow into the outlet: air must pass. " + always<found::OpenPath>(plan),
      fmt::format("{} {}", condenser == CondenserKind::ice_bath ? "Bath is cold." : "Coolant runs.",
                  timer_in_words(plan)),
      always<found::StayWithIt>(plan)};
}

// ---- the run

// In a row of times, the first one on another day names the day.
std::string clock_after(std::string& day, LocalMinute start, Duration at) {
  const std::string time = time_of_day(start, at);
  const std::string its_day = time.substr(std::min<std::size_t>(time.size(), 5));
  return std::exchange(day, its_day) == its_day ? time.substr(0, 5) : time;
}

struct TimedStep {
  Duration at;
  SheetStep step;
};

TimedStep step_at(const Start& start, Duration at, std::string see, std::string act) {
  return {at, {text(at), "", time_of_day_if_known(start, at), std::move(see), std::move(act)}};
}

// "18, 30, 42 min", or clock times. `besides` says what is special about one of them.
template <class Change, class Besides>
std::string times_of(const std::vector<Change>& changes, const Start& start,
                     const Besides& besides) {
  std::vector<std::string> times;
  std::string day;
  for (const Change& one : changes) {
    times.push_back(
        (start ? clock_after(day, *start, one.at) : fmt::format("{:.0f}", in_minutes(one.at))) +
        besides(one));
  }
  return fmt::format("{}{}", joined(times, ", "), start ? "" : " min");
}

std::vector<TimedStep> ice_steps(const Plan& plan, const Start& start) {
  const Units units = plan.recipe.units;
  const std::vector<IceChange>& changes = plan.run->cooling.ice_changes;
  const auto ice_in = [&](const IceChange& change) {
    return capitalised(ice_change_in_words(change.ice, units)) + ".";
  };
  std::vector<TimedStep> steps;
  const bool in_one_line = changes.size() > most_rows;
  if (in_one_line) {
    // The ice before the stop doesn't depend on the coolant, so it has its own line.
    std::vector<IceChange> at_limit = changes;
    std::erase_if(at_limit, [&](const IceChange& change) { return is_before_stop(plan, change); });
    const auto other_ice = [&](const IceChange& change) {
      const std::string ice = ice_text(change.ice, units);
      return ice == ice_text(changes.front().ice, units) ? "" : " (" + ice + ")";
    };
    steps.push_back(step_at(start, at_limit.front().at,
                            fmt::format("Each time the coolant is at {}, about at {}.",
                                        limit_text(plan), times_of(at_limit, start, other_ice)),
                            ice_in(at_limit.front())));
  }
  for (const IceChange& change : changes) {
    if (in_one_line && !is_before_stop(plan, change)) continue;
    steps.push_back(
        step_at(start, change.at, capitalised(sign_for_ice(plan, change)) + ".", ice_in(change)));
  }
  return steps;
}

std::vector<TimedStep> receiver_steps(const Plan& plan, const Start& start) {
  const std::vector<ReceiverChange>& changes = plan.run->receiver_changes;
  const char* act = "Next receiver under the outlet.";
  if (changes.size() > most_rows) {
    const auto nothing = [](const ReceiverChange&) { return ""; };
    return {step_at(start, changes.front().at,
                    fmt::format("Each time the receiver is full, about at {}.",
                                times_of(changes, start, nothing)),
                    act)};
  }
  std::vector<TimedStep> steps;
  for (const ReceiverChange& change : changes) {
    const std::string total = text(change.caught, plan.recipe.units) + " in total";
    if (plan.recipe.fractions.empty()) {
      steps.push_back(step_at(start, change.at, fmt::format("Receiver full: {}.", total), act));
      continue;
    }
    const std::size_t number = steps.size() + 1;
    steps.push_back(step_at(
        start, change.at, fmt::format("Fraction {} is complete: {}.", number, total),
        fmt::format("Receiver for fraction {} under the outlet, above the liquid.", number + 1)));
  }
  return steps;
}

// Changes of ice and receivers, in order of time.
std::vector<TimedStep> change_steps(const Plan& plan, const Start& start) {
  std::vector<TimedStep> steps = ice_steps(plan, start);
  for (TimedStep& step : receiver_steps(plan, start)) steps.push_back(std::move(step));
  std::stable_sort(steps.begin(), steps.end(),
                   [](const TimedStep& a, const TimedStep& b) { return a.at < b.at; });
  return steps;
}

SheetStep heat_on_step(const Plan& plan, const Start& start) {
  // A person who starts earlier or later goes by the minutes.
  SheetStep step =
      step_at(start, seconds(0), "",
              fmt::format("HEAT ON, {}. Start the timer.{}", text(plan.recipe.setting),
                          start ? " Another time than planned? Go by the minutes." : ""))
          .step;
  step.key = true;
  return step;
}

SheetStep boil_step(const Plan& plan, const Start& start) {
  SheetStep step =
      step_at(start, plan.run->times.boil, "The pot boils.",
              in_water(plan) ? "Foam? Turn down until it settles." : "Outlet open? Coolant cold?")
          .step;
  step.range = span_text(plan.run->uncertainty.boil, plan.recipe.units);
  return step;
}

SheetStep first_drop_step(const Plan& plan, const Start& start) {
  const Range<Duration>& range = plan.run->uncertainty.first_drop;
  SheetStep step = step_at(start, plan.run->times.first_drop,
                           fmt::format("First drop, then {}.",
                                       text(plan.run->rates.distillate, plan.recipe.units)),
                           fmt::format("None by {}: HEAT OFF, is the path open? {}",
                                       text(range.high), heater_check_in_words(plan)))
                       .step;
  step.range = span_text(range, plan.recipe.units);
  return step;
}

SheetStep watch_step(const Plan& plan) {
  const std::string every = "Every 5 min check level, drip, outlet cool";
  const std::string limit = coolant_limit_in_words(plan);
  SheetStep step;
  step.see = plan.recipe.still->condenser.kind == CondenserKind::run_through
                 ? every + ", tap water runs."
                 : fmt::format("{}, coolant below {}.", every, limit_text(plan));
  step.act = "Steam at the outlet or a joint: HEAT OFF." + (limit.empty() ? "" : " " + limit);
  step.timed = false;
  return step;
}

// ---- the stop

std::string in_receivers(const Plan& plan, Volume level) {
  const Units units = plan.recipe.units;
  if (one_receiver(plan)) return fmt::format("{} in the receiver", text(level, units));
  if (plan.run->receiver_changes.empty()) return fmt::format("{} in total", text(level, units));
  const Volume before = plan.run->receiver_changes.back().caught;
  return fmt::format("{} in total, {} in the last receiver", text(level, units),
                     text(std::max(level - before, millilitres(0)), units));
}

// A level, or a time where the clock ends the run.
std::string stop_text(const Plan& plan) {
  const RunPlan& run = *plan.run;
  return run.stops_by_clock() ? text(*run.stop.clock) : text(*run.stop.hydrosol, plan.recipe.units);
}

// A cooling pot sucks back whatever the outlet dips into.
std::string sign_of_the_stop(const Plan& plan) {
  const RunPlan& run = *plan.run;
  if (run.stops_by_clock()) {
    return stop_text(plan) + " by the clock, " +
           (run.stop.hydrosol ? "or " + in_receivers(plan, *run.stop.hydrosol)
                              : std::string("however much has come")) +
           ". Outlet above the liquid.";
  }
  const std::string by_level = in_receivers(plan, *run.stop.hydrosol) +
                               span_in_brackets(run.uncertainty.stop, plan.recipe.units) +
                               ", outlet above it.";
  const auto by = run.clock_beside_level();
  return by ? by_level + fmt::format(" Still below after {}? Then too.", text(*by)) : by_level;
}

SheetStep stop_step(const Plan& plan, const Start& start) {
  const std::string gauge = plan.run->stops_by_clock() ? "" : gauge_in_words(plan);
  const std::string more = more_after_heat_in_words(plan);
  SheetStep step = step_at(start, plan.run->times.stop,
                           sign_of_the_stop(plan) + (gauge.empty() ? "" : " " + gauge) +
                               (more.empty() ? "" : " " + more + "."),
                           "HEAT OFF. Coolant stays on.")
                       .step;
  step.key = true;
  return step;
}

std::vector<SheetStep> sheet_steps(const Plan& plan, const Start& start) {
  std::vector<SheetStep> steps = {heat_on_step(plan, start), boil_step(plan, start),
                                  first_drop_step(plan, start), watch_step(plan)};
  for (TimedStep& change : change_steps(plan, start)) steps.push_back(std::move(change.step));
  steps.push_back(stop_step(plan, start));
  return steps;
}

std::string levels_in_words(const Plan& plan, const Start& start) {
  std::string day;
  std::vector<std::string> levels;
  for (const TimelinePoint& point : plan.run->timeline) {
    if (point.phase != Phase::running || !point.event.empty()) continue;
    levels.push_back(fmt::format("{} at {}", text(point.hydrosol, plan.recipe.units),
                                 start ? clock_after(day, *start, point.at) : text(point.at)));
  }
  if (levels.empty()) return "";
  return fmt::format("{}: {}.", one_receiver(plan) ? "In the receiver" : "Caught in total",
                     joined(levels, ", "));
}

std::string yield_sentence(const Plan& plan) {
  const Units units = plan.recipe.units;
  const Uncertainty& s = plan.run->uncertainty;
  return fmt::format("Expect {} of hydrosol{}{}; {} left in the pot.",
                     text(s.hydrosol.typical, units), span_in_brackets(s.hydrosol, units),
                     parts_oil(plan)
                         ? fmt::format(" and {} of oil ({})", text(s.oil_volume.typical, units),
                                       span_text(s.oil_volume, units))
                     : plan.run->has_oil ? std::string(", no oil to separate")
                                         : std::string(),
                     text(plan.run->water.left_at_stop, units));
}

// ---- write down

// In the units that the plan uses.
std::vector<SheetBox> sheet_boxes(const Plan& plan) {
  const Units units = plan.recipe.units;
  const RunPlan& run = *plan.run;
  const auto unit_of = [](const std::string& amount) {
    return amount.substr(std::min(amount.size(), amount.find(' ') + 1));
  };
  std::vector<SheetBox> boxes = {
      {"Herb", unit_of(text(plan.charge.mass, units))},
      {"Water poured", unit_of(pour_text(plan))},
  };
  const std::string hydrosol = unit_of(text(run.uncertainty.hydrosol.typical, units));
  const std::size_t receivers = kept_apart(plan);
  for (std::size_t i = 1; i <= receivers; ++i) {
    const std::string number = receivers > 1 ? " " + std::to_string(i) : "";
    boxes.push_back({"Hydrosol" + number, hydrosol});
    if (run.has_oil) boxes.push_back({"Oil" + number, "mL"});
  }
  boxes.push_back({"pH", ""});
  boxes.push_back({"Left in pot", unit_of(text(run.water.left_at_stop, units))});
  if (plan.recipe.still->condenser.kind != CondenserKind::run_through) {
    boxes.push_back({"Coolant at the end", units == Units::us ? "°F" : "°C"});
  }
  if (const auto ready = ice_to_have_ready(run.cooling, units).ready) {
    boxes.push_back({"Ice used", unit_of(text(*ready, units))});
  }
  boxes.push_back({"Time for " + heater_check(run.rates.distillate_most, units).mark, "min"});
  return boxes;
}

// ---- afterwards

std::vector<std::string> things_to_do_afterwards(const Plan& plan) {
  std::vector<std::string> list = {
      "Let it cool where it is, path open. " + always<found::AfterHeatOff>(plan),
      always<found::SteamScalds>(plan)};
  if (plan.run->has_oil) list.push_back(always<found::NeatOil>(plan));
  if (parts_oil(plan)) {
    list.push_back(fmt::format("Let it stand; {} into small dark bottles, filled full.",
                               oil_place(plan.recipe.plant) == OilPlace::sinks
                                   ? "draw the oil off below"
                                   : "lift the oil off"));
  }
  list.push_back(
      fmt::format("Hydrosol: bottles rinsed with boiling water, filled full, labelled, dark, at "
                  "most {}. Use within weeks, and not when cloudy, stringy or sour.",
                  text(celsius(5), plan.recipe.units)));
  list.emplace_back("Wash all parts hot with a drop of soap, rinse, dry open.");
  return list;
}

std::vector<SheetLabel> bottle_labels(const Plan& plan, const std::string& lot,
                                      const std::string& day) {
  const Recipe& recipe = plan.recipe;
  const Plant& plant = recipe.plant;
  const std::string what = fmt::format("{}, {}, {}, {}", visible(plant.latin), visible(plant.part),
                                       to_string(recipe.state), in_words(recipe.method_used()));
  const std::string origin = fmt::format("Lot {}, {}", lot, day.empty() ? "____-__-__" : day);
  const auto label = [&](const char* product, const char* unit, const char* keep,
                         const char* mind) {
    return SheetLabel{
        fmt::format("{} {}, ______ {}", capitalised(visible(plant.name)), product, unit),
        {what, origin, keep, mind}};
  };
  std::vector<SheetLabel> labels;
  const std::size_t bottles = kept_apart(plan);
  const bool fractions = bottles > 1;
  for (std::size_t i = 0; i < bottles; ++i) {
    const std::string which =
        fractions ? fmt::format(", fraction {} of {}", i + 1, bottles) : std::string();
    labels.push_back(label(("hydrosol" + which).c_str(), recipe.units == Units::us ? "fl oz" : "mL",
                           "Cold and dark. Use within weeks.",
                           "Not in eyes, on wounds, on infants."));
    const bool separates =
        fractions ? plan.run->has_oil && i < plan.run->uncertainty.fractions.size() &&
                        plan.run->uncertainty.fractions[i].oil_volume.high >= a_drop_of_oil
                  : parts_oil(plan);
    if (separates)
      labels.push_back(label(("oil" + which).c_str(), "mL", "Cold and dark. Keep from children.",
                             "Not neat on skin, not by mouth."));
  }
  return labels;
}

// ---- to be read first

std::vector<std::string> cautions_of(const Plan& plan) {
  std::vector<std::string> cautions;
  for (const Finding& finding : plan.findings) {
    if (is_read_first(finding))
      cautions.push_back(visible(finding_text(finding, plan.recipe.units)));
  }
  return cautions;
}

// Those of the plant and its oil that aren't among the cautions.
std::vector<std::string> hazards_of(const Plan& plan) {
  std::vector<std::string> hazards;
  for (const Finding& finding : plan.findings) {
    if (is_hazard(finding) && !is_read_first(finding))
      hazards.push_back(visible(finding_text(finding, plan.recipe.units)));
  }
  return hazards;
}

}  // namespace

SheetContent sheet_content(const Plan& plan) {
  const Start start = parse_local_minute(plan.recipe.start);
  SheetContent sheet;
  sheet.title = run_title(plan.recipe);
  sheet.subject = sheet_subject(plan.recipe);
  if (has_invented_figures(plan.recipe.still)) sheet.example = "Example still: measure yours.";
  sheet.verdict = verdict_in_words(plan.verdict);
  sheet.lot = lot_of(plan, start);
  if (start) sheet.day = date_and_time(*start).substr(0, 10);
  if (plan.charge.runs > 1) sheet.runs = fmt::format("one of {} such runs", plan.charge.runs);
  sheet.amounts = sheet_amounts(plan);
  sheet.bench = things_to_set_up(plan);
  sheet.before_heat = checks_before_heat(plan);
  sheet.steps = sheet_steps(plan, start);
  sheet.levels = levels_in_words(plan, start);
  sheet.stop = stop_text(plan);
  const Duration by = stop_bounds(plan).by;
  sheet.latest = bounds_in_words(plan, start ? time_of_day(*start, by) : "__:__");
  sheet.forgotten = left_on_in_words(plan) + " " + always<found::RanDry>(plan);
  sheet.yield = yield_sentence(plan);
  sheet.boxes = sheet_boxes(plan);
  sheet.afterwards = things_to_do_afterwards(plan);
  sheet.labels = bottle_labels(plan, sheet.lot, sheet.day);
  sheet.cautions = cautions_of(plan);
  if (!plan.run->has_oil) sheet.hazards_title = "Plant";
  sheet.hazards = hazards_of(plan);
  sheet.footing = fmt::format(
      "{} Planned with firstdrop from {}. Times are from heat on. Steps without a "
      "figure are common "
      "practice. A plan is no promise: watch the still.",
      always<found::LocalRules>(plan), in_words(plan.source_count));
  return sheet;
}

}  // namespace firstdrop
