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
#include "quantity/numbers_text.hpp"

namespace firstdrop {
namespace {

// More moments of one kind than this are put in one line.
constexpr std::size_t most_rows = 5;
// Steps at the bench that have no figure of the plan behind them are common practice, no source.

class SheetWriter {
 public:
  explicit SheetWriter(const Plan& plan)
      : plan_(plan),
        run_(*plan.run),
        recipe_(plan.recipe),
        still_(plan.recipe.still),
        plant_(visible(plan.recipe.plant->name)),
        start_(parse_local_minute(plan.recipe.start)) {}

  SheetContent write() {
    head();
    amounts();
    bench();
    before_heat();
    steps();
    stop();
    record();
    afterwards();
    labels();
    cautions();
    return std::move(sheet_);
  }

 private:
  // In the units of the recipe.
  template <class Quantity>
  std::string text(Quantity quantity) const {
    return firstdrop::text(quantity, recipe_.units);
  }
  std::string ice(Mass mass) const { return text(ice_up(mass, recipe_.units)); }
  template <class Quantity>
  std::string range(const Range<Quantity>& r) const {
    return span_text(text(r.low), text(r.high));
  }

  bool gas() const { return still_.heater.kind == HeaterKind::gas_burner; }
  bool indoors() const { return recipe_.site.place == Place::indoors; }
  bool glass() const { return still_.pot.material == "glass"; }
  bool hydro() const { return recipe_.method_used() == Method::hydro; }
  bool by_level() const { return !run_.stops_by_clock(); }
  bool one_receiver() const { return firstdrop::one_receiver(plan_); }
  bool parts_oil() const { return run_.uncertainty.oil_volume.high >= a_drop_of_oil; }
  std::string limit() const { return text(still_.condenser.coolant_limit.typical()); }

  void head() {
    sheet_.title = visible(recipe_.title.empty() ? "Untitled run" : recipe_.title);
    sheet_.subject =
        fmt::format("{}, {}, {} · {} · {}", plant_, to_string(recipe_.state),
                    to_string(recipe_.cut), in_words(recipe_.method_used()), visible(still_.title));
    if (has_invented_figures(still_)) sheet_.example = "Example still: measure yours.";
    sheet_.verdict = plan_.verdict == Verdict::caution ? "Go with caution" : "Go";
    sheet_.lot = lot();
    if (start_) sheet_.day = date_and_time(*start_).substr(0, 10);
    if (plan_.charge.runs > 1) {
      sheet_.runs = fmt::format("one of {} such runs", plan_.charge.runs);
    }
  }

  // The plant's key and the day, because the label must lead back to this sheet. Longer keys are
  // cut to keep the label's width. No two shipped plants share these first letters.
  std::string lot() const {
    if (!recipe_.lot.empty()) return visible(recipe_.lot);
    constexpr std::size_t most_lot_letters = 20;
    std::string code;
    for (const char c : recipe_.plant->key) {
      if (std::isalnum(static_cast<unsigned char>(c)) != 0 && code.size() < most_lot_letters) {
        code += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
      }
    }
    if (code.empty()) code = "LOT";
    if (!start_) return code + "-______";
    const std::string day = date_and_time(*start_);
    return code + "-" + day.substr(2, 2) + day.substr(5, 2) + day.substr(8, 2) +
           (plan_.charge.runs > 1 ? "-__" : "");
  }

  // --- weigh, pour, set -------------------------------------------------------------------------

  void amount(std::string what, std::string amount, std::string how) {
    sheet_.amounts.push_back({std::move(what), std::move(amount), std::move(how)});
  }

  void amounts() {
    // The step says how to load it, because there is little room here.
    const std::string how =
        hydro() ? "in the water" : fmt::format("{} full", text(plan_.charge.fill));
    amount("Herb", text(plan_.charge.mass), how + "; " + charges_in_few_words(plan_));
    amount("Water", pour_text(plan_), how_warm_to_pour(recipe_));
    coolant();
    const double share = in_percent(recipe_.setting);
    amount("Heat", text(recipe_.setting),
           share >= 99.5 ? text(still_.heater.power.typical())
                         : fmt::format("of {}", text(still_.heater.power.typical())));
  }

