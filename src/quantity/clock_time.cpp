#include "quantity/clock_time.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "firstdrop/base/error.hpp"

namespace firstdrop {
namespace {

namespace chrono = std::chrono;

// Rounds to the nearest minute. It is limited to 1e10 min (19 000 years), which is past the last
// clock time.
chrono::minutes whole_minutes(Duration at) {
  constexpr double most = 1e10;
  return chrono::minutes(std::llround(std::clamp(in_minutes(at), -most, most)));
}

// Whether the text has a digit wherever the form has a zero, and otherwise equals the form.
bool has_form(std::string_view text, std::string_view form) {
  if (text.size() != form.size()) return false;
  for (std::size_t i = 0; i < form.size(); ++i) {
    const bool digit = text[i] >= '0' && text[i] <= '9';
    if (form[i] == '0' ? !digit : text[i] != form[i]) return false;
  }
  return true;
}

int number_at(std::string_view text, std::size_t from, std::size_t count) {
  int value = 0;
  for (const char figure : text.substr(from, count)) value = value * 10 + (figure - '0');
  return value;
}

bool clocks_may_change_on(LocalDay day) {
  const chrono::weekday weekday(day);
  if (weekday != chrono::Friday && weekday != chrono::Saturday && weekday != chrono::Sunday) {
    return false;
  }
  const chrono::month month = chrono::year_month_day(day).month();
  return (month >= chrono::February && month <= chrono::April) ||
         (month >= chrono::September && month <= chrono::November);
}

// No run takes place before this year.
constexpr int first_year = 1900;

}  // namespace

std::optional<LocalMinute> parse_local_minute(std::string_view text) {
  const std::size_t at = text.find('T');
  if (at == std::string_view::npos) return std::nullopt;
  const auto day = parse_local_day(text.substr(0, at));
  const auto time = parse_time_of_day(text.substr(at + 1));
  if (!day || !time) return std::nullopt;
  return *day + *time;
}

std::optional<LocalDay> parse_local_day(std::string_view text) {
  if (!has_form(text, "0000-00-00")) return std::nullopt;
  const chrono::year_month_day day{chrono::year(number_at(text, 0, 4)),
                                   chrono::month(static_cast<unsigned>(number_at(text, 5, 2))),
                                   chrono::day(static_cast<unsigned>(number_at(text, 8, 2)))};
  if (!day.ok() || int(day.year()) < first_year) return std::nullopt;
  return LocalDay(day);
}

std::optional<chrono::minutes> parse_time_of_day(std::string_view text) {
  if (!has_form(text, "00:00")) return std::nullopt;
  const chrono::hours hour(number_at(text, 0, 2));
  const chrono::minutes minute(number_at(text, 3, 2));
  if (hour >= chrono::hours(24) || minute >= chrono::minutes(60)) return std::nullopt;
  return hour + minute;
}

std::string day_text(LocalDay day) {
  const chrono::year_month_day date(day);
  return fmt::format("{:04}-{:02}-{:02}", int(date.year()), unsigned(date.month()),
                     unsigned(date.day()));
}

std::string weekday_text(LocalDay day) {
  constexpr std::array names = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  return names.at(chrono::weekday(day).c_encoding());
}

LocalMinute clock_time(LocalMinute start, Duration at) {
  constexpr chrono::local_days end_of_9999 =
      chrono::local_days(chrono::year(10000) / chrono::January / 1);
  const LocalMinute minute = start + whole_minutes(at);
  if (minute >= end_of_9999) throw RangeError("a clock time past the year 9999; start earlier");
  return minute;
}

std::optional<LocalDay> clocks_may_change(LocalMinute from, LocalMinute to) {
  constexpr chrono::hours before_midnight(2);
  constexpr chrono::hours after_midnight(4);
  for (LocalDay day = chrono::ceil<chrono::days>(from - after_midnight);
       LocalMinute(day) - before_midnight < to; day += chrono::days(1)) {
    if (LocalMinute(day) + after_midnight > from && clocks_may_change_on(day)) return day;
  }
  return std::nullopt;
}

std::string date_and_time(LocalMinute minute) {
  const auto midnight = chrono::floor<chrono::days>(minute);
  const chrono::hh_mm_ss time(minute - midnight);
  return fmt::format("{} {:02}:{:02}", day_text(midnight), time.hours().count(),
                     time.minutes().count());
}

std::string time_of_day(LocalMinute start, Duration at) {
  const LocalMinute minute = start + whole_minutes(at);
  const auto midnight = chrono::floor<chrono::days>(minute);
  const chrono::hh_mm_ss time(minute - midnight);
  const auto days = (midnight - chrono::floor<chrono::days>(start)).count();
  return fmt::format("{:02}:{:02}{}", time.hours().count(), time.minutes().count(),
                     days > 0 ? fmt::format(" +{}d", days) : "");
}

std::string time_of_day_if_known(std::optional<LocalMinute> start, Duration at) {
  return start ? time_of_day(*start, at) : "";
}

}  // namespace firstdrop
