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
#include "quantity/numbers_text.hpp"

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

class PlanPage : private TerminalPage {
 public:
  PlanPage(const Plan& plan, const Look& look)
      : TerminalPage(look, plan_label_width), plan_(plan) {}

  std::string write_head() {
    head();
    findings(Level::refuse);
    ways_out();
    return written();
  }

  std::string write_answer() {
    head();
    // A refused plan shows no amounts, because nobody may work from it.
    findings(Level::refuse);
    ways_out();
    if (plan_.may_be_run()) answer(*plan_.run);
    findings(Level::caution);
    if (plan_.may_be_run()) dangers();
    return written();
  }

  std::string write() {
    write_answer();
    if (plan_.may_be_run()) {
      heading("The run");
      add(plan_chart(plan_, look()));
      clock(*plan_.run);
      course(*plan_.run);
      details(*plan_.run);
      uncertainty(plan_.run->uncertainty);
    }
    if (plan_.verdict == Verdict::refused) return written();
    findings(Level::note);
    hazards();
    always();
    blank_line();
    line("",
         fmt::format("Rests on {}: --explain shows every figure with its equation and source. A "
                     "plan is no promise: watch the still, not the page.",
                     in_words(plan_.source_count)));
    return written();
  }

 private:
  // In the units of this bench.
  template <class Quantity>
  std::string text(Quantity quantity) const {
    return firstdrop::text(quantity, plan_.recipe.units);
  }
  template <class Quantity>
  std::string span(Quantity low, Quantity high) const {
    return span_text(text(low), text(high));
  }
  template <class Quantity>
  std::string about(const Range<Quantity>& range) const {
    if (text(range.low) == text(range.high)) return text(range.typical);
    return fmt::format("about {} ({})", text(range.typical), span(range.low, range.high));
  }
  // A range with its meaning, for the first place on the page.
  template <class Quantity>
  std::string in_most_runs(const Range<Quantity>& range) const {
    if (text(range.low) == text(range.high)) return "";
    return fmt::format(" ({} in 8 of 10 runs)", span(range.low, range.high));
  }
  std::string ice_text(Mass ice) const { return text(ice_up(ice, plan_.recipe.units)); }
  std::string flow_text(VolumeFlow flow) const { return text(tap_up(flow, plan_.recipe.units)); }

  void head() {
    const Recipe& recipe = plan_.recipe;
    title(visible(recipe.title.empty() ? "Untitled run" : recipe.title));
    line("", fmt::format("{} ({}, {}), {}, {}", visible(recipe.plant->name),
                         to_string(recipe.state), to_string(recipe.cut),
                         in_words(recipe.method_used()), visible(recipe.still->title)));
    if (has_invented_figures(recipe.still)) line("", example_still_words);
    blank_line();
    const bool dangers = std::any_of(plan_.findings.begin(), plan_.findings.end(),
                                     [](const Finding& finding) { return finding.kind->danger; });
    verdict(plan_.verdict, advice(plan_.verdict, dangers));
  }

  // What to weigh, pour and cool with, when to stop, what to expect, and what keeps it safe.
  void answer(const RunPlan& run) {
    const auto say = [&](const std::string& label, const std::string& words) {
      line("  " + padded(label, answer_width) + " ", words);
    };
    if (plan_.charge.runs > 1) {
      line("  ", fmt::format("for each of {} runs:", plan_.charge.runs));
    }
    say("Weigh",
        fmt::format("{} of {}, {}. {}", text(plan_.charge.mass), visible(plan_.recipe.plant->name),
                    fill_words(), charges_in_words(plan_)));
    const bool in_water = plan_.recipe.method_used() == Method::hydro;
    say("Pour", fmt::format("{} of water {}, {}{} of the pot", pour_text(plan_),
                            how_warm_to_pour(plan_.recipe), in_water ? "with the herb " : "",
                            text(run.water.pot_fill)));
    say("Cool", coolant_words(run.cooling));
    say("Heat", heat_words());
    say("Stop", stop_words(run));
    say("Safe", fmt::format("{} {} must stay in the pot; {} will.",
                            bounds_in_words(plan_, clock_time(stop_bounds(plan_).by)),
                            text(run.water.reserve), text(run.water.left_at_stop)));
    say("Get", fmt::format("{} of hydrosol ({}), {}", about(run.uncertainty.hydrosol),
                           hydrosol_per_herb_in_words(plan_), oil_words(run.uncertainty)));
    if (run.uncertainty.chance_of_goal && *run.uncertainty.chance_of_goal < fraction(0.995)) {
      say("Odds", odds_words(run));
    }
  }