  // The steps say when it goes in.
  std::string expected_ice() const {
    const CoolingPlan& cooling = run_.cooling;
    const auto expected = ice_to_have_ready(cooling, recipe_.units).expected;
    if (!expected) return "none expected";
    std::string words = text(*expected) + " expected";
    if (cooling.first_ice) {
      words += cooling.ice_changes.empty()
                   ? std::string(", all at the start")
                   : fmt::format(", {} at the start", ice(*cooling.first_ice));
    }
    return words;
  }

  void coolant() {
    const Condenser& condenser = still_.condenser;
    const CoolingPlan& cooling = run_.cooling;
    const std::string cold = recipe_.site.coolant
                                 ? fmt::format("{} at most", text(*recipe_.site.coolant))
                                 : std::string("as warm as the room at most");
    const char* before_ice = cooling.first_ice ? " before the ice" : "";
    switch (condenser.kind) {
      case CondenserKind::ice_bath:
      case CondenserKind::reservoir:
        amount(condenser.kind == CondenserKind::ice_bath ? "Bath" : "Bucket",
               coolant_in_words(plan_), cold + before_ice);
        if (const auto ready = ice_to_have_ready(cooling, recipe_.units).ready) {
          amount("Ice", text(*ready), "ready; " + expected_ice());
        }
        break;
      case CondenserKind::run_through:
        amount("Tap", text(tap_up(cooling.flow.value_or(VolumeFlow()), recipe_.units)),
               fmt::format("up to {}, {}",
                           text(tap_up(cooling.flow_most.value_or(VolumeFlow()), recipe_.units)),
                           cold));
        break;
    }
  }

  // The brief text of a finding that holds for every run, to put where the step is done.
  template <class What>
  std::string always() const {
    const auto& all = plan_.findings;
    const auto said =
        std::find_if(all.begin(), all.end(), [](const Finding& f) { return f.is<What>(); });
    return said == all.end() ? "" : said->kind->brief;
  }

  // --- set up and check -------------------------------------------------------------------------

  void bench() {
    auto& list = sheet_.bench;
    list.emplace_back(indoors() ? "Still level, steady, free all round."
                                : "Out of the wind, level, steady, free all round.");
    list.push_back((indoors() ? "Window open. " : "") + always<found::AirAndDistance>());
    if (gas()) {
      list.push_back(
          fmt::format("Burner: {} clear all round, hose tried with soapy water, screen "
                      "between flame and receiver.",
                      text(metres(1))));
    } else {
      list.push_back(always<found::WetElectricity>());
    }
    if (glass()) list.emplace_back("Glass looked over: no star, crack or scratch.");
    coolant_set_up();
    list.push_back(receiver() + " " + always<found::SuckBack>());
    list.emplace_back("Gloves, glasses, towel, timer, pen.");
  }

  void coolant_set_up() {
    switch (still_.condenser.kind) {
      case CondenserKind::ice_bath:
        sheet_.bench.push_back(run_.cooling.first_ice
                                   ? fmt::format("Bath: {} of it ice, topped up with water.",
                                                 ice(*run_.cooling.first_ice))
                                   : std::string("Bath filled with cold water."));
        break;
      case CondenserKind::reservoir:
        sheet_.bench.emplace_back("Bucket full, thermometer in, pump tried.");
        break;
      case CondenserKind::run_through:
        sheet_.bench.emplace_back("Tap and hoses tried, outflow free to the drain.");
        break;
    }
  }

  std::string receiver() const {
    if (recipe_.receiver) {
      // This much comes if the person is late in the worst credible case.
      const double most = std::ceil(run_.water.most_caught / *recipe_.receiver - 1e-9);
      return most > 1 ? fmt::format(
                            "{:.0f} receivers of {} each, one under the outlet, the others at "
                            "hand.",
                            most, text(*recipe_.receiver))
                      : fmt::format("A receiver of {}.", text(*recipe_.receiver));
    }
    std::string words =
        fmt::format("Receiver: {} or more", text(neat_up(run_.water.most_caught, recipe_.units)));
    if (run_.stop.hydrosol) words += fmt::format(", a mark at {}", text(*run_.stop.hydrosol));
    return words + ".";
  }

