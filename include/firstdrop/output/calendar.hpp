/// @file
/// A planned run as an iCalendar file (RFC 5545), for the phone that calls people to the still.
#pragma once

#include <chrono>
#include <string>

#include "firstdrop/plan/plan.hpp"
#include "firstdrop/quantity/clock_time.hpp"

namespace firstdrop {

/// One run of the plan, with heat on at `start`: an event for the run from heat on to heat off and
/// one for each thing to do, with alarms. Times are those of the local clock, whatever the zone
/// ("floating"). The same run at the same start has the same events by their UID, so that a newer
/// file replaces an older one; `made_at` tells which is newer.
/// Throws InputError for a refused plan: nobody shall work from it; RangeError past the year 9999.
std::string run_calendar(const Plan& plan, LocalMinute start, std::chrono::sys_seconds made_at);

}  // namespace firstdrop
