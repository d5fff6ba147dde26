// The clock on the wall at the bench: local time to the minute, without a zone. Every day has 24
// hours here; a clock that is put forward or back during a run is not known of.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "firstdrop/quantity.hpp"

namespace firstdrop {

using LocalMinute = std::chrono::local_time<std::chrono::minutes>;

/// What parse_local_minute() takes, for messages.
inline constexpr const char* local_minute_form =
    "a day and time that exist, as \"2026-06-20T09:30\"";

/// Reads "YYYY-MM-DDTHH:MM" (ISO 8601), if there is such a day and time and nothing else.
std::optional<LocalMinute> parse_local_minute(std::string_view text);

/// The minute nearest to `at` after `start`.
/// Throws RangeError past the year 9999, which no form of four figures can write.
LocalMinute clock_time(LocalMinute start, Duration at);

/// "2026-06-20 09:30": spreadsheets take it for a date with a time, and so do people.
std::string date_and_time(LocalMinute minute);

/// The same moment as clock_time() for someone who knows the day: "09:30", a day later
/// "00:10 +1d".
std::string time_of_day(LocalMinute start, Duration at);

}  // namespace firstdrop