  void before_heat() {
    auto& list = sheet_.before_heat;
    list.push_back(fmt::format("{} of water is in the pot. {}", pour_text(plan_),
                               hydro() ? "Herb in it, stirred, all of it wet."
                                       : "Herb in loosely, not pressed, clear of the outlet."));
    list.push_back("Blow into the outlet: air must pass. " + always<found::OpenPath>());
    list.push_back(fmt::format(
        "{} {}",
        still_.condenser.kind == CondenserKind::ice_bath ? "Bath is cold." : "Coolant runs.",
        timer_in_words(plan_)));
    list.push_back(always<found::StayWithIt>());
  }

  // --- the run ----------------------------------------------------------------------------------

  std::string clock(Duration at) const { return start_ ? time_of_day(*start_, at) : ""; }

  // In a row of times, the first one on another day names the day.
  std::string clock_after(std::string& day, Duration at) const {
    const std::string time = clock(at);
    const std::string its_day = time.substr(std::min<std::size_t>(time.size(), 5));
    return std::exchange(day, its_day) == its_day ? time.substr(0, 5) : time;
  }

  void step(Duration at, const std::string& range, std::string see, std::string act,
            bool key = false) {
    sheet_.steps.push_back({text(at), range, clock(at), std::move(see), std::move(act), key, true});
  }

  struct Moment {
    Duration at;
    SheetStep step;
  };

  void steps() {
    const Uncertainty& s = run_.uncertainty;
    // A person who starts earlier or later goes by the minutes.
    step(seconds(0), "", "",
         fmt::format("HEAT ON, {}. Start the timer.{}", text(recipe_.setting),
                     start_ ? " Another time than planned? Go by the minutes." : ""),
         true);
    step(run_.times.boil, range(s.boil), "The pot boils.",
         hydro() ? "Foam? Turn down until it settles." : "Outlet open? Coolant cold?");
    step(run_.times.first_drop, range(s.first_drop),
         fmt::format("First drop, then {}.", text(run_.rates.distillate)),
         fmt::format("None by {}: HEAT OFF, is the path open? {}", text(s.first_drop.high),
                     heater_check_in_words(plan_)));
    const std::string limit = coolant_limit_in_words(plan_);
    sheet_.steps.push_back(
        {"", "", "", watch(),
         "Steam at the outlet or a joint: HEAT OFF." + (limit.empty() ? "" : " " + limit), false,
         false});
    changes();
    levels();
  }

  std::string watch() const {
    const std::string every = "Every 5 min check level, drip, outlet cool";
    return still_.condenser.kind == CondenserKind::run_through
               ? every + ", tap water runs."
               : fmt::format("{}, coolant below {}.", every, limit());
  }

  // Changes of ice and receivers, in order of time.
  void changes() {
    std::vector<Moment> moments;
    const auto& ice_changes = run_.cooling.ice_changes;
    const auto& receivers = run_.receiver_changes;
    const auto row = [&](Duration at, std::string see, std::string act) {
      moments.push_back(
          {at, {text(at), "", clock(at), std::move(see), std::move(act), false, true}});
    };
    // `besides` says what is special about one of them.
    const auto list_of = [&](const auto& all, const auto& besides) {
      std::vector<std::string> times;
      std::string day;
      for (const auto& one : all) {
        times.push_back(
            (start_ ? clock_after(day, one.at) : fmt::format("{:.0f}", in_minutes(one.at))) +
            besides(one));
      }
      return fmt::format("{}{}", joined(times, ", "), start_ ? "" : " min");
    };
    const auto other_ice = [&](const IceChange& change) {
      const std::string mass = ice(change.ice);
      return mass == ice(ice_changes.front().ice) ? "" : " (" + mass + ")";
    };
    const auto nothing = [](const ReceiverChange&) { return ""; };
    const auto ice_in = [&](Mass mass) {
      return capitalised(ice_change_in_words(mass, recipe_.units)) + ".";
    };
    const auto one_change = [&](const IceChange& change) {
      row(change.at, capitalised(sign_for_ice(plan_, change)) + ".", ice_in(change.ice));
    };
    if (ice_changes.size() > most_rows) {
      // The ice before the stop doesn't depend on the coolant, so it has its own line.
      std::vector<IceChange> at_limit = ice_changes;
      std::erase_if(at_limit,
                    [&](const IceChange& change) { return is_before_stop(plan_, change); });
      row(at_limit.front().at,
          fmt::format("Each time the coolant is at {}, about at {}.", limit(),
                      list_of(at_limit, other_ice)),
          ice_in(at_limit.front().ice));
      for (const IceChange& change : ice_changes) {
        if (is_before_stop(plan_, change)) one_change(change);
      }
    } else {
      for (const IceChange& change : ice_changes) one_change(change);
    }
    if (receivers.size() > most_rows) {
      row(receivers.front().at,
          fmt::format("Each time the receiver is full, about at {}.", list_of(receivers, nothing)),
          "Next receiver under the outlet.");
    } else {
      for (const ReceiverChange& change : receivers) {
        row(change.at, fmt::format("Receiver full: {} in all.", text(change.caught)),
            "Next receiver under the outlet.");
      }
    }
    std::stable_sort(moments.begin(), moments.end(),
                     [](const Moment& a, const Moment& b) { return a.at < b.at; });
    for (Moment& moment : moments) sheet_.steps.push_back(std::move(moment.step));
  }

