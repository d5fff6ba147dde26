/// @file
/// The clock on the wall at the bench: local time to the minute, without a time zone. Every day has
/// 24 hours here. Without a zone, it isn't known whether the clocks change during a run;
/// clocks_may_change() says when to warn about it.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "firstdrop/base/error.hpp"
#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// A moment on the clock at the bench.
using LocalMinute = std::chrono::local_time<std::chrono::minutes>;
/// A day of the Gregorian calendar at the bench.
using LocalDay = std::chrono::local_days;

/// What parse_local_minute() accepts, for messages.
inline constexpr const char* local_minute_form =
    "a day and time that exist, from 1900 on, as \"2026-06-20T09:30\"";

/// Reads a day, T and a time with 24 hours, "2026-06-20T09:30" (ISO 8601), or a day, a blank and
/// any time of day, "2026-06-20 9:30 am". None if that day or time doesn't exist or the text holds
/// anything else.
std::optional<LocalMinute> parse_local_minute(std::string_view text);
/// The same. The day may also be "today" or "tomorrow", where this day is today. For options: a
/// file with "today" in it would mean something else tomorrow.
std::optional<LocalMinute> parse_local_minute(std::string_view text, LocalDay today);

/// What parse_local_day() accepts, for messages.
inline constexpr const char* local_day_form = "a day that exists, from 1900 on, as \"2026-06-20\"";
/// What parse_time_of_day() accepts, for messages.
inline constexpr const char* time_of_day_form = "a time of day, as \"09:30\"";

/// Reads "YYYY-MM-DD" (ISO 8601) from the year 1900 on. None if that day doesn't exist or the text
/// holds anything else.
std::optional<LocalDay> parse_local_day(std::string_view text);

/// Reads a time from 00:00 to 23:59, "09:30" or "9:30", or one with 12 hours, "9:30 am", "9 PM" or
/// "9:30 p.m.". Gives the minutes after midnight. None for anything else.
std::optional<std::chrono::minutes> parse_time_of_day(std::string_view text);

/// What is wrong with a text that isn't read, and what to write. They lack the file and the
/// pointer.
Fault local_day_fault(std::string_view text);
Fault time_of_day_fault(std::string_view text);
Fault local_minute_fault(std::string_view text);

// Regular expressions (ECMAScript) for the texts that are read, except that they take days that a
// month doesn't have, and years before 1900.
std::string local_day_pattern();
std::string time_of_day_pattern();
std::string local_minute_pattern();

/// "2026-06-20T09:30", as parse_local_minute() reads it.
std::string local_minute_text(LocalMinute minute);

/// "2026-06-20". Range: the years 0 to 9999.
std::string day_text(LocalDay day);

/// "Mon" to "Sun".
std::string weekday_text(LocalDay day);

/// The clock time `at` after `start`, to the nearest minute; `at` may be negative.
/// Throws RangeError past the year 9999, because four digits can't write such a year.
LocalMinute clock_time(LocalMinute start, Duration at);

/// The first day in whose night the clocks may change between these two moments. In some time zone
/// they may change from 22:00 on the evening before to 04:00, on a Friday, Saturday or Sunday, in
/// February to April or September to November. All changes of 2024 to 2027 in the IANA time zone
/// database are in these nights.
std::optional<LocalDay> clocks_may_change(LocalMinute from, LocalMinute to);

/// "2026-06-20 09:30", a form that spreadsheets and people recognise as a date with a time.
std::string date_and_time(LocalMinute minute);

/// The same moment as clock_time(), without the date: "09:30", or "00:10 +1d" on the next day. Does
/// not throw past the year 9999.
std::string time_of_day(LocalMinute start, Duration at);
/// The same; empty without a start.
std::string time_of_day_if_known(std::optional<LocalMinute> start, Duration at);

}  // namespace firstdrop