  std::string heat_words() const {
    const Heater& heater = plan_.recipe.still->heater;
    const double share = in_percent(plan_.recipe.setting);
    return fmt::format("{} ({}{}) from start to stop", text(plan_.recipe.setting),
                       share >= 99.5 ? "" : "of ", text(heater.power.typical()));
  }

  std::string fill_words() const {
    const std::string share = text(plan_.charge.fill);
    switch (plan_.recipe.method_used()) {
      case Method::steam:
        return "filled loosely; takes up " + share + " of the column";
      case Method::water_and_steam:
        return "filled loosely; takes up " + share + " of the space over the grid";
      case Method::hydro:
        break;
    }
    return "loose in the water";
  }

  std::string odds_words(const RunPlan& run) const {
    std::string words = fmt::format("{} to meet the goal", text(*run.uncertainty.chance_of_goal));
    if (run.allow) {
      words += fmt::format("; allow {}: by then {} of such runs are at their stop",
                           text(*run.allow), text(*plan_.recipe.confidence));
    }
    return words;
  }

  std::string oil_words(const Uncertainty& uncertainty) const {
    if (uncertainty.oil_volume.high < a_drop_of_oil)
      return "no oil to part: it stays in the hydrosol";
    if (uncertainty.oil_volume.typical < a_drop_of_oil) {
      return fmt::format("a film of oil at most, up to {}", text(uncertainty.oil_volume.high));
    }
    const Range<Volume>& oil = uncertainty.oil_volume;
    return fmt::format("with about {} of oil {} it ({})", text(oil.typical), place_words(),
                       span(oil.low, oil.high));
  }

  const char* place_words() const {
    switch (oil_place(plan_.recipe.plant)) {
      case OilPlace::sinks:
        return "under";
      case OilPlace::near_water:
        return "on, in or under";
      case OilPlace::floats:
        break;
    }
    return "floating on";
  }

  std::string coolant_words(const CoolingPlan& cooling) const {
    const Condenser& condenser = plan_.recipe.still->condenser;
    std::string words;
    switch (condenser.kind) {
      case CondenserKind::ice_bath:
        words = cooling.first_ice
                    ? fmt::format("{} bath with {} of ice in it", coolant_in_words(plan_),
                                  ice_text(*cooling.first_ice))
                    : fmt::format("{} bath", coolant_in_words(plan_));
        break;
      case CondenserKind::reservoir:
        words = fmt::format("{} of coolant, pump on", coolant_in_words(plan_));
        break;
      case CondenserKind::run_through:
        return fmt::format(
            "{} from the tap, {} if the heater runs strong; about {} from the first drop to the "
            "stop",
            flow_text(cooling.flow.value_or(VolumeFlow())),
            flow_text(cooling.flow_most.value_or(VolumeFlow())),
            text(neat_up(cooling.coolant_used.value_or(Volume()), plan_.recipe.units)));
    }
    const std::string ice = ice_in_words(plan_);
    if (!ice.empty()) words += ". Ice: " + ice;
    return words;
  }

  const char* where() const { return one_receiver(plan_) ? "in the receiver" : "caught in all"; }

  std::string stop_words(const RunPlan& run) const {
    std::string words;
    if (run.stops_by_clock()) {
      words = fmt::format(
          "{} after the start, by the clock{}", text(*run.stop.clock),
          run.stop.hydrosol ? fmt::format(", or at {} {}", text(*run.stop.hydrosol), where()) : "");
    } else {
      words = fmt::format("at {} {}, {} after the start{}", text(*run.stop.hydrosol), where(),
                          text(run.times.stop), in_most_runs(run.uncertainty.stop));
      if (const auto by = run.clock_beside_level()) {
        words += fmt::format(". Still below {} after {}? Heat off then too",
                             text(*run.stop.hydrosol), text(*by));
      }
    }
    const std::string gauge = run.stops_by_clock()
                                  ? std::string("Heat off then, however much has come.")
                                  : gauge_in_words(plan_);
    return words + "." + (gauge.empty() ? "" : " " + gauge);
  }

