#include <fmt/core.h>

#include <algorithm>
#include <cstdint>
#include <vector>

#include "firstdrop/base/error.hpp"
#include "firstdrop/output/finding_words.hpp"
#include "firstdrop/output/write.hpp"
#include "output/bench_words.hpp"
#include "output/calendar_event.hpp"
#include "output/stop_bounds.hpp"
#include "plan/cooling.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {
namespace {

namespace chrono = std::chrono;

// How long before a moment its first alarm comes. It takes about half an hour to weigh in, fill and
// set up. It takes five minutes to fetch and weigh ice, or to walk over. Common practice, no
// source.
constexpr chrono::minutes to_set_up(30);
constexpr chrono::minutes to_come(5);

class RunCalendar {
 public:
  RunCalendar(const Plan& plan, LocalMinute start)
      : plan_(plan),
        recipe_(plan.recipe),
        run_(*plan.run),
        start_(start),
        title_(short_title(recipe_.title.empty() ? recipe_.plant->name : recipe_.title)) {}

  std::string write(chrono::sys_seconds made_at) const {
    const std::uint64_t id =
        calendar_id({recipe_.title, recipe_.plant->key, recipe_.still->key, basic_form(start_)});
    return calendar_of(events(), "run calendar", id, made_at);
  }

 private:
  std::string summary(const std::string& what) const { return what + ": " + title_; }

  LocalMinute moment(Duration at) const { return clock_time(start_, at); }
  // The time of day to show in an event at `shown`. It has the date too, if that differs.
  std::string clock(Duration at, Duration shown) const {
    const std::string whole = date_and_time(moment(at));
    const std::size_t time = whole.find(' ') + 1;
    return whole.substr(0, time) == date_and_time(moment(shown)).substr(0, time)
               ? whole.substr(time)
               : whole;
  }
  // Lead time of the alarm: from the earliest that a moment may come to when it is expected, and at
  // least the time it takes to come. No alarm is before the start of heating.
  std::vector<chrono::minutes> lead(Duration at, Duration earliest) const {
    const LocalMinute expected = moment(at);
    const chrono::minutes from_earliest = expected - moment(whole_minutes_down(earliest));
    return {std::min(std::max(from_earliest, to_come), expected - start_)};
  }
  std::vector<chrono::minutes> lead_and_moment(Duration at, Duration earliest) const {
    std::vector<chrono::minutes> alarms = lead(at, earliest);
    if (alarms.front() > chrono::minutes(0)) alarms.push_back(chrono::minutes(0));
    return alarms;
  }

  std::vector<CalendarEvent> events() const {
    const TimesPlan& times = run_.times;
    const Uncertainty& uncertainty = run_.uncertainty;
    const LocalMinute stop = moment(times.stop);
    std::vector<CalendarEvent> events;
    events.push_back({"run",
                      start_,
                      std::max(stop, start_ + chrono::minutes(1)),
                      summary("Distilling"),
                      run_words(),
                      {}});
    events.push_back({"heat-on",
                      start_,
                      {},
                      summary("Heat on"),
                      heat_on_words(),
                      {to_set_up, chrono::minutes(0)}});
    events.push_back({"boils",
                      moment(times.boil),
                      {},
                      summary("Pot boils, look"),
                      boil_words(),
                      lead(times.boil, uncertainty.boil.low)});
    events.push_back({"first-drop",
                      moment(times.first_drop),
                      {},
                      summary("First drop, look"),
                      first_drop_words(),
                      lead(times.first_drop, uncertainty.first_drop.low)});
    int number = 0;
    for (const IceChange& change : run_.cooling.ice_changes) {
      events.push_back({fmt::format("ice-{}", ++number),
                        moment(change.at),
                        {},
                        summary(fmt::format("Ice in, {}", ice(change.ice))),
                        ice_words(change),
                        lead_and_moment(change.at, change.at)});
    }
    events.push_back({"stop",
                      stop,
                      {},
                      summary(stop_title()),
                      stop_words(),
                      lead_and_moment(times.stop, times.earliest_stop)});
    const std::string change = clock_change_in_words(
        start_, std::max({stop, moment(stop_bounds(plan_).by), moment(uncertainty.stop.high)}));
    for (CalendarEvent& event : events) event.description.insert(0, change);
    std::stable_sort(events.begin(), events.end(),
                     [](const CalendarEvent& a, const CalendarEvent& b) { return a.at < b.at; });
    return events;
  }

  // --- amounts

  template <class Q>
  std::string amount(Q quantity) const {
    return text(quantity, recipe_.units);
  }
  std::string ice(Mass mass) const { return amount(ice_up(mass, recipe_.units)); }
  // Eight runs in ten are between the 10th and the 90th percentile.
  std::string between(const Range<Duration>& range, Duration shown) const {
    const std::string early = clock(range.low, shown);
    const std::string late = clock(range.high, shown);
    if (early == late) return "";
    return fmt::format(" In 8 of 10 runs: {} to {}.", early, late);
  }

  // --- words

