#include "quantity/clock_time.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "firstdrop/base/error.hpp"
#include "quantity/typed_number.hpp"
#include "quantity/unit_table.hpp"

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

namespace {

struct DayAndTime {
  std::string_view day;
  std::string_view time;
  bool iso = false;  ///< with a T between them
};

/// Splits a text at its T between two digits, or else at its first blank.
DayAndTime split_minute(std::string_view text) {
  for (std::size_t at = 1; at + 1 < text.size(); ++at) {
    const std::string_view rest = text.substr(at);
    if (rest.front() == 'T' && is_digit(text[at - 1]) && is_digit(rest[1]))
      return {text.substr(0, at), rest.substr(1), true};
    if (blank_length(rest) > 0) return {text.substr(0, at), without_leading_blanks(rest), false};
  }
  return {text, {}, false};
}

/// "am" or "pm" at the end of a time: what it stands for, or nothing.
struct HalfDay {
  bool given = false;
  bool afternoon = false;
};
HalfDay take_half_day(std::string_view& text) {
  struct Spelling {
    std::string_view word;
    bool afternoon;
  };
  constexpr std::array spellings = {Spelling{"am", false},   Spelling{"AM", false},
                                    Spelling{"a.m.", false}, Spelling{"pm", true},
                                    Spelling{"PM", true},    Spelling{"p.m.", true}};
  for (const Spelling& one : spellings) {
    if (!text.ends_with(one.word)) continue;
    text = without_trailing_blanks(text.substr(0, text.size() - one.word.size()));
    return {true, one.afternoon};
  }
  return {};
}

std::optional<LocalMinute> minute_of(const DayAndTime& parts, std::optional<LocalDay> day) {
  const auto time = parse_time_of_day(parts.time);
  if (!day || !time) return std::nullopt;
  if (parts.iso && !has_form(parts.time, "00:00") && !has_form(parts.time, "0:00"))
    return std::nullopt;
  return *day + *time;
}

}  // namespace

std::optional<LocalMinute> parse_local_minute(std::string_view text) {
  const DayAndTime parts = split_minute(text);
  return minute_of(parts, parse_local_day(parts.day));
}

std::optional<LocalMinute> parse_local_minute(std::string_view text, LocalDay today) {
  const DayAndTime parts = split_minute(text);
  if (parts.day == "today") return minute_of(parts, today);
  if (parts.day == "tomorrow") return minute_of(parts, today + chrono::days(1));
  return minute_of(parts, parse_local_day(parts.day));
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
  const HalfDay half = take_half_day(text);
  const bool whole_hour = half.given && (has_form(text, "0") || has_form(text, "00"));
  if (!whole_hour && !has_form(text, "00:00") && !has_form(text, "0:00")) return std::nullopt;
  const std::size_t digits = std::min(text.find(':'), text.size());
  chrono::hours hour(number_at(text, 0, digits));
  const chrono::minutes minute(whole_hour ? 0 : number_at(text, digits + 1, 2));
  if (hour >= chrono::hours(24) || minute >= chrono::minutes(60)) return std::nullopt;
  if (half.given) {
    if (hour < chrono::hours(1) || hour > chrono::hours(12)) return std::nullopt;
    hour = chrono::hours(hour.count() % 12 + (half.afternoon ? 12 : 0));
  }
  return hour + minute;
}

namespace {

/// The days that three numbers can mean, as they should be written. The year has four digits.
std::vector<std::string> days_meant(std::string_view text) {
  std::array<std::string_view, 3> numbers;
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size() && count < 3; ++count) {
    const std::size_t length = std::min(text.find_first_not_of("0123456789", at), text.size()) - at;
    numbers.at(count) = text.substr(at, length);
    at += length;
    if (at < text.size()) {
      if (std::string_view("-/. ").find(text[at]) == std::string_view::npos) return {};
      ++at;
      if (at == text.size() || count == 2) return {};
    }
  }
  const auto in_order = [&](std::size_t year, std::size_t month, std::size_t day) {
    if (numbers.at(year).size() != 4 || numbers.at(month).empty() || numbers.at(day).empty() ||
        numbers.at(month).size() > 2 || numbers.at(day).size() > 2)
      return std::string();
    const std::string written =
        fmt::format("{}-{:0>2}-{:0>2}", numbers.at(year), numbers.at(month), numbers.at(day));
    return parse_local_day(written) ? written : std::string();
  };
  std::vector<std::string> days;
  for (std::string day : {in_order(0, 1, 2), in_order(2, 1, 0), in_order(2, 0, 1)})
    if (!day.empty() && std::find(days.begin(), days.end(), day) == days.end())
      days.push_back(std::move(day));
  return days;
}

bool is_named_day(std::string_view text) {
  return text == "today" || text == "tomorrow" || text == "yesterday";
}

Fault clock_fault(std::string_view text, const char* what, std::string wanted, std::string hint) {
  Fault fault;
  fault.found = fmt::format("Can't read {} as {}", quoted(text), what);
  fault.wanted = std::move(wanted);
  fault.hint = std::move(hint);
  return fault;
}

constexpr auto why_not_named =
    "\"today\" and \"tomorrow\" work only with --start, because a file must mean the same every "
    "day";

}  // namespace

Fault local_day_fault(std::string_view text) {
  constexpr auto what = "a day";
  if (is_named_day(text)) return clock_fault(text, what, local_day_form, why_not_named);
  const std::vector<std::string> days = days_meant(text);
  if (days.empty()) return clock_fault(text, what, local_day_form, "");
  return clock_fault(text, what, in_a_row(days, "or"),
                     days.size() > 1 ? "the order of day and month isn't clear" : "");
}

Fault time_of_day_fault(std::string_view text) {
  return clock_fault(text, "a time of day", time_of_day_form, "");
}

Fault local_minute_fault(std::string_view text) {
  constexpr auto what = "a day and time";
  const DayAndTime parts = split_minute(text);
  if (is_named_day(parts.day)) return clock_fault(text, what, local_minute_form, why_not_named);
  if (parts.time.empty() && parse_local_day(text))
    return clock_fault(text, what, fmt::format("the time too, such as {}T09:30", text), "");
  if (parse_time_of_day(text))
    return clock_fault(text, what, "the day too, such as 2026-06-20T09:30", "");
  const auto time = parse_time_of_day(parts.time);
  if (time && !parse_local_day(parts.day)) {
    std::vector<std::string> minutes = days_meant(parts.day);
    for (std::string& day : minutes) day = local_minute_text(*parse_local_day(day) + *time);
    if (!minutes.empty())
      return clock_fault(text, what, in_a_row(minutes, "or"),
                         minutes.size() > 1 ? "the order of day and month isn't clear" : "");
  }
  return clock_fault(text, what, local_minute_form, "");
}

std::string local_day_pattern() {
  return "[0-9]{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])";
}

namespace {

constexpr auto time_of_24_hours = "(?:[01]?[0-9]|2[0-3]):[0-5][0-9]";

}  // namespace

std::string time_of_day_pattern() {
  return fmt::format(
      "(?:{}|(?:0?[1-9]|1[0-2])(?::[0-5][0-9])?{}*(?:am|AM|a\\.m\\.|pm|PM|p\\.m\\.))",
      time_of_24_hours, one_blank_pattern);
}

std::string local_minute_pattern() {
  return fmt::format("{}(?:T{}|{}+{})", local_day_pattern(), time_of_24_hours, one_blank_pattern,
                     time_of_day_pattern());
}

std::string local_minute_text(LocalMinute minute) {
  std::string text = date_and_time(minute);
  text[10] = 'T';
  return text;
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