  void levels() {
    std::string day;
    std::vector<std::string> levels;
    for (const TimelinePoint& point : run_.timeline) {
      if (point.phase != Phase::running || !point.event.empty()) continue;
      levels.push_back(fmt::format("{} at {}", text(point.hydrosol),
                                   start_ ? clock_after(day, point.at) : text(point.at)));
    }
    if (levels.empty()) return;
    sheet_.levels = fmt::format("{}: {}.", one_receiver() ? "In the receiver" : "Caught in all",
                                joined(levels, ", "));
  }

  // --- the stop ---------------------------------------------------------------------------------

  std::string in_receivers(Volume level) const {
    if (one_receiver()) return fmt::format("{} in the receiver", text(level));
    if (run_.receiver_changes.empty()) return fmt::format("{} in all", text(level));
    const Volume before = run_.receiver_changes.back().caught;
    return fmt::format("{} in all, {} in the last receiver", text(level),
                       text(std::max(level - before, millilitres(0))));
  }

  void stop() {
    const Uncertainty& s = run_.uncertainty;
    std::string see;
    if (by_level()) {
      sheet_.stop = text(*run_.stop.hydrosol);
      // A cooling pot sucks back whatever the outlet dips into.
      see = in_receivers(*run_.stop.hydrosol);
      if (text(s.stop.low) != text(s.stop.high)) {
        see += fmt::format(" ({})", range(s.stop));
      }
      see += ", outlet above it.";
      if (const auto by = run_.clock_beside_level()) {
        see += fmt::format(" Still below after {}? Then too.", text(*by));
      }
    } else {
      sheet_.stop = text(*run_.stop.clock);
      see = sheet_.stop + " by the clock, " +
            (run_.stop.hydrosol ? "or " + in_receivers(*run_.stop.hydrosol)
                                : std::string("however much has come"));
      see += ". Outlet above the liquid.";
    }
    const std::string gauge = by_level() ? gauge_in_words(plan_) : "";
    if (!gauge.empty()) see += " " + gauge;
    const std::string more = more_after_heat_in_words(plan_);
    if (!more.empty()) see += " " + more + ".";
    step(run_.times.stop, "", see, "HEAT OFF. Coolant stays on.", true);
    const Duration by = stop_bounds(plan_).by;
    sheet_.latest = bounds_in_words(plan_, start_ ? time_of_day(*start_, by) : "__:__");
    sheet_.forgotten = left_on_in_words(plan_) + " " + always<found::RanDry>();
    sheet_.yield = fmt::format("Expect {} of hydrosol", text(s.hydrosol.typical));
    if (text(s.hydrosol.low) != text(s.hydrosol.high)) {
      sheet_.yield += fmt::format(" ({})", range(s.hydrosol));
    }
    sheet_.yield +=
        parts_oil()
            ? fmt::format(" and {} of oil ({}); {} left in the pot.", text(s.oil_volume.typical),
                          range(s.oil_volume), text(run_.water.left_at_stop))
            : fmt::format(", no oil to part; {} left in the pot.", text(run_.water.left_at_stop));
  }