  static std::string rule_words(const RunPlan& run) {
    switch (run.stop_criterion) {
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
      case StopRule::reserve:
        return "the pot's water allows no more";
      case StopRule::cooling:
        break;
    }
    return "the coolant allows no more";
  }

  // Time of day of a moment; empty if the recipe has no start time.
  std::string clock_time(Duration at) const {
    const auto start = parse_local_minute(plan_.recipe.start);
    return start ? time_of_day(*start, at) : "";
  }

  struct Moment {
    Duration at;
    std::string words;
  };

  void moment(const Moment& one) {
    std::string when = right(text(one.at), 10);
    const std::string clock = clock_time(one.at);
    if (!clock.empty()) when += "  " + clock;
    line("  " + when + "  ", one.words);
  }

  void clock(const RunPlan& run) {
    heading("When, from the start of heating");
    std::vector<Moment> list = {
        {seconds(0),
         std::string("heat on, coolant running, receiver in place") +
             (clock_time(seconds(0)).empty() ? "" : "; at another time, go by the minutes")},
        {run.times.boil, fmt::format("the pot boils, at {}", text(plan_.boiling))},
        {run.times.first_drop, fmt::format("first drop; then {}. {}", text(run.rates.distillate),
                                           heater_check_in_words(plan_))}};
    const auto& ice = run.cooling.ice_changes;
    for (std::size_t i = 0; i < std::min(ice.size(), most_moments); ++i) {
      list.push_back({ice[i].at, fmt::format("about now, {} {}: {}",
                                             is_before_stop(plan_, ice[i]) ? "at" : "with the",
                                             sign_for_ice(plan_, ice[i]),
                                             ice_change_in_words(ice[i].ice, plan_.recipe.units))});
    }
    if (ice.size() > most_moments) {
      list.push_back({ice.back().at, fmt::format("the last of {} ice changes", ice.size())});
    }
    const auto& full = run.receiver_changes;
    for (std::size_t i = 0; i < std::min(full.size(), most_moments); ++i) {
      list.push_back({full[i].at, fmt::format("next receiver, {} in all", text(full[i].caught))});
    }
    if (full.size() > most_moments) {
      list.push_back({full.back().at, fmt::format("the last of {} full receivers", full.size())});
    }
    const bool look_first = run.stop.hydrosol && timer(plan_) < run.times.stop;
    if (look_first) list.push_back({timer(plan_), timer_in_words(plan_)});
    std::string off = "heat off";
    if (!run.stops_by_clock()) off += " at " + text(*run.stop.hydrosol);
    if (!look_first) off += "; set the timer to this";
    list.push_back({run.times.stop, off});
    const StopBounds bounds = stop_bounds(plan_);
    list.push_back({bounds.by, bounds.in_any_case ? "heat off by now in any case"
                                                  : "level not seen: heat off by now"});
    const auto left_on = [&](Duration at, const char* what) {
      list.push_back({at, fmt::format("if the heat stays on: {}, strongest heater", what)});
    };
    left_on(whole_minutes_down(run.times.reserve_worst), "reserve reached");
    left_on(whole_minutes_down(run.times.dry_worst), "pot dry");
    if (bounds.give_up) {
      list.push_back(
          {*bounds.give_up,
           fmt::format("not at {} by now: heat off, find out why: a weak heater or a leak",
                       text(*run.stop.hydrosol))});
    }
    std::stable_sort(list.begin(), list.end(),
                     [](const Moment& a, const Moment& b) { return a.at < b.at; });
    for (const Moment& one : list) moment(one);
    const std::string limit = coolant_limit_in_words(plan_);
    if (!limit.empty()) line("  ", limit);
    line("  ", after_heat_in_words(plan_));
  }

