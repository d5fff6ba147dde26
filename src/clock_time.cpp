#include "firstdrop/clock_time.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "firstdrop/error.hpp"

namespace firstdrop {
namespace {

namespace chrono = std::chrono;

// To the nearest minute. Beyond nineteen thousand years, past the last clock time, it stays.
chrono::minutes whole_minutes(Duration at) {
  constexpr double most = 1e10;
  return chrono::minutes(std::llround(std::clamp(in_minutes(at), -most, most)));
}

}  // namespace

std::optional<LocalMinute> parse_local_minute(std::string_view text) {
  constexpr std::string_view form = "0000-00-00T00:00";
  if (text.size() != form.size()) return std::nullopt;
  for (std::size_t i = 0; i < form.size(); ++i) {
    const bool digit = text[i] >= '0' && text[i] <= '9';
    if (form[i] == '0' ? !digit : text[i] != form[i]) return std::nullopt;
  }
  const auto number = [&](std::size_t from, std::size_t count) {
    int value = 0;
    for (const char figure : text.substr(from, count)) value = value * 10 + (figure - '0');
    return value;
  };
  const chrono::year_month_day day{chrono::year(number(0, 4)),
                                   chrono::month(static_cast<unsigned>(number(5, 2))),
                                   chrono::day(static_cast<unsigned>(number(8, 2)))};
  const chrono::hours hour(number(11, 2));
  const chrono::minutes minute(number(14, 2));
  if (!day.ok() || hour >= chrono::hours(24) || minute >= chrono::minutes(60)) return std::nullopt;
  return chrono::local_days(day) + hour + minute;
}

LocalMinute clock_time(LocalMinute start, Duration at) {
  constexpr chrono::local_days end_of_9999 =
      chrono::local_days(chrono::year(10000) / chrono::January / 1);
  const LocalMinute minute = start + whole_minutes(at);
  if (minute >= end_of_9999) throw RangeError("a clock time past the year 9999; start earlier");
  return minute;
}

std::string date_and_time(LocalMinute minute) {
  const auto midnight = chrono::floor<chrono::days>(minute);
  const chrono::year_month_day day(midnight);
  const chrono::hh_mm_ss time(minute - midnight);
  return fmt::format("{:04}-{:02}-{:02} {:02}:{:02}", int(day.year()), unsigned(day.month()),
                     unsigned(day.day()), time.hours().count(), time.minutes().count());
}

std::string time_of_day(LocalMinute start, Duration at) {
  const LocalMinute minute = start + whole_minutes(at);
  const auto midnight = chrono::floor<chrono::days>(minute);
  const chrono::hh_mm_ss time(minute - midnight);
  const auto days = (midnight - chrono::floor<chrono::days>(start)).count();
  return fmt::format("{:02}:{:02}{}", time.hours().count(), time.minutes().count(),
                     days > 0 ? fmt::format(" +{}d", days) : "");
}

}  // namespace firstdrop
