/// @file
/// The clock on the wall at the bench: local time to the minute, without a zone. Every day has 24
/// hours here. Whether a clock is put forward or back during a run no one can tell without a zone;
/// clocks_may_change() tells when to warn of it.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// A moment on the clock at the bench.
using LocalMinute = std::chrono::local_time<std::chrono::minutes>;
/// A day of its calendar (Gregorian).
using LocalDay = std::chrono::local_days;

/// What parse_local_minute() takes, for messages.
inline constexpr const char* local_minute_form =
    "a day and time that exist, from 1900 on, as \"2026-06-20T09:30\"";

/// Reads "YYYY-MM-DDTHH:MM" (ISO 8601) from the year 1900 on, if there is such a day and time and
/// nothing else.
std::optional<LocalMinute> parse_local_minute(std::string_view text);

/// What parse_local_day() takes, for messages.
inline constexpr const char* local_day_form = "a day that exists, from 1900 on, as \"2026-06-20\"";
/// What parse_time_of_day() takes, for messages.
inline constexpr const char* time_of_day_form = "a time of day, as \"09:30\"";

/// Reads "YYYY-MM-DD" (ISO 8601) from the year 1900 on, if there is such a day and nothing else.
std::optional<LocalDay> parse_local_day(std::string_view text);

/// Reads "HH:MM" from 00:00 to 23:59, as minutes after midnight.
std::optional<std::chrono::minutes> parse_time_of_day(std::string_view text);

/// "2026-06-20". Range: the years 0 to 9999.
std::string day_text(LocalDay day);

/// "Mon" to "Sun".
std::string weekday_text(LocalDay day);

/// The minute nearest to `at` after `start`; `at` may be below zero.
/// Throws RangeError past the year 9999, which no form of four figures can write.
LocalMinute clock_time(LocalMinute start, Duration at);

/// The day in whose small hours clocks may be put forward or back between these two moments; the
/// first, if there are several. In some time zone it may happen from 22:00 to 04:00 in a night to a
/// Friday, Saturday or Sunday of February to April or September to November: all changes of 2024
/// to 2027 in the IANA time zone database lie there.
std::optional<LocalDay> clocks_may_change(LocalMinute from, LocalMinute to);

/// "2026-06-20 09:30": spreadsheets take it for a date with a time, and so do people.
std::string date_and_time(LocalMinute minute);

/// The same moment as clock_time() for someone who knows the day: "09:30", a day later
/// "00:10 +1d". Throws nothing past the year 9999.
std::string time_of_day(LocalMinute start, Duration at);

}  // namespace firstdrop
