/// @file
/// Writes a finished plan as text: JSON, CSV, the run sheet, a picture, calendar entries. These are
/// pure functions: values in, a string out.
#pragma once

#include <chrono>
#include <string>
#include <string_view>

#include "firstdrop/plan/plan.hpp"

namespace firstdrop {

// The JSON of a refused plan says why it is refused. Every other output here is meant to be worked
// from, so it throws RefusedError for a refused plan.

/// The plan as JSON, format version 1. Numbers are plain, in keys that end in their unit. Ranges
/// are p10/p50/p90, and times are in minutes from the start of heating. Keys that don't apply are
/// left out. In texts that aren't valid UTF-8, the invalid bytes become U+FFFD.
std::string plan_json(const Plan& plan);
/// The same JSON on one line, for files that hold many plans.
std::string plan_json_line(const Plan& plan);

/// The plan's timeline as CSV (RFC 4180). Columns have the names that they have in JSON. The extra
/// column "clock" is the local date and time, when the recipe has a start. Numbers aren't rounded.
/// The columns are always the same; a cell is empty where its column doesn't apply. Throws
/// RefusedError.
std::string timeline_csv(const Plan& plan);

/// The formats of a run sheet.
enum class SheetFormat {
  text,      ///< 80 columns
  markdown,  ///< with task lists and tables
  html,      ///< one self-contained page to print, A4 or US Letter, with a drawing of the run
};

/// The run sheet: the paper that lies on the bench during the run. It is in the units of the recipe
/// and in working order, and fits on one page when there is little to warn of. The same plan gives
/// the same bytes. Throws RefusedError.
std::string run_sheet(const Plan& plan, SheetFormat format);

/// A drawing of the run, as one `svg` element, 186 mm wide and 54 mm high, for black ink on white
/// paper. It can stand in an HTML page or alone. It needs no external files and has no script and
/// no style sheet. A text description is included for readers who can't see it. `id` starts every
/// id in the element, so two pictures in one page need different values (letters, digits and
/// hyphens, a letter first).
///
/// Bands reach from the 10th to the 90th percentile. The band of the oil is at each level or time
/// of the nominal run. The band of the hydrosol is between an early and a late run, from the first
/// drop to the stop. Throws RefusedError.
std::string run_picture(const Plan& plan, std::string_view id = "run-picture");

/// An iCalendar file for one run of the plan, with heating started at `start`. It has one event for
/// the run, from the start of heating to heat off, and one for each thing to do, with alarms. Times
/// are those of the local clock in any zone ("floating").
///
/// The same run at the same start gives events with the same UIDs, so that a newer file replaces an
/// older one; `made_at` tells which is newer. Throws RefusedError; throws RangeError past the year
/// 9999.
std::string run_calendar(const Plan& plan, std::chrono::local_time<std::chrono::minutes> start,
                         std::chrono::sys_seconds made_at);

}  // namespace firstdrop
