#include "cli/plan_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "cli/plan_chart.hpp"
#include "cli/terminal_page.hpp"
#include "cooling.hpp"
#include "firstdrop/clock_time.hpp"
#include "numbers_text.hpp"
#include "visible_text.hpp"

namespace firstdrop::cli {
namespace {

constexpr int answer_width = 6;
// More moments of a kind than this are told by the last of them.
constexpr std::size_t most_moments = 12;
constexpr int label_width = 13;
// Narrower than this, a table has single blanks between its columns.
constexpr int roomy = 72;

const char* advice(Verdict verdict) {
  switch (verdict) {
    case Verdict::go:
      return "within the limits of this plan";
    case Verdict::caution:
      return "read the cautions first";
    case Verdict::refused:
      break;
  }
  return "do not run this as asked";
}

class Page : private TerminalPage {
 public:
  Page(const Plan& plan, const Look& look) : TerminalPage(look, label_width), plan_(plan) {}

  std::string write_head() {
    head();
    findings(Level::refuse);
    return written();
  }

  std::string write_answer() {
    head();
    // A refused plan shows no amounts: nobody shall work from them.
    findings(Level::refuse);
    if (plan_.may_be_run()) answer(*plan_.run);
    findings(Level::caution);
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
      uncertainty(plan_.run->spread);
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
  std::string ice_text(Mass ice) const { return text(ice_up(ice, plan_.recipe.units)); }
  std::string flow_text(VolumeFlow flow) const { return text(tap_up(flow, plan_.recipe.units)); }

  void head() {
    const Recipe& recipe = plan_.recipe;
    title(visible(recipe.title.empty() ? "Untitled run" : recipe.title));
    line("",
         fmt::format("{} ({}, {}), {}, {}", visible(recipe.plant->name), to_string(recipe.state),
                     to_string(recipe.cut), in_words(recipe.method), visible(recipe.still->title)));
    if (has_invented_figures(recipe.still)) line("", example_still_words);
    blank_line();
    verdict(plan_.verdict, advice(plan_.verdict));
  }

  // What to weigh, pour and cool with, when to stop, what comes of it, and what keeps it safe.
  void answer(const RunPlan& run) {
    const auto say = [&](const std::string& label, const std::string& words) {
      line("  " + padded(label, answer_width) + " ", words);
    };
    if (plan_.charge.runs > 1) {
      line("  ", fmt::format("for each of {} runs:", plan_.charge.runs));
    }
    say("Weigh", fmt::format("{} of {}, {}", text(plan_.charge.mass),
                             visible(plan_.recipe.plant->name), fill_words()));
    const bool in_water = plan_.recipe.method == Method::hydro;
    say("Pour", fmt::format("{} of water, {}{} of the pot", text(run.water.first_fill),
                            in_water ? "with the herb " : "", text(run.water.pot_fill)));
    say("Cool", coolant_words(run.cooling));
    say("Stop", stop_words(run));
    say("Get",
        fmt::format("{} of hydrosol, {}", about(run.spread.hydrosol), oil_words(run.spread)));
    if (run.spread.chance_of_goal && *run.spread.chance_of_goal < fraction(0.995)) {
      say("Odds", odds_words(run));
    }
    say("Safe",
        fmt::format("{} left in the pot, {} must stay: never past {} in the receiver, never more "
                    "than {} late",
                    text(run.water.left_at_stop), text(run.water.reserve),
                    text(run.water.never_beyond), text(plan_.recipe.limits.absence)));
  }

  std::string fill_words() const {
    const std::string share = text(plan_.charge.fill);
    switch (plan_.recipe.method) {
      case Method::steam:
        return "loose, " + share + " of the column";
      case Method::water_and_steam:
        return "loose, " + share + " of the space over the grid";
      case Method::hydro:
        break;
    }
    return "loose in the water";
  }

  std::string odds_words(const RunPlan& run) const {
    std::string words = fmt::format("{} to meet the goal", text(*run.spread.chance_of_goal));
    if (run.allow) {
      words += fmt::format("; allow {}: by then {} of such runs are at their stop",
                           text(*run.allow), text(*plan_.recipe.confidence));
    }
    return words;
  }

  std::string oil_words(const Spread& spread) const {
    if (spread.oil_volume.high < a_drop_of_oil) return "no oil to part: it stays in the hydrosol";
    if (spread.oil_volume.typical < a_drop_of_oil) {
      return fmt::format("a film of oil at most, up to {}", text(spread.oil_volume.high));
    }
    return fmt::format("{} of oil {} it", about(spread.oil_volume), place_words());
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
    return "on";
  }

  std::string coolant_words(const CoolingPlan& cooling) const {
    const Condenser& condenser = plan_.recipe.still->condenser;
    switch (condenser.kind) {
      case CondenserKind::ice_bath: {
        const Volume filling = condenser.coolant->typical();
        std::string words = cooling.first_ice
                                ? fmt::format("{} bath with {} of ice at the start", text(filling),
                                              ice_text(*cooling.first_ice))
                                : fmt::format("{} bath without ice at the start", text(filling));
        if (!cooling.ice_changes.empty()) {
          words += fmt::format(
              ", {} of ice in all ({} change{})", text(ice_to_have(cooling, plan_.recipe.units)),
              cooling.ice_changes.size(), cooling.ice_changes.size() == 1 ? "" : "s");
        }
        return words;
      }
      case CondenserKind::reservoir: {
        std::string words = fmt::format("{} pumped round", text(condenser.coolant->typical()));
        if (cooling.ice)
          words +=
              fmt::format(", and {} of ice for it", text(ice_to_have(cooling, plan_.recipe.units)));
        return words;
      }
      case CondenserKind::run_through:
        break;
    }
    return fmt::format("{} from the tap, {} if the heater runs strong; {} in all",
                       flow_text(cooling.flow.value_or(VolumeFlow())),
                       flow_text(cooling.flow_hot.value_or(VolumeFlow())),
                       text(neat_up(cooling.coolant_used.value_or(Volume()), plan_.recipe.units)));
  }

  std::string stop_words(const RunPlan& run) const {
    if (run.stops_by_clock()) {
      return fmt::format("after {} by the clock{}", text(*run.stop.clock),
                         run.stop.hydrosol
                             ? fmt::format(", or at {} in the receiver", text(*run.stop.hydrosol))
                             : "");
    }
    std::string words =
        fmt::format("at {} in the receiver, {} after heat on ({})", text(*run.stop.hydrosol),
                    text(run.times.stop), span(run.spread.stop.low, run.spread.stop.high));
    if (const auto by = run.clock_beside_level()) {
      words += fmt::format(", or at {} by the clock", text(*by));
    }
    return words;
  }

  static std::string rule_words(const RunPlan& run) {
    switch (run.binding_stop) {
      case StopRule::hydrosol:
        return "the hydrosol wanted";
      case StopRule::oil:
        return "the oil wanted";
      case StopRule::oil_share:
        return "the share of oil wanted";
      case StopRule::time:
        return "the time set";
      case StopRule::oil_rate:
        return "most of the oil is over by then";
      case StopRule::reserve:
        return "the pot's water allows no more";
      case StopRule::cooling:
        break;
    }
    return "the coolant allows no more";
  }

  std::string forgotten_words(const TimesPlan& times) const {
    return fmt::format("reserve reached {} after the stop, dry after {}; at worst {} and {}",
                       text(times.reserve - times.stop), text(times.dry - times.stop),
                       text(times.reserve_worst - times.stop_worst),
                       text(times.dry_worst - times.stop_worst));
  }

  // Clock time of a moment, when the recipe says when the heat goes on.
  std::string clock_time(Duration at) const {
    const auto start = parse_local_minute(plan_.recipe.start);
    return start ? time_of_day(*start, at) : "";
  }

  void moment(Duration at, const std::string& words) {
    std::string when = right(text(at), 10);
    const std::string clock = clock_time(at);
    if (!clock.empty()) when += "  " + clock;
    line("  " + when + "  ", words);
  }

  void clock(const RunPlan& run) {
    heading("When, from heat on");
    moment(seconds(0), "heat on, coolant ready, receiver in place");
    moment(run.times.boil, fmt::format("the pot boils, at {}", text(plan_.boiling)));
    moment(run.times.first_drop, fmt::format("first drop; then {}", text(run.rates.distillate)));
    const auto& ice = run.cooling.ice_changes;
    const std::string limit = text(plan_.recipe.still->condenser.coolant_limit.typical());
    for (std::size_t i = 0; i < std::min(ice.size(), most_moments); ++i) {
      moment(ice[i].at, fmt::format("{} of ice in, as much warm water out, or when the coolant is "
                                    "at {}",
                                    ice_text(ice[i].ice), limit));
    }
    if (ice.size() > most_moments) {
      moment(ice.back().at, fmt::format("the last of {} ice changes", ice.size()));
    }
    const auto& full = run.receiver_changes;
    for (std::size_t i = 0; i < std::min(full.size(), most_moments); ++i) {
      moment(full[i].at, fmt::format("next receiver, {} in all", text(full[i].caught)));
    }
    if (full.size() > most_moments) {
      moment(full.back().at, fmt::format("the last of {} full receivers", full.size()));
    }
    moment(run.times.stop, "heat off");
    moment(run.times.reserve, "if the heat stays on: reserve reached");
    moment(run.times.dry, "if the heat stays on: pot dry");
  }

  // Columns as wide as what stands in them.
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
    const Spread& s = run.spread;
    heading("Figures");
    row("First drop", fmt::format("{} after heat on ({})", text(run.times.first_drop),
                                  span(s.first_drop.low, s.first_drop.high)));
    row("Why then", rule_words(run));
    row("15 min more", more_words(run.more));
    row("Hydrosol", fmt::format("{} of charge", text(s.hydrosol.typical / plan_.charge.mass)));
    if (s.oil_volume.typical >= a_drop_of_oil) {
      row("Oil parted", about(s.oil_in_receiver));
    }
    row("Left in pot", fmt::format("{} at the stop ({})", text(run.water.left_at_stop),
                                   span(s.left_at_stop.low, s.left_at_stop.high)));
    row("If forgotten", forgotten_words(run.times));
    row("Water",
        fmt::format("{} in = {} caught + {} held by herb and walls + {} vented + {} left",
                    text(run.water.first_fill), text(run.water.distilled), text(run.water.held),
                    text(run.water.vented), text(run.water.left_at_stop)));
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

  // The three largest shares, and what acts together.
  static std::string influence_words(const Influences& influences) {
    std::string words;
    double named = 0.0;
    for (std::size_t i = 0; i < influences.size() && i < 3; ++i) {
      const InputShare& one = influences[i];
      named += in_percent(one.share);
      words += fmt::format("{}{:.0f} % {}", i == 0 ? "" : ", ", in_percent(one.share),
                           in_words(one.input));
    }
    const double rest = std::round(100.0 - named);
    if (rest >= 1.0) words += fmt::format(", {:.0f} % all else and together", rest);
    return words;
  }

  void uncertainty(const Spread& s) {
    if (s.oil_from.empty() && s.time_from.empty() && s.reserve_from.empty()) return;
    heading("Where the spread comes from");
    std::vector<std::string> ways;
    const auto tell = [&](const std::string& label, const Influences& influences) {
      if (influences.empty()) return;
      row(label, influence_words(influences));
      const std::string way = how_to_know(influences.front().input);
      if (std::find(ways.begin(), ways.end(), way) == ways.end()) ways.push_back(way);
    };
    tell("Oil", s.oil_from);
    tell("Time", s.time_from);
    tell("To reserve", s.reserve_from);
    for (std::size_t i = 0; i < ways.size(); ++i) row(i == 0 ? "To know" : "", ways[i]);
  }

  std::string more_words(const QuarterHourMore& more) const {
    std::string words = fmt::format("would bring {} of hydrosol and ", text(more.hydrosol));
    if (more.oil >= grams(0.005)) return words + text(more.oil) + " of oil";
    if (more.oil <= grams(-0.005)) {
      return words + fmt::format("cost {} of oil, which it dissolves", text(-more.oil));
    }
    return words + "no more oil";
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
    bool any = false;
    for (const Finding& finding : plan_.findings) {
      if (finding.level != level || finding.standing || is_hazard(finding)) continue;
      if (!any) {
        heading(level == Level::refuse ? "Why" : level == Level::caution ? "Cautions" : "Notes");
      }
      any = true;
      item(finding);
    }
  }

  // A finding, and under it why it matters and whose guidance it follows.
  void item(const Finding& finding) {
    line("- ", visible(finding.text));
    if (finding.reason.empty()) return;
    line("  ", fmt::format("Reason: {} After: {}.", finding.reason, finding.follows));
  }

  void always() {
    heading("Always");
    for (const Finding& finding : plan_.findings) {
      if (!finding.standing) continue;
      line("- ", finding.follows.empty() ? finding.text
                                         : fmt::format("{} ({})", finding.text, finding.follows));
    }
    line("", "Why: `firstdrop findings`.");
  }

  // What the plant and its oil can do to people, apart from the notes on this run.
  static bool is_hazard(const Finding& finding) {
    return finding.code == "plant-hazard" || finding.code == "flash-point";
  }

  void hazards() {
    bool any = false;
    for (const Finding& finding : plan_.findings) {
      if (!is_hazard(finding)) continue;
      if (!any) heading("Hazards of this plant and its oil");
      any = true;
      line("- ", visible(finding.text));
    }
  }

  const Plan& plan_;
};

}  // namespace

std::string plan_page(const Plan& plan, const Look& look) {
  return Page(plan, look).write();
}

std::string plan_answer(const Plan& plan, const Look& look) {
  return Page(plan, look).write_answer();
}

std::string plan_head(const Plan& plan, const Look& look) {
  return Page(plan, look).write_head();
}

}  // namespace firstdrop::cli
