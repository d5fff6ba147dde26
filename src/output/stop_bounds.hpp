// Until when the heat may stay on: the three bounds of a plan, as values and in the one set of
// words that page, sheet, picture, calendar and campaign print, always in this order: by the level,
// after the goal's level, and by the clock for whoever cannot see the level.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/plan/plan.hpp"

namespace firstdrop {

struct StopBounds {
  /// Heat off before this much is caught; none where a jug has no mark between `level` and what
  /// would be too much.
  std::optional<Volume> before;
  std::optional<Volume> level;  ///< that ends the run; none: the clock alone does
  Duration within;              ///< of that level; whole minutes, no more than limits.absence
  Duration by;  ///< from the start of heating; whole minutes, not after times.latest
  /// Whoever sees a level that is not there by then turns the heat off; whole minutes, not before
  /// `by`. None in a run by the clock.
  std::optional<Duration> give_up;
  /// Holds for everybody. False: only for someone who has not seen the level, since a weaker heater
  /// takes longer to bring it.
  bool in_any_case = false;
};

/// Needs a plan with a run.
StopBounds stop_bounds(const Plan& plan);

/// In whole minutes, rounded down: a printed moment never is later than the one that is meant.
Duration whole_minutes_down(Duration time);

/// Whether all the hydrosol goes into one receiver, whose level then tells all that is caught.
bool one_receiver(const Plan& plan);

/// "Heat off before 1.1 L is in the receiver and within 15 min of reaching 800 mL. Level not seen:
/// heat off by 70 min (10:40). Not at 800 mL by 89 min: heat off, find out why (weak heater,
/// leak)." `clock` is the time of day of `by`, or a line to write it on; may be empty.
std::string bounds_in_words(const Plan& plan, const std::string& clock);
/// Of it: "level not seen: heat off by 70 min (10:40)".
std::string by_in_words(const Plan& plan, const std::string& clock);

/// For when to set the timer: the strongest heater is at the stop then.
Duration timer(const Plan& plan);
/// "Timer: 55 min. A very strong heater can reach 800 mL then; look from here on."
std::string timer_in_words(const Plan& plan);

/// When the pot is at its reserve and when it is dry if the heat stays on, with the strongest
/// heater, counted from the start of heating.
std::string left_on_in_words(const Plan& plan);

}  // namespace firstdrop