  // Each column is as wide as its widest cell.
  void course(const RunPlan& run) {
    heading("Step by step");
    const bool coolant = std::any_of(run.timeline.begin(), run.timeline.end(),
                                     [](const TimelinePoint& p) { return p.coolant.has_value(); });
    std::vector<std::vector<std::string>> table = {{"min", "pot", "in pot", "hydrosol", "oil"}};
    if (coolant) table.front().emplace_back("coolant");
    table.front().emplace_back("");
    for (const TimelinePoint& p : run.timeline) {
      table.push_back({fmt::format("{:.0f}", in_minutes(p.at)), text(p.pot), text(p.pot_water),
                       text(p.hydrosol), text(p.oil.typical)});
      if (coolant) table.back().push_back(p.coolant ? text(*p.coolant) : "");
      table.back().push_back(p.event);
    }
    const std::size_t last = table.front().size() - 1;
    std::vector<int> widths(last);
    for (const auto& cells : table) {
      for (std::size_t i = 0; i < last; ++i) widths[i] = std::max(widths[i], text_width(cells[i]));
    }
    const std::string gap = look().width < roomy ? " " : "  ";
    for (const auto& cells : table) {
      std::string row;
      for (std::size_t i = 0; i < last; ++i) row += gap + right(cells[i], widths[i]);
      if (!cells[last].empty()) row += gap + cells[last];
      add((&cells == &table.front() ? styled(row, Style::faint, look()) : row) + "\n");
    }
  }

  void details(const RunPlan& run) {
    const Uncertainty& s = run.uncertainty;
    heading("Figures");
    row("First drop", fmt::format("{} after the start ({})", text(run.times.first_drop),
                                  span(s.first_drop.low, s.first_drop.high)));
    row("Ends because", rule_words(run));
    row("15 min more", more_words(run.more));
    if (s.oil_volume.typical >= a_drop_of_oil) {
      row("Oil parted", about(s.oil_in_receiver));
    }
    row("Left in pot", fmt::format("{} at the stop ({})", text(run.water.left_at_stop),
                                   span(s.left_at_stop.low, s.left_at_stop.high)));
    row("Water",
        fmt::format("{} in = {} caught + {} held by herb and walls + {} vented + {} left",
                    text(run.water.first_fill), text(run.water.distilled), text(run.water.held),
                    text(run.water.uncondensed), text(run.water.left_at_stop)));
    row("Oil",
        fmt::format("{} in the charge; {} of it come over; {} stay dissolved, {:.0f} mg/L "
                    "({:.0f} to {:.0f}); medians, which need not add up",
                    about(s.oil_in_charge), text(s.oil_vaporised.typical),
                    text(s.oil_dissolved.typical), in_milligrams_per_litre(s.dissolved_oil.typical),
                    in_milligrams_per_litre(s.dissolved_oil.low),
                    in_milligrams_per_litre(s.dissolved_oil.high)));
    const bool gas = plan_.recipe.still->heater.kind == HeaterKind::gas_burner;
    row("Heat",
        fmt::format("{} into the pot, {} of it lost to the room; {} {}{}",
                    text(run.rates.heat_into_pot), text(run.rates.heat_lost), text(run.energy.plug),
                    gas ? "of gas" : "from the socket", cost_words(run.energy)));
    std::string steam = fmt::format("{:.1f} times the charge's weight an hour",
                                    in_per_hour(run.rates.steam_per_charge));
    if (run.rates.steam_velocity) {
      steam += fmt::format(", {} in the bed", text(*run.rates.steam_velocity));
    }
    row("Steam", steam);
    row("Condenser", fmt::format("{} to take away; {} of surface needed, {} there",
                                 text(run.cooling.duty), text(run.cooling.surface_needed),
                                 text(plan_.recipe.still->condenser.surface.typical())));
    if (run.cooling.reservoir_end) {
      row("Coolant", fmt::format("at {} when the run ends", text(*run.cooling.reservoir_end)));
    }
  }

  // The three largest first-order sensitivities, and the rest together with the interactions.
  static std::string sensitivity_words(const Sensitivities& sensitivities) {
    std::string words;
    double named = 0.0;
    for (std::size_t i = 0; i < sensitivities.size() && i < 3; ++i) {
      const Sensitivity& one = sensitivities[i];
      named += in_percent(one.share);
      words += fmt::format("{}{:.0f} % {}", i == 0 ? "" : ", ", in_percent(one.share),
                           in_words(one.parameter));
    }
    const double rest = std::round(100.0 - named);
    if (rest >= 1.0) words += fmt::format(", {:.0f} % all else and together", rest);
    return words;
  }

