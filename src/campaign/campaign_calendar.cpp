#include "campaign/campaign_calendar.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "campaign/campaign_content.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/finding_words.hpp"
#include "output/bench_words.hpp"
#include "output/calendar_event.hpp"
#include "output/stop_bounds.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {
namespace {

namespace chrono = std::chrono;

// Weighing in, filling and setting up take about half an hour. Ice takes a day and a night to
// freeze. Common practice, no source.
constexpr chrono::minutes to_set_up(30);
constexpr chrono::days to_freeze(1);

class Calendar {
 public:
  explicit Calendar(const CampaignPlan& plan) : plan_(plan), units_(plan.campaign.units) {}

  std::string write(chrono::sys_seconds made_at) const {
    const Campaign& campaign = plan_.campaign;
    std::vector<std::string> texts = {campaign.title, day_text(campaign.bench.first_day)};
    for (const WorkOrder& order : campaign.work) {
      const Plant& plant = order.recipe.plant;
      const Still& still = order.recipe.still;
      texts.insert(texts.end(), {order.recipe.title, plant.key, still.key});
    }
    return calendar_of(events(), "campaign calendar", calendar_id(texts), made_at);
  }

 private:
  template <class Quantity>
  std::string text(Quantity quantity) const {
    return firstdrop::text(quantity, units_);
  }
  std::string title_of(std::size_t work) const {
    const Recipe& recipe = plan_.work[work].plan.recipe;
    const Plant& plant = recipe.plant;
    return recipe.title.empty() ? plant.name : recipe.title;
  }

  std::vector<CalendarEvent> events() const {
    std::vector<CalendarEvent> events;
    for (const CampaignDay& day : plan_.days) {
      if (day.needs.ice_ready) events.push_back(freezing(day));
      for (const CampaignRun& run : day.runs) events.push_back(running(run, day));
    }
    std::stable_sort(events.begin(), events.end(),
                     [](const CalendarEvent& a, const CalendarEvent& b) { return a.at < b.at; });
    return events;
  }

  CalendarEvent freezing(const CampaignDay& day) const {
    const LocalMinute opens = plan_.campaign.bench.opens(day.day);
    CalendarEvent event;
    std::string date = day_text(day.day);
    event.key = "freeze-" + date;
    event.at = opens - to_freeze;
    event.summary =
        fmt::format("Freeze {} of ice for {}", text(*day.needs.ice_ready), weekday_text(day.day));
    event.description = fmt::format(
        "Have {} of ice ready on {}, for {}: enough for any heater. {} is expected to be used.\n"
        "Both are rounded up run by run.",
        text(*day.needs.ice_ready), date_and_time(opens),
        day.runs.size() == 1 ? std::string("one run") : fmt::format("{} runs", day.runs.size()),
        day.needs.ice ? text(*day.needs.ice) : "None");
    event.alarms = {chrono::minutes(0)};
    return event;
  }

  CalendarEvent running(const CampaignRun& run, const CampaignDay& day) const {
    const CampaignWork& work = plan_.work[run.work];
    CalendarEvent event;
    event.key = fmt::format("run-{}", run.number);
    event.at = run.heat_on;
    event.end = run.done_by;
    event.summary = fmt::format("Run {}: {}", run.number, short_title(title_of(run.work)));
    event.description = clock_change_in_words(run.heat_on, run.done_by);
    event.description += fmt::format(
        "{}\n{}.\nHeat on at {}. The planned stop is at {}. {}\nThe bench is kept until {}, "
        "which is no limit for the heat.\n",
        title_of(run.work), one_run_in_words(work), clock(run.heat_on), clock(run.stop),
        bounds_in_words(work.plan, clock(run.heat_off_by)), clock(run.done_by));
    if (&run == &day.runs.front()) event.description += day_in_words(day);
    for (const Finding& finding : work.plan.findings) {
      if (finding.level == Level::caution)
        event.description += "Caution: " + finding_text(finding, work.plan.recipe.units) + "\n";
    }
    for (const CampaignProblem& caution : work.cautions) {
      event.description += "Caution: " + caution.text + "\n";
    }
    event.description +=
        "Work from the run's own sheet, and stay with it from heat on to heat off. Watch the "
        "still, not the clock. If the run before is late, this one moves with it.";
    event.alarms = {to_set_up, chrono::minutes(0)};
    return event;
  }

  static std::string clock(LocalMinute at) {
    const std::string whole = date_and_time(at);
    return whole.substr(whole.find(' ') + 1);
  }

  std::string day_in_words(const CampaignDay& day) const {
    std::string words = "This day takes";
    for (const auto& [index, count] : runs_by_work(day)) {
      const CampaignWork& work = plan_.work[index];
      const Recipe& recipe = work.plan.recipe;
      words +=
          fmt::format(" {} ({}),", charge_in_words(recipe, work.plan.charge.mass * double(count)),
                      to_string(recipe.state));
    }
    words += fmt::format(" {} of water for the pot", text(day.needs.pot_water));
    if (day.needs.ice_ready) {
      words += fmt::format(" and {} of ice to have ready", text(*day.needs.ice_ready));
    }
    return words + ".\n";
  }

  const CampaignPlan& plan_;
  const Units units_;
};

}  // namespace

std::string campaign_calendar(const CampaignPlan& plan, chrono::sys_seconds made_at) {
  if (!plan.may_be_run()) {
    throw RefusedError("some of this campaign has no day, so it has no calendar");
  }
  return Calendar(plan).write(made_at);
}

}  // namespace firstdrop
