#include "cli/pages/plan_page.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/visible_text.hpp"
#include "cli/pages/plan_chart.hpp"
#include "cli/pages/terminal_page.hpp"
#include "firstdrop/output/finding_words.hpp"
#include "model/sensitivity.hpp"
#include "output/bench_words.hpp"
#include "output/stop_bounds.hpp"
#include "plan/cooling.hpp"
#include "quantity/clock_time.hpp"
#include "quantity/range_text.hpp"

namespace firstdrop::cli {
namespace {

constexpr int answer_width = 6;
// At most this many moments of one kind are listed. If there are more, one line for the last
// follows.
constexpr std::size_t most_moments = 12;
constexpr int plan_label_width = 13;
// Below this width, a table has single blanks between its columns.
constexpr int roomy = 72;

const char* advice(Verdict verdict, bool dangers) {
  switch (verdict) {
    case Verdict::go:
      return dangers ? "safe to run as written; mind the dangers below"
                     : "safe to run as written here, on the still described";
    case Verdict::caution:
      return dangers ? "read the cautions and dangers first" : "read the cautions first";
    case Verdict::refused:
      break;
  }
  return "don't run this as written";
}

// The time of day of a moment; empty if the recipe has no start time.
std::string clock_time(const Plan& plan, Duration at) {
  return time_of_day_if_known(parse_local_minute(plan.recipe.start), at);
}

void write_title(TerminalPage& page, const Plan& plan) {
  page.title(run_title(plan.recipe));
  page.line("", subject_in_words(plan.recipe));
  if (has_invented_figures(plan.recipe.still)) page.line("", example_still_words);
  page.blank_line();
  const bool dangers = std::any_of(plan.findings.begin(), plan.findings.end(),
                                   [](const Finding& finding) { return finding.kind->danger; });
  page.verdict(plan.verdict, advice(plan.verdict, dangers));
}

// ---- findings

// A finding, and under it why it matters and whose guidance it follows.
void write_finding(TerminalPage& page, const Finding& finding, Units units) {
  page.line("- ", visible(finding_text(finding, units)));
  const std::string reason = finding_reason(finding);
  if (reason.empty()) return;
  page.line("  ", fmt::format("Reason: {} After: {}.", reason, finding_follows(finding)));
}

// Lists the findings of one kind under a heading, if there are any.
template <class OfKind>
void write_findings(TerminalPage& page, const Plan& plan, const char* title, OfKind is_one) {
  bool any = false;
  for (const Finding& finding : plan.findings) {
    if (!is_one(finding)) continue;
    if (!any) page.heading(title);
    any = true;
    write_finding(page, finding, plan.recipe.units);
  }
}

void write_findings(TerminalPage& page, const Plan& plan, Level level) {
  const char* title = level == Level::refuse    ? "Why"
                      : level == Level::caution ? "Cautions"
                                                : "Notes";
  write_findings(page, plan, title, [&](const Finding& finding) {
    return finding.level == level && !finding.kind->standing && !finding.kind->danger &&
           !is_hazard(finding);
  });
}

// Dangers to people from the still, the plant or the method, in any run.
void write_dangers(TerminalPage& page, const Plan& plan) {
  write_findings(page, plan, "Dangers of this still, plant and method",
                 [](const Finding& finding) { return finding.kind->danger; });
}

void write_hazards(TerminalPage& page, const Plan& plan) {
  std::vector<std::string> hazards;
  for (const Finding& finding : plan.findings) {
    if (!is_hazard(finding)) continue;
    hazards.push_back(visible(finding_text(finding, plan.recipe.units)));
  }
  const Plant& plant = plan.recipe.plant;
  const bool several = !plant.blend.empty();
  page.list(fmt::format("Hazards of {}{}", several ? "these plants" : "this plant",
                        !has_oil_figures(plant) ? ""
                        : several               ? " and their oils"
                                                : " and its oil"),
            hazards);
}

void write_always(TerminalPage& page, const Plan& plan) {
  page.heading("Always");
  for (const Finding& finding : plan.findings) {
    if (!finding.kind->standing) continue;
    const std::string text = finding_text(finding, plan.recipe.units);
    const std::string follows = finding_follows(finding);
    page.line("- ", follows.empty() ? text : fmt::format("{} ({})", text, follows));
  }
  page.line("", "For the reasons, run `firstdrop findings`.");
}

void write_ways_out(TerminalPage& page, const Plan& plan) {
  std::vector<std::string> ways;
  for (const std::string& way : plan.ways_out) ways.push_back(visible(way));
  page.list("Ways out, one of", ways);
  std::vector<std::string> measurements;
  for (const std::string& one : plan.measure_next) measurements.push_back(visible(one));
  page.list("Measure next", measurements);
}

// ---- the answer: what to weigh, pour and cool with, when to stop, what to expect, and what keeps
// it safe

std::string fill_words(const Plan& plan) {
  const std::string share = text(plan.charge.fill);
  switch (plan.recipe.method_used()) {
    case Method::steam:
      return "filled loosely; takes up " + share + " of the column";
    case Method::water_and_steam:
      return "filled loosely; takes up " + share + " of the space over the grid";
    case Method::hydro:
      break;
  }
  return "loose in the water";
}

std::string weigh_words(const Plan& plan) {
  return fmt::format("{}, {}. {}", charge_in_words(plan.recipe, plan.charge.mass), fill_words(plan),
                     charges_in_words(plan));
}

std::string pour_words(const Plan& plan, const RunPlan& run) {
  const bool in_water = plan.recipe.method_used() == Method::hydro;
  return fmt::format("{} of water {}, {}{} of the pot", pour_text(plan),
                     how_warm_to_pour(plan.recipe), in_water ? "with the herb " : "",
                     text(run.water.pot_fill));
}

std::string ice_bath_words(const Plan& plan, const CoolingPlan& cooling) {
  const Units units = plan.recipe.units;
  return cooling.first_ice ? fmt::format("{} bath with {} of ice in it", coolant_in_words(plan),
                                         text(ice_up(*cooling.first_ice, units), units))
                           : fmt::format("{} bath", coolant_in_words(plan));
}

std::string tap_words(const CoolingPlan& cooling, Units units) {
  const auto flow_text = [&](const std::optional<VolumeFlow>& flow) {
    return text(tap_up(flow.value_or(VolumeFlow()), units), units);
  };
  return fmt::format(
      "{} from the tap, {} if the heater runs strong; about {} from the first drop to the stop",
      flow_text(cooling.flow), flow_text(cooling.flow_most),
      text(neat_up(cooling.coolant_used.value_or(Volume()), units), units));
}

std::string coolant_words(const Plan& plan, const CoolingPlan& cooling) {
  std::string words;
  switch (plan.recipe.still->condenser.kind) {
    case CondenserKind::ice_bath:
      words = ice_bath_words(plan, cooling);
      break;
    case CondenserKind::reservoir:
      words = fmt::format("{} of coolant, pump on", coolant_in_words(plan));
      break;
    case CondenserKind::run_through:
      return tap_words(cooling, plan.recipe.units);
  }
  const std::string ice = ice_in_words(plan);
  if (!ice.empty()) words += ". Ice: " + ice;
  return words;
}

std::string heat_words(const Plan& plan) {
  const Recipe& recipe = plan.recipe;
  const std::string words =
      fmt::format("{} ({}{}) from start to stop", text(recipe.setting),
                  is_full(recipe.setting) ? "" : "of ", text(recipe.still->heater.power.typical()));
  const std::string drip = setting_by_drip(plan);
  return drip.empty() ? words : words + ". No scale on the burner? " + capitalised(drip) + ".";
}

// A range with its meaning, for the first place on the page.
std::string in_most_runs(const Range<Duration>& range, Units units) {
  if (is_one_text(range, units)) return "";
  return fmt::format(" ({} in 8 of 10 runs)", span_text(range, units));
}

std::string stop_words(const Plan& plan, const RunPlan& run) {
  const Units units = plan.recipe.units;
  const char* where = one_receiver(plan) ? "in the receiver" : "caught in total";
  std::string words;
  if (run.stops_by_clock()) {
    words = fmt::format("{} after the start, by the clock{}", text(*run.stop.clock),
                        run.stop.hydrosol
                            ? fmt::format(", or at {} {}", text(*run.stop.hydrosol, units), where)
                            : "");
  } else {
    words = fmt::format("at {} {}, {} after the start{}", text(*run.stop.hydrosol, units), where,
                        text(run.times.stop), in_most_runs(run.uncertainty.stop, units));
    if (const auto by = run.clock_beside_level()) {
      words += fmt::format(". Still below {} after {}? Heat off then too",
                           text(*run.stop.hydrosol, units), text(*by));
    }
  }
  const std::string gauge = run.stops_by_clock()
                                ? std::string("Heat off then, however much has come.")
                                : gauge_in_words(plan);
  return words + "." + (gauge.empty() ? "" : " " + gauge);
}

std::string safe_words(const Plan& plan, const RunPlan& run) {
  const Units units = plan.recipe.units;
  return fmt::format("{} {} must stay in the pot; {} will.",
                     bounds_in_words(plan, clock_time(plan, stop_bounds(plan).by)),
                     text(run.water.reserve, units), text(run.water.left_at_stop, units));
}

const char* oil_place_words(OilPlace place) {
  switch (place) {
    case OilPlace::sinks:
      return "under";
    case OilPlace::near_water:
      return "on, in or under";
    case OilPlace::floats:
      break;
  }
  return "floating on";
}

std::string oil_words(const Recipe& recipe, const Range<Volume>& oil) {
  if (oil.high < a_drop_of_oil) return "no oil to separate: it stays in the hydrosol";
  if (oil.typical < a_drop_of_oil) {
    return fmt::format("a film of oil at most, up to {}", text(oil.high, recipe.units));
  }
  return fmt::format("with about {} of oil {} it ({})", text(oil.typical, recipe.units),
                     oil_place_words(oil_place(recipe.plant)), span_text(oil, recipe.units));
}

std::string yield_words(const Plan& plan, const RunPlan& run) {
  const std::string hydrosol =
      fmt::format("{} of hydrosol ({})", about(run.uncertainty.hydrosol, plan.recipe.units),
                  hydrosol_per_herb_in_words(plan));
  return run.has_oil ? hydrosol + ", " + oil_words(plan.recipe, run.uncertainty.oil_volume)
                     : hydrosol;
}

// What one fraction brings.
std::string fraction_words(const Plan& plan, const RunPlan& run, std::size_t i) {
  const FractionRanges& yields = run.uncertainty.fractions[i];
  const Units units = plan.recipe.units;
  std::string words =
      fmt::format("fraction {}: {} of hydrosol", i + 1, about(yields.hydrosol, units));
  if (!run.has_oil) return words;
  const Range<Density>& dissolved = yields.dissolved_oil;
  return fmt::format("{} with {:.0f} mg/L of oil in it ({:.0f} to {:.0f}), {}", words,
                     in_milligrams_per_litre(dissolved.typical),
                     in_milligrams_per_litre(dissolved.low),
                     in_milligrams_per_litre(dissolved.high),
                     yields.oil_volume.high < a_drop_of_oil
                         ? std::string("none to separate")
                         : "and " + about(yields.oil_volume, units) + " to separate");
}

std::string odds_words(const Plan& plan, const RunPlan& run) {
  std::string words = fmt::format("{} to meet the goal", text(*run.uncertainty.chance_of_goal));
  if (run.allow) {
    words += fmt::format("; allow {}: by then {} of such runs are at their stop", text(*run.allow),
                         text(*plan.recipe.confidence));
  }
  return words;
}

void write_answer(TerminalPage& page, const Plan& plan, const RunPlan& run) {
  const auto say = [&](const std::string& label, const std::string& words) {
    page.line("  " + padded(label, answer_width) + " ", words);
  };
  if (plan.charge.runs > 1) {
    page.line("  ", fmt::format("for each of {} runs:", plan.charge.runs));
  }
  say("Weigh", weigh_words(plan));
  say("Pour", pour_words(plan, run));
  say("Cool", coolant_words(plan, run.cooling));
  say("Heat", heat_words(plan));
  say("Stop", stop_words(plan, run));
  say("Safe", safe_words(plan, run));
  say("Get", yield_words(plan, run));
  for (std::size_t i = 0; i < run.uncertainty.fractions.size(); ++i)
    say("", fraction_words(plan, run, i));
  const auto& chance = run.uncertainty.chance_of_goal;
  if (chance && *chance < fraction(0.995)) say("Odds", odds_words(plan, run));
}

// ---- the run

struct RunMoment {
  Duration at;
  std::string words;
};

// The first of many changes, and the last of them.
template <class Change, class Words>
void add_changes(std::vector<RunMoment>& list, const std::vector<Change>& all, const char* many,
                 const Words& words) {
  for (std::size_t i = 0; i < std::min(all.size(), most_moments); ++i) {
    list.push_back({all[i].at, words(all[i])});
  }
  if (all.size() > most_moments) {
    list.push_back({all.back().at, fmt::format("the last of {} {}", all.size(), many)});
  }
}

std::vector<RunMoment> changes_on_the_way(const Plan& plan, const RunPlan& run) {
  const Units units = plan.recipe.units;
  std::vector<RunMoment> list;
  add_changes(list, run.cooling.ice_changes, "ice changes", [&](const IceChange& change) {
    return fmt::format("about now, {} {}: {}", is_before_stop(plan, change) ? "at" : "with the",
                       sign_for_ice(plan, change), ice_change_in_words(change.ice, units));
  });
  add_changes(list, run.receiver_changes, "full receivers",
              [&](const ReceiverChange& change) { return next_receiver_in_words(plan, change); });
  return list;
}

// From the first look at the level to the moment by which the run must have stopped.
std::vector<RunMoment> moments_of_the_stop(const Plan& plan, const RunPlan& run) {
  const Units units = plan.recipe.units;
  std::vector<RunMoment> list;
  const bool look_first = run.stop.hydrosol && timer(plan) < run.times.stop;
  if (look_first) list.push_back({timer(plan), timer_in_words(plan)});
  std::string off = "heat off";
  if (!run.stops_by_clock()) off += " at " + text(*run.stop.hydrosol, units);
  if (!look_first) off += "; set the timer to this";
  list.push_back({run.times.stop, off});
  const StopBounds bounds = stop_bounds(plan);
  list.push_back({bounds.by, bounds.in_any_case ? "heat off by now in any case"
                                                : "jug not checked: heat off by now"});
  const auto left_on = [&](Duration at, const char* what) {
    list.push_back({at, fmt::format("a very strong heater, if left on, {}", what)});
  };
  left_on(whole_minutes_down(run.times.reserve_worst), "is down to the reserve");
  left_on(whole_minutes_down(run.times.dry_worst), "has boiled the pot dry");
  if (bounds.give_up) {
    list.push_back({*bounds.give_up,
                    fmt::format("not at {} by now: heat off, find out why: a weak heater or a leak",
                                text(*run.stop.hydrosol, units))});
  }
  return list;
}

std::vector<RunMoment> moments_of(const Plan& plan, const RunPlan& run) {
  std::vector<RunMoment> list = {
      {seconds(0),
       std::string("heat on, coolant running, receiver in place") +
           (clock_time(plan, seconds(0)).empty() ? "" : "; at another time, go by the minutes")},
      {run.times.boil, fmt::format("the pot boils, at {}", text(plan.boiling, plan.recipe.units))},
      {run.times.first_drop,
       fmt::format("first drop; then {}. {}", text(run.rates.distillate, plan.recipe.units),
                   heater_check_in_words(plan))}};
  for (auto* part : {&changes_on_the_way, &moments_of_the_stop}) {
    const std::vector<RunMoment> more = part(plan, run);
    list.insert(list.end(), more.begin(), more.end());
  }
  std::stable_sort(list.begin(), list.end(),
                   [](const RunMoment& a, const RunMoment& b) { return a.at < b.at; });
  return list;
}

void write_moments(TerminalPage& page, const Plan& plan, const RunPlan& run) {
  page.heading("When, from the start of heating");
  for (const RunMoment& moment : moments_of(plan, run)) {
    std::string when = right(text(moment.at), 10);
    const std::string clock = clock_time(plan, moment.at);
    if (!clock.empty()) when += "  " + clock;
    page.line("  " + when + "  ", moment.words);
  }
  const std::string limit = coolant_limit_in_words(plan);
  if (!limit.empty()) page.line("  ", limit);
  page.line("  ", after_heat_in_words(plan));
}

using TableRow = std::vector<std::string>;

// The header, and a row for each moment. The last cell of a row is the event.
std::vector<TableRow> timeline_table(const std::vector<TimelinePoint>& timeline, Units units) {
  const bool coolant = std::any_of(timeline.begin(), timeline.end(),
                                   [](const TimelinePoint& p) { return p.coolant.has_value(); });
  const bool oil = !timeline.empty() && timeline.front().oil;
  std::vector<TableRow> table = {{"min", "pot at", "in pot", "hydrosol"}};
  if (oil) table.front().emplace_back("oil");
  if (coolant) table.front().emplace_back("coolant");
  table.front().emplace_back("");
  for (const TimelinePoint& p : timeline) {
    table.push_back({fmt::format("{:.0f}", in_minutes(p.at)), text(p.pot, units),
                     text(p.pot_water, units), text(p.hydrosol, units)});
    if (oil) table.back().push_back(text(p.oil->typical, units));
    if (coolant) table.back().push_back(p.coolant ? text(*p.coolant, units) : "");
    table.back().push_back(p.event);
  }
  return table;
}

// Each column is as wide as its widest cell.
void write_timeline(TerminalPage& page, const std::vector<TimelinePoint>& timeline, Units units) {
  page.heading("Step by step");
  const std::vector<TableRow> table = timeline_table(timeline, units);
  const std::size_t last = table.front().size() - 1;
  std::vector<int> widths(last);
  for (const TableRow& cells : table) {
    for (std::size_t i = 0; i < last; ++i) widths[i] = std::max(widths[i], text_width(cells[i]));
  }
  const std::string gap = page.look().width < roomy ? " " : "  ";
  for (const TableRow& cells : table) {
    std::string row;
    for (std::size_t i = 0; i < last; ++i) row += gap + right(cells[i], widths[i]);
    if (!cells[last].empty()) row += gap + cells[last];
    page.add((&cells == &table.front() ? styled(row, Style::faint, page.look()) : row) + "\n");
  }
}

// ---- figures

std::string rule_words(StopRule rule) {
  switch (rule) {
    case StopRule::hydrosol:
      return "you asked for this much hydrosol";
    case StopRule::oil:
      return "you asked for this much oil";
    case StopRule::oil_share:
      return "you asked for this share of the oil";
    case StopRule::time:
      return "you set this time";
    case StopRule::oil_left:
      return "the oil still in the herb isn't worth more water and time";
    case StopRule::customary:
      return "people usually take this much hydrosol from such a charge";
    case StopRule::reserve:
      return "the pot's water allows no more";
    case StopRule::cooling:
      break;
  }
  return "the coolant allows no more";
}

std::string more_words(const RunPlan& run, Units units) {
  const QuarterHourMore& more = run.more;
  std::string words = fmt::format("would add {} of hydrosol", text(more.hydrosol, units));
  if (!run.has_oil) return words;
  // This includes a loss of a few milligrams, because mixed hydrosol dissolves some of the oil.
  if (more.oil < grams(0.005)) return words + " but no oil";
  return words + " and " + text(more.oil, units) + " of oil";
}

std::string water_words(const WaterPlan& water, Units units) {
  return fmt::format(
      "{} in = {} caught + {} soaked up by herb and walls + {} lost as vapour + {} left",
      text(water.first_fill, units), text(water.distilled, units), text(water.held, units),
      text(water.uncondensed, units), text(water.left_at_stop, units));
}

std::string oil_balance_words(const Uncertainty& s, Units units) {
  return fmt::format(
      "{} in the charge; {} of it comes over; {} stays dissolved, {:.0f} mg/L ({:.0f} to {:.0f}); "
      "each is the middle of its own range, so they need not add up",
      about(s.oil_in_charge, units), text(s.oil_vaporised.typical, units),
      text(s.oil_dissolved.typical, units), in_milligrams_per_litre(s.dissolved_oil.typical),
      in_milligrams_per_litre(s.dissolved_oil.low), in_milligrams_per_litre(s.dissolved_oil.high));
}

std::string cost_words(const EnergyPlan& energy) {
  std::string words;
  if (energy.energy_cost) {
    words += fmt::format(", {:.2f} {}", *energy.energy_cost, visible(energy.currency));
  }
  if (energy.plant_cost) {
    words += fmt::format("; plant {:.2f} {}", *energy.plant_cost, visible(energy.currency));
  }
  return words;
}

std::string heat_balance_words(const RunPlan& run, HeaterKind heater) {
  return fmt::format(
      "{} into the pot, {} of it lost to the room; {} {}{}", text(run.rates.heat_into_pot),
      text(run.rates.heat_lost), text(run.energy.plug),
      heater == HeaterKind::gas_burner ? "of gas" : "from the socket", cost_words(run.energy));
}

std::string steam_words(const RatesPlan& rates, Units units) {
  const std::string words =
      fmt::format("{:.1f} times the charge's weight per hour", in_per_hour(rates.steam_per_charge));
  return rates.steam_velocity
             ? fmt::format("{}, {} in the bed", words, text(*rates.steam_velocity, units))
             : words;
}

void write_figures(TerminalPage& page, const Plan& plan, const RunPlan& run) {
  const Uncertainty& s = run.uncertainty;
  const Still& still = plan.recipe.still;
  const Units units = plan.recipe.units;
  page.heading("Figures");
  page.row("First drop", fmt::format("{} after the start ({})", text(run.times.first_drop),
                                     span_text(s.first_drop, units)));
  page.row("Ends because", rule_words(run.stop_criterion));
  page.row("15 min more", more_words(run, units));
  if (s.oil_volume.typical >= a_drop_of_oil) {
    page.row("Separated oil", about(s.oil_in_receiver, units));
  }
  page.row("Left in pot", fmt::format("{} at the stop ({})", text(run.water.left_at_stop, units),
                                      span_text(s.left_at_stop, units)));
  page.row("Water", water_words(run.water, units));
  if (run.has_oil) page.row("Oil", oil_balance_words(s, units));
  page.row("Heat", heat_balance_words(run, still.heater.kind));
  page.row("Steam", steam_words(run.rates, units));
  page.row("Condenser", fmt::format("{} to take away; needs {} of surface, has {}",
                                    text(run.cooling.duty), text(run.cooling.surface_needed, units),
                                    text(still.condenser.surface.typical(), units)));
  if (run.cooling.reservoir_end) {
    page.row("Coolant",
             fmt::format("at {} when the run ends", text(*run.cooling.reservoir_end, units)));
  }
}

// The three largest first-order sensitivities, and the rest together with the interactions.
std::string sensitivity_words(const Sensitivities& sensitivities) {
  std::string words;
  double named = 0.0;
  for (std::size_t i = 0; i < sensitivities.size() && i < 3; ++i) {
    const Sensitivity& one = sensitivities[i];
    named += in_percent(one.share);
    words += fmt::format("{}{:.0f} % {}", i == 0 ? "" : ", ", in_percent(one.share),
                         in_words(one.parameter));
  }
  const double rest = std::round(100.0 - named);
  if (rest >= 1.0)
    words += fmt::format(", {:.0f} % everything else, and effects in combination", rest);
  return words;
}

void write_uncertainty(TerminalPage& page, const Uncertainty& s) {
  if (s.oil_from.empty() && s.time_from.empty() && s.reserve_from.empty()) return;
  page.heading("What the uncertainty comes from");
  std::vector<std::string> ways;
  const auto tell = [&](const std::string& label, const Sensitivities& sensitivities) {
    if (sensitivities.empty()) return;
    page.row(label, sensitivity_words(sensitivities));
    const std::string way = how_to_know(sensitivities.front().parameter);
    if (std::find(ways.begin(), ways.end(), way) == ways.end()) ways.push_back(way);
  };
  tell("Oil", s.oil_from);
  tell("Time", s.time_from);
  tell("Reserve time", s.reserve_from);
  for (std::size_t i = 0; i < ways.size(); ++i) page.row(i == 0 ? "To narrow it" : "", ways[i]);
}

// ---- the whole

void write_head(TerminalPage& page, const Plan& plan) {
  write_title(page, plan);
  write_findings(page, plan, Level::refuse);
  write_ways_out(page, plan);
}

// A refused plan shows no amounts, because nobody may work from it.
void write_head_and_answer(TerminalPage& page, const Plan& plan) {
  write_head(page, plan);
  if (plan.may_be_run()) write_answer(page, plan, *plan.run);
  write_findings(page, plan, Level::caution);
  if (plan.may_be_run()) write_dangers(page, plan);
}

void write_run(TerminalPage& page, const Plan& plan, const RunPlan& run) {
  page.heading("The run");
  page.add(plan_chart(plan, page.look()));
  write_moments(page, plan, run);
  write_timeline(page, run.timeline, plan.recipe.units);
  write_figures(page, plan, run);
  write_uncertainty(page, run.uncertainty);
}

}  // namespace

std::string plan_page(const Plan& plan, const Look& look) {
  TerminalPage page(look, plan_label_width);
  write_head_and_answer(page, plan);
  if (plan.may_be_run()) write_run(page, plan, *plan.run);
  if (plan.verdict == Verdict::refused) return page.written();
  write_findings(page, plan, Level::note);
  write_hazards(page, plan);
  write_always(page, plan);
  page.blank_line();
  page.line("", fmt::format("Rests on {}: --explain shows every figure with its equation and "
                            "source. A plan is no promise: watch the still, not the page.",
                            in_words(plan.source_count)));
  return page.written();
}

std::string plan_answer(const Plan& plan, const Look& look) {
  TerminalPage page(look, plan_label_width);
  write_head_and_answer(page, plan);
  return page.written();
}

std::string plan_head(const Plan& plan, const Look& look) {
  TerminalPage page(look, plan_label_width);
  write_head(page, plan);
  return page.written();
}

}  // namespace firstdrop::cli
