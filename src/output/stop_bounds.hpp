// How long the heat may stay on: the three bounds of a plan, as values and as the one text that
// page, sheet, picture, calendar and campaign print. The order is always the same: a level never to
// reach, a time after reaching the goal's level, and a clock time for a person who can't see the
// level.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/plan/plan.hpp"

namespace firstdrop {

struct StopBounds {
  /// Turn the heat off before this much is caught. None where the jug has no mark between `level`
  /// and the highest safe level.
  std::optional<Volume> before;
  std::optional<Volume> level;  ///< that ends the run; none if the clock alone does
  Duration within;              ///< after reaching `level`; whole minutes, at most limits.absence
  Duration by;  ///< from the start of heating; whole minutes, not after times.latest
  /// If the level hasn't been reached by this time, turn the heat off. Whole minutes, not before
  /// `by`. None in a run by the clock.
  std::optional<Duration> give_up;
  /// Whether `by` applies in any case. If false, it is only for a person who hasn't seen the level,
  /// because a weaker heater takes longer to reach it.
  bool in_any_case = false;
};

/// Needs a plan with a run.
StopBounds stop_bounds(const Plan& plan);

/// Rounds down to whole minutes, so that a printed moment is never later than the actual one.
Duration whole_minutes_down(Duration time);

/// Whether one receiver takes all the hydrosol. Then its level shows everything that is caught.
bool one_receiver(const Plan& plan);

/// The bounds as text: "Heat off before 1.1 L is in the receiver and within 15 min of reaching 800
/// mL. Jug not checked: heat off by 70 min (10:40). Not at 800 mL by 89 min: heat off, find out why
/// (weak heater, leak)." `clock` is the time of day of `by`, or a line to write it on. It may be
/// empty.
std::string bounds_in_words(const Plan& plan, const std::string& clock);
/// The part of it about the clock: "jug not checked: heat off by 70 min (10:40)".
std::string by_in_words(const Plan& plan, const std::string& clock);

/// The time to set the timer to: when the strongest heater can reach the stop.
Duration timer(const Plan& plan);
/// "Timer: 55 min. A very strong heater can reach 800 mL then; look from here on."
std::string timer_in_words(const Plan& plan);

/// When the pot is down to its reserve and when it is dry, if the heat stays on with the strongest
/// heater. Times are from the start of heating.
std::string left_on_in_words(const Plan& plan);

}  // namespace firstdrop