  // --- write down -------------------------------------------------------------------------------

  void record() {
    const auto box = [&](std::string what, std::string unit) {
      sheet_.boxes.push_back({std::move(what), std::move(unit)});
    };
    // In the unit that the plan uses.
    const auto unit_of = [](const std::string& amount) {
      return amount.substr(std::min(amount.size(), amount.find(' ') + 1));
    };
    box("Herb", unit_of(text(plan_.charge.mass)));
    box("Water poured", unit_of(pour_text(plan_)));
    box("Hydrosol", unit_of(text(run_.uncertainty.hydrosol.typical)));
    box("Oil", "mL");
    box("pH", "");
    box("Left in pot", unit_of(text(run_.water.left_at_stop)));
    if (still_.condenser.kind != CondenserKind::run_through) {
      box("Coolant at the end", recipe_.units == Units::us ? "°F" : "°C");
    }
    if (const auto ready = ice_to_have_ready(run_.cooling, recipe_.units).ready) {
      box("Ice used", unit_of(text(*ready)));
    }
    box("Time for " + heater_check(run_.rates.distillate_most, recipe_.units).mark, "min");
  }

  // --- afterwards -------------------------------------------------------------------------------

  void afterwards() {
    auto& list = sheet_.afterwards;
    list.push_back("Let it cool where it is, path open. " + always<found::AfterHeatOff>());
    list.push_back(always<found::SteamScalds>());
    list.push_back(always<found::NeatOil>());
    if (parts_oil()) {
      list.push_back(fmt::format("Let it stand; {} into small dark bottles, filled full.",
                                 oil_place(recipe_.plant) == OilPlace::sinks
                                     ? "draw the oil off below"
                                     : "lift the oil off"));
    }
    list.push_back(
        fmt::format("Hydrosol: bottles rinsed with boiling water, filled full, labelled, dark, at "
                    "most {}. Use within weeks, and not when cloudy, stringy or sour.",
                    text(celsius(5))));
    list.emplace_back("Wash all hot with a drop of soap, rinse, dry open.");
  }

  void labels() {
    const Plant& plant = recipe_.plant;
    const std::string name = capitalised(plant_);
    const std::string how = fmt::format("{}, {}, {}", visible(plant.part), to_string(recipe_.state),
                                        in_words(recipe_.method_used()));
    const std::string lot =
        fmt::format("Lot {}, {}", sheet_.lot, sheet_.day.empty() ? "____-__-__" : sheet_.day);
    const auto label = [&](const char* what, const std::string& unit, const char* keep,
                           const char* mind) {
      sheet_.labels.push_back(
          {fmt::format("{} {}, ______ {}", name, what, unit),
           {fmt::format("{}, {}", visible(plant.latin), how), lot, keep, mind}});
    };
    label("hydrosol", volume_unit(), "Cold and dark. Use within weeks.",
          "Not in eyes, on wounds, on infants.");
    if (!parts_oil()) return;
    label("oil", "mL", "Cold and dark. Keep from children.", "Not neat on skin, not by mouth.");
  }

  std::string volume_unit() const { return recipe_.units == Units::us ? "fl oz" : "mL"; }

  void cautions() {
    for (const Finding& finding : plan_.findings) {
      if (is_read_first(finding)) {
        sheet_.cautions.push_back(visible(finding_text(finding, recipe_.units)));
      } else if (finding.is<found::PlantHazard>() || finding.is<found::FlashPoint>()) {
        sheet_.hazards.push_back(visible(finding_text(finding, recipe_.units)));
      }
    }
    sheet_.footing = fmt::format(
        "{} Planned with firstdrop from {}. Times from heat on. Steps "
        "without a figure are common practice. A plan is no promise: watch the still.",
        always<found::LocalRules>(), in_words(plan_.source_count));
  }

  const Plan& plan_;
  const RunPlan& run_;
  const Recipe& recipe_;
  const Still& still_;
  std::string plant_;
  std::optional<LocalMinute> start_;
  SheetContent sheet_;
};

}  // namespace

SheetContent sheet_content(const Plan& plan) {
  return SheetWriter(plan).write();
}

}  // namespace firstdrop
