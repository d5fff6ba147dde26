#include "output/stop_bounds.hpp"

#include <fmt/core.h>

#include <cmath>

#include "base/text_layout.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {

StopBounds stop_bounds(const Plan& plan) {
  const RunPlan& run = *plan.run;
  StopBounds bounds;
  bounds.level = run.stop.hydrosol;
  if (!bounds.level || run.water.never_beyond > *bounds.level * (1.0 + 1e-9)) {
    bounds.before = run.water.never_beyond;
  }
  bounds.within = whole_minutes_down(plan.recipe.limits.absence);
  bounds.by = whole_minutes_down(run.times.latest);
  if (bounds.level && !run.stops_by_clock()) {
    bounds.give_up = whole_minutes_down(run.times.give_up);
  }
  // True if the clock ends the run before even the strongest heater reaches the level.
  bounds.in_any_case = run.stops_by_clock() &&
                       (!bounds.level || run.times.stop_worst >= *run.stop.clock * (1.0 - 1e-9));
  return bounds;
}

Duration whole_minutes_down(Duration time) {
  return minutes(std::floor(in_minutes(time) + 1e-9));
}

bool one_receiver(const Plan& plan) {
  const RunPlan& run = *plan.run;
  // If the receiver is far too small, no changes are planned.
  return run.receiver_changes.empty() &&
         !(plan.recipe.receiver_volume && *plan.recipe.receiver_volume < run.water.distilled);
}

std::string by_in_words(const Plan& plan, const std::string& clock) {
  const StopBounds bounds = stop_bounds(plan);
  return fmt::format("{}: heat off by {}{}", bounds.in_any_case ? "in any case" : "jug not checked",
                     text(bounds.by), clock.empty() ? "" : " (" + clock + ")");
}

std::string bounds_in_words(const Plan& plan, const std::string& clock) {
  const StopBounds bounds = stop_bounds(plan);
  const Units units = plan.recipe.units;
  std::string words = "Heat off ";
  if (bounds.before) {
    words += fmt::format("before {} is {}", text(*bounds.before, units),
                         one_receiver(plan) ? "in the receiver" : "caught in total");
  }
  if (bounds.level) {
    if (bounds.before) words += " and ";
    const std::string level = text(*bounds.level, units);
    words += bounds.within < minutes(1)
                 ? "at once at " + level
                 : fmt::format("within {} of reaching {}", text(bounds.within), level);
  }
  words += ". " + capitalised(by_in_words(plan, clock)) + ".";
  if (!bounds.give_up) return words;
  return words + fmt::format(" Not at {} by {}: heat off, find out why (weak heater, leak).",
                             text(*bounds.level, units), text(*bounds.give_up));
}

Duration timer(const Plan& plan) {
  return whole_minutes_down(plan.run->times.earliest_stop);
}

std::string timer_in_words(const Plan& plan) {
  const RunPlan& run = *plan.run;
  const std::string at = text(timer(plan));
  if (run.stop.hydrosol &&
      !(run.stop.clock && run.times.earliest_stop >= *run.stop.clock * (1.0 - 1e-9))) {
    return fmt::format("Timer: {}. A very strong heater can reach {} then; look from here on.", at,
                       text(*run.stop.hydrosol, plan.recipe.units));
  }
  return fmt::format("Timer: {}, the stop.", at);
}

std::string left_on_in_words(const Plan& plan) {
  const TimesPlan& times = plan.run->times;
  return fmt::format(
      "Heat left on? With the strongest heater the pot is down to its reserve ({}) {} after the "
      "start, dry after {}.",
      text(plan.run->water.reserve, plan.recipe.units),
      text(whole_minutes_down(times.reserve_worst)), text(whole_minutes_down(times.dry_worst)));
}

}  // namespace firstdrop