  std::string run_words() const {
    std::string words = recipe_.title.empty() ? "" : recipe_.title + "\n";
    words += subject_in_words(recipe_) + ".\n";
    if (plan_.charge.runs > 1) {
      words += fmt::format(
          "The harvest takes {} runs. This calendar is of one of them; each has the same plan.\n",
          plan_.charge.runs);
    }
    const Volume oil = run_.uncertainty.oil_volume.typical;
    const std::string and_oil = !run_.has_oil ? ""
                                : oil < a_drop_of_oil
                                    ? " and hardly any oil that separates"
                                    : " and " + amount(oil) + " of oil that separates";
    words += fmt::format("You get about {} of hydrosol{}.\n",
                         amount(run_.uncertainty.hydrosol.typical), and_oil);
    for (const Finding& finding : plan_.findings) {
      if (is_read_first(finding))
        words += "Caution: " + finding_text(finding, plan_.recipe.units) + "\n";
    }
    return words +
           "Stay with the run from heat on to heat off. The alarms tell you when to look closely. "
           "They don't mean you can leave. All times are planned, and count from the start of "
           "heating set here. If you start later, they all move. Watch the still, not the clock.";
  }

  std::string heat_on_words() const {
    std::string words = fmt::format(
        "Weigh in {}. Pour {} of water {} into the pot. Coolant: {}. Put the receiver in "
        "place, with the outlet above the liquid. The vapour path is open from pot to "
        "receiver{}.\n",
        charge_in_words(recipe_, plan_.charge.mass), pour_text(plan_), how_warm_to_pour(recipe_),
        coolant_words(), recipe_.site.place == Place::indoors ? ", and a window is open" : "");
    words += fmt::format("Then heat on, at {} of full power. {}", amount(recipe_.setting),
                         timer_in_words(plan_));
    const std::string ice = ice_in_words(plan_);
    if (!ice.empty()) words += " Ice: " + ice + ".";
    return words;
  }

  std::string coolant_words() const {
    const Condenser& condenser = recipe_.still->condenser;
    const CoolingPlan& cooling = run_.cooling;
    switch (condenser.kind) {
      case CondenserKind::ice_bath: {
        const std::string bath = coolant_in_words(plan_) + " bath ";
        return cooling.first_ice
                   ? fmt::format("{}with {} of ice in it", bath, ice(*cooling.first_ice))
                   : bath + "without ice at first";
      }
      case CondenserKind::reservoir:
        return coolant_in_words(plan_) + ", pump running";
      case CondenserKind::run_through:
        break;
    }
    return cooling.flow
               ? fmt::format(
                     "running, {}; up to {} if the heater runs strong",
                     amount(tap_up(*cooling.flow, recipe_.units)),
                     amount(tap_up(cooling.flow_most.value_or(*cooling.flow), recipe_.units)))
               : std::string("running");
  }

  std::string boil_words() const {
    return fmt::format(
        "The pot boils, at {}. Look: is the coolant ready or running, and does steam rise through "
        "the still and nowhere else?{}",
        amount(plan_.boiling), between(run_.uncertainty.boil, run_.times.boil));
  }

  std::string first_drop_words() const {
    std::string words = fmt::format(
        "The first drop, then about {}. {} Look: does all of it drip, and does no steam "
        "leave the condenser? Steam there: heat off.",
        amount(run_.rates.distillate), heater_check_in_words(plan_));
    const std::string limit = coolant_limit_in_words(plan_);
    if (!limit.empty()) words += " " + limit;
    if (run_.cooling.distillate) {
      words += fmt::format(" It leaves no warmer than {}.", amount(*run_.cooling.distillate));
    }
    return words + between(run_.uncertainty.first_drop, run_.times.first_drop);
  }

  std::string ice_words(const IceChange& change) const {
    return fmt::format("Look for this: {}. Then, sooner or later than planned here, {}. {}",
                       sign_for_ice(plan_, change), ice_change_in_words(change.ice, recipe_.units),
                       coolant_limit_in_words(plan_));
  }

  bool by_clock() const { return run_.stops_by_clock(); }

  std::string stop_title() const {
    if (by_clock()) return "Heat off";
    return fmt::format("Heat off at {}", amount(*run_.stop.hydrosol));
  }

  std::string stop_words() const {
    const TimesPlan& times = run_.times;
    std::string words;
    if (by_clock()) {
      words = fmt::format("Heat off now, {} after the start", amount(times.stop));
      if (run_.stop.hydrosol) {
        words += fmt::format(", or sooner, at {} in the receiver", amount(*run_.stop.hydrosol));
      }
      words += ".";
    } else {
      words = fmt::format(
          "Heat off at {} in the receiver, whether that comes sooner or later than planned.",
          amount(*run_.stop.hydrosol));
      if (const auto by = run_.clock_beside_level()) {
        words += fmt::format(" Still below it at {}? Heat off then too.", clock(*by, times.stop));
      }
      words += between(run_.uncertainty.stop, times.stop);
      if (moment(timer(plan_)) < moment(times.stop)) {
        words += fmt::format(" Watch the level from {} on: a very strong heater can reach it then.",
                             clock(timer(plan_), times.stop));
      }
    }
    const std::string gauge = gauge_in_words(plan_);
    if (!gauge.empty()) words += " " + gauge;
    words += "\n" + bounds_in_words(plan_, clock(stop_bounds(plan_).by, times.stop));
    words += fmt::format(
        " Within these bounds even the worst credible run keeps its {} in the pot. Beyond them "
        "the pot may be short of water: heat off, let it cool, pour nothing into it.",
        amount(run_.water.reserve));
    return words + fmt::format("\n{} {} should be left in the pot.", after_heat_in_words(plan_),
                               amount(run_.water.left_at_stop));
  }

  const Plan& plan_;
  const Recipe& recipe_;
  const RunPlan& run_;
  LocalMinute start_;
  std::string title_;
};

}  // namespace

std::string run_calendar(const Plan& plan, LocalMinute start, chrono::sys_seconds made_at) {
  plan.runnable();
  return RunCalendar(plan, start).write(made_at);
}

}  // namespace firstdrop
