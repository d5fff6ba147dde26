/// @file
/// A finished plan as text: JSON, CSV, the run sheet, a picture, calendar entries. Pure: values in,
/// a string out.
#pragma once

#include <chrono>
#include <string>
#include <string_view>

#include "firstdrop/plan/plan.hpp"

namespace firstdrop {

// The JSON of a refused plan says why it is refused. Everything else here is to work from, and
// throws RefusedError for it.

/// The plan as JSON, format version 1: plain numbers in keys that end in their unit, ranges as
/// p10/p50/p90, times in minutes from heat on; keys that don't apply are left out. In texts that
/// are no UTF-8 the bytes at fault become U+FFFD.
std::string plan_json(const Plan& plan);
/// The same on one line, for many of them in one file.
std::string plan_json_line(const Plan& plan);

/// The plan's timeline as CSV (RFC 4180), under the names that it has in JSON, and "clock", the
/// local date and time when the recipe has a start. Numbers are in full; the columns always are the
/// same, and a cell is empty where its column does not apply. Throws RefusedError.
std::string timeline_csv(const Plan& plan);

/// In what form a run sheet comes.
enum class SheetFormat {
  text,      ///< 80 columns
  markdown,  ///< with task lists and tables
  html,  ///< one self-contained page to print, A4 or US Letter, with the course of the run drawn
};

/// The run sheet: what lies on the bench during the run, in the units of the recipe and in the
/// order of doing; one page where there is little to mind. The same plan gives the same bytes.
/// Throws RefusedError.
std::string run_sheet(const Plan& plan, SheetFormat format);

/// One `svg` element that stands in an HTML page or alone, 186 mm wide and 54 mm high, for black
/// ink on white paper. It needs nothing from outside, has no script and no style sheet, and says in
/// words what it shows, for readers who cannot see it. `id` begins every id in it: two pictures in
/// one page need two of them (letters, digits and hyphens, a letter first).
///
/// Bands reach from the 10th to the 90th percentile: that of oil at every level or time of the
/// typical run; that of hydrosol between the early and the late course, from the first drop to the
/// stop. Throws RefusedError.
std::string run_picture(const Plan& plan, std::string_view id = "run-picture");

/// One run of the plan, with heat on at `start`: an event for the run from heat on to heat off and
/// one for each thing to do, with alarms. Times are those of the local clock, whatever the zone
/// ("floating"). The same run at the same start has the same events by their UID, so that a newer
/// file replaces an older one; `made_at` tells which is newer.
/// Throws RefusedError; RangeError past the year 9999.
std::string run_calendar(const Plan& plan, std::chrono::local_time<std::chrono::minutes> start,
                         std::chrono::sys_seconds made_at);

}  // namespace firstdrop
