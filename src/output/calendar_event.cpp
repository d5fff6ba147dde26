#include "output/calendar_event.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <string_view>

#include "base/visible_text.hpp"
#include "output/content_line.hpp"

namespace firstdrop {
namespace {

namespace chrono = std::chrono;

// Length of title that a phone shows beside the thing to do; from memory.
constexpr std::size_t title_characters = 40;

template <class Time>
std::string in_basic_form(Time time) {
  const auto midnight = chrono::floor<chrono::days>(time);
  const chrono::year_month_day day(midnight);
  const chrono::hh_mm_ss clock(chrono::duration_cast<chrono::seconds>(time - midnight));
  return fmt::format("{:04}{:02}{:02}T{:02}{:02}{:02}", int(day.year()), unsigned(day.month()),
                     unsigned(day.day()), clock.hours().count(), clock.minutes().count(),
                     clock.seconds().count());
}

class File {
 public:
  File(const std::string& product, std::uint64_t id, chrono::sys_seconds made_at)
      : id_(id), made_at_(in_basic_form(made_at) + "Z") {
    line("BEGIN", "VCALENDAR");
    line("VERSION", "2.0");
    line("PRODID", fmt::format("-//firstdrop//{}//EN", product));
    line("CALSCALE", "GREGORIAN");
  }

  void write(const CalendarEvent& event) {
    line("BEGIN", "VEVENT");
    text_line("UID", fmt::format("firstdrop-{:016x}-{}", id_, event.key));
    line("DTSTAMP", made_at_);
    line("DTSTART", basic_form(event.at));
    if (event.end) line("DTEND", basic_form(*event.end));
    text_line("SUMMARY", event.summary);
    text_line("DESCRIPTION", event.description);
    // The event of the run marks the person as busy. The moments are part of it.
    line("TRANSP", event.end ? "OPAQUE" : "TRANSPARENT");
    for (const chrono::minutes lead : event.alarms) {
      line("BEGIN", "VALARM");
      line("ACTION", "DISPLAY");
      line("TRIGGER",
           lead > chrono::minutes(0) ? fmt::format("-PT{}M", lead.count()) : std::string("PT0S"));
      text_line("DESCRIPTION", event.summary);
      line("END", "VALARM");
    }
    line("END", "VEVENT");
  }

  std::string end() {
    line("END", "VCALENDAR");
    return std::move(out_);
  }

 private:
  void line(std::string_view name, std::string_view value) { out_ += content_line(name, value); }
  void text_line(std::string_view name, std::string_view value) { line(name, escaped(value)); }

  std::uint64_t id_;
  std::string made_at_;
  std::string out_;
};

}  // namespace

std::string basic_form(LocalMinute minute) {
  return in_basic_form(minute);
}

std::uint64_t calendar_id(const std::vector<std::string>& texts) {
  std::uint64_t hash = 0xcbf29ce484222325U;
  const auto add = [&](unsigned char byte) { hash = (hash ^ byte) * 0x100000001b3U; };
  for (const std::string& text : texts) {
    for (const char c : text) add(static_cast<unsigned char>(c));
    add(0xFF);  // a byte that never occurs in UTF-8
  }
  return hash;
}

std::string short_title(const std::string& title) {
  std::string line = title;
  std::replace_if(
      line.begin(), line.end(), [](char c) { return c == '\n' || c == '\r'; }, ' ');
  line = visible(line);
  std::size_t characters = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if ((static_cast<unsigned char>(line[i]) & 0xC0U) == 0x80U) continue;
    if (++characters > title_characters) return line.substr(0, i) + "…";
  }
  return line;
}

std::string clock_change_in_words(LocalMinute from, LocalMinute to) {
  const auto day = clocks_may_change(from, to);
  if (!day) return "";
  return fmt::format(
      "Clocks may change in the night to {} {}. All times here are those of a clock that is not "
      "changed during the run. If yours goes back, every alarm after that rings an hour late: set "
      "a timer. If it goes forward, they ring an hour early.\n",
      weekday_text(*day), day_text(*day));
}

std::string calendar_of(const std::vector<CalendarEvent>& events, const std::string& product,
                        std::uint64_t id, chrono::sys_seconds made_at) {
  File file(product, id, made_at);
  for (const CalendarEvent& event : events) file.write(event);
  return file.end();
}

}  // namespace firstdrop