  void uncertainty(const Uncertainty& s) {
    if (s.oil_from.empty() && s.time_from.empty() && s.reserve_from.empty()) return;
    heading("Where the spread comes from");
    std::vector<std::string> ways;
    const auto tell = [&](const std::string& label, const Sensitivities& sensitivities) {
      if (sensitivities.empty()) return;
      row(label, sensitivity_words(sensitivities));
      const std::string way = how_to_know(sensitivities.front().parameter);
      if (std::find(ways.begin(), ways.end(), way) == ways.end()) ways.push_back(way);
    };
    tell("Oil", s.oil_from);
    tell("Time", s.time_from);
    tell("To reserve", s.reserve_from);
    for (std::size_t i = 0; i < ways.size(); ++i) row(i == 0 ? "To know" : "", ways[i]);
  }

  std::string more_words(const QuarterHourMore& more) const {
    const std::string words = fmt::format("would add {} of hydrosol ", text(more.hydrosol));
    // This includes a loss of a few milligrams, because mixed hydrosol dissolves some of the oil.
    if (more.oil < grams(0.005)) return words + "but no oil";
    return words + "and " + text(more.oil) + " of oil";
  }

  static std::string cost_words(const EnergyPlan& energy) {
    std::string words;
    if (energy.energy_cost) {
      words += fmt::format(", {:.2f} {}", *energy.energy_cost, visible(energy.currency));
    }
    if (energy.plant_cost) {
      words += fmt::format("; plant {:.2f} {}", *energy.plant_cost, visible(energy.currency));
    }
    return words;
  }

  void findings(Level level) {
    const char* title = level == Level::refuse    ? "Why"
                        : level == Level::caution ? "Cautions"
                                                  : "Notes";
    items(title, [&](const Finding& finding) {
      return finding.level == level && !finding.kind->standing && !finding.kind->danger &&
             !is_hazard(finding);
    });
  }

  // Dangers to people from the still, the plant or the method, in any run.
  void dangers() {
    items("Dangers of this still, plant and method",
          [](const Finding& finding) { return finding.kind->danger; });
  }

  // Lists the findings of one kind under a heading, if there are any.
  template <class OfKind>
  void items(const char* title, OfKind is_one) {
    bool any = false;
    for (const Finding& finding : plan_.findings) {
      if (!is_one(finding)) continue;
      if (!any) heading(title);
      any = true;
      item(finding);
    }
  }

  void ways_out() {
    if (plan_.ways_out.empty()) return;
    heading("Ways out, one of");
    for (const std::string& way : plan_.ways_out) line("- ", visible(way));
  }

  // A finding, and under it why it matters and whose guidance it follows.
  void item(const Finding& finding) {
    line("- ", visible(finding_text(finding, plan_.recipe.units)));
    const std::string reason = finding_reason(finding);
    if (reason.empty()) return;
    line("  ", fmt::format("Reason: {} After: {}.", reason, finding_follows(finding)));
  }

  void always() {
    heading("Always");
    for (const Finding& finding : plan_.findings) {
      if (!finding.kind->standing) continue;
      const std::string text = finding_text(finding, plan_.recipe.units);
      const std::string follows = finding_follows(finding);
      line("- ", follows.empty() ? text : fmt::format("{} ({})", text, follows));
    }
    line("", "Why: `firstdrop findings`.");
  }

  // Whether a finding is a hazard of the plant or its oil, which has a section of its own.
  static bool is_hazard(const Finding& finding) {
    return finding.is<found::PlantHazard>() || finding.is<found::FlashPoint>();
  }

  void hazards() {
    bool any = false;
    for (const Finding& finding : plan_.findings) {
      if (!is_hazard(finding)) continue;
      if (!any) heading("Hazards of this plant and its oil");
      any = true;
      line("- ", visible(finding_text(finding, plan_.recipe.units)));
    }
  }

  const Plan& plan_;
};

}  // namespace

std::string plan_page(const Plan& plan, const Look& look) {
  return PlanPage(plan, look).write();
}

std::string plan_answer(const Plan& plan, const Look& look) {
  return PlanPage(plan, look).write_answer();
}

std::string plan_head(const Plan& plan, const Look& look) {
  return PlanPage(plan, look).write_head();
}

}  // namespace firstdrop::cli
