// The calendar of a run: which events it has, when, with which alarms, and what it must not do. An
// independent parser reads it in tests/exports/calendar.
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/write.hpp"
#include "quantity/clock_time.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using namespace test_stills;

namespace {

LocalMinute minute(const char* text) {
  return parse_local_minute(text).value();
}

std::string calendar(const Plan& p, const char* start = "2026-06-20T09:30") {
  return run_calendar(p, minute(start), std::chrono::sys_seconds(std::chrono::seconds(86399)));
}

std::string unfolded(std::string text) {
  for (std::size_t at; (at = text.find("\r\n ")) != std::string::npos;) text.erase(at, 3);
  return text;
}

int count(const std::string& text, const std::string& part) {
  int times = 0;
  for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos; at += part.size()) {
    ++times;
  }
  return times;
}

// The event whose UID ends in `key`, from the key on.
std::string event(const std::string& calendar, const std::string& key) {
  const std::string text = unfolded(calendar);
  const std::size_t begin = text.find("-" + key + "\r\n");
  REQUIRE(begin != std::string::npos);
  return text.substr(begin, text.find("\r\nEND:VEVENT\r\n", begin) + 2 - begin);
}

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

Plan by_level() {
  return plan(recipe(herb(), column_still(), HydrosolGoal{millilitres(500)}));
}

}  // namespace

TEST_CASE("a calendar has an event for each thing to do", "[calendar]") {
  const std::string text = calendar(by_level());
  CHECK(text.starts_with("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:"));
  CHECK(text.ends_with("END:VEVENT\r\nEND:VCALENDAR\r\n"));
  CHECK(count(text, "BEGIN:VEVENT\r\n") == 5);
  CHECK(count(text, "DTSTAMP:19700101T235959Z\r\n") == 5);
  CHECK(has(event(text, "run"), "DTSTART:20260620T093000\r\nDTEND:"));
  CHECK(has(event(text, "heat-on"), "DTSTART:20260620T093000\r\n"));
  for (const char* key : {"boils", "first-drop", "stop"}) CHECK(has(event(text, key), "VALARM"));
}

TEST_CASE("each change of ice is an event", "[calendar]") {
  const Plan p = plan(recipe(herb(), iced_still(litres(1), litres(6), kilograms(1)),
                             HydrosolGoal{millilitres(500)}));
  REQUIRE_FALSE(p.run->cooling.ice_changes.empty());
  const std::string text = calendar(p);
  CHECK(count(text, "BEGIN:VEVENT\r\n") == 5 + static_cast<int>(p.run->cooling.ice_changes.size()));
  CHECK(has(event(text, "ice-1"), "TRIGGER:-PT5M"));
  CHECK(has(event(text, "ice-1"), "TRIGGER:PT0S"));
}

TEST_CASE("the first alarm of the stop is no later than the strongest heater's stop",
          "[calendar]") {
  Plan p = by_level();
  p.run->times.stop = minutes(60.2);
  p.run->times.earliest_stop = minutes(48.9);
  CHECK(has(event(calendar(p), "stop"), "TRIGGER:-PT12M"));
  p.run->times.earliest_stop = minutes(60.2);
  CHECK(has(event(calendar(p), "stop"), "TRIGGER:-PT5M"));
  p.run->times.stop = minutes(3);
  p.run->times.earliest_stop = minutes(3);
  CHECK(has(event(calendar(p), "stop"), "TRIGGER:-PT3M"));
}

TEST_CASE("when nobody sees the level, the heat is off by the worst credible case's clock",
          "[calendar]") {
  Plan p = by_level();
  REQUIRE(p.recipe.limits.absence == minutes(15));
  p.run->times.stop = minutes(60);
  p.run->water.never_beyond = millilitres(640);
  // The worst case may reach its level early. Then the latest safe time is earlier than the nominal
  // stop plus the lateness.
  p.run->times.latest = minutes(63.9);
  CHECK(
      has(event(calendar(p), "stop"),
          "Heat off before 640 mL is in the receiver and within 15 min of reaching 500 mL. Jug not "
          "checked: heat off by 63 min (10:33)."));
  p.run->times.latest = minutes(75);
  CHECK(has(event(calendar(p), "stop"), "heat off by 75 min (10:45)."));
  p.run->stop_criterion = StopRule::time;
  p.run->stop.hydrosol.reset();
  CHECK(has(event(calendar(p), "stop"),
            "Heat off before 640 mL is in the receiver. In any case: heat off by 75 min (10:45)."));
  p.run->times.stop = hours(15);
  p.run->times.latest = hours(15);
  CHECK(has(event(calendar(p), "stop"), "heat off by 15 h (00:30)."));
}

TEST_CASE("a day that is not the event's is named", "[calendar]") {
  Plan p = by_level();
  p.run->times.stop = minutes(60);
  p.run->times.earliest_stop = minutes(50);
  const std::string stop = event(calendar(p, "2026-12-31T23:05"), "stop");
  CHECK(has(stop, "DTSTART:20270101T000500"));
  CHECK(has(stop, "Watch the level from 2026-12-31 23:55 on"));
}

TEST_CASE("where clocks may change in mid-run, every event says which clock its times are of",
          "[calendar]") {
  Plan p = by_level();
  p.run->times.stop = minutes(170);
  p.run->times.latest = minutes(180);
  const std::string words =
      "DESCRIPTION:Clocks may change in the night to Sun 2026-10-25. All times here are those of a "
      "clock that is not changed during the run. If yours goes back\\, every alarm after that "
      "rings "
      "an hour late: set a timer. If it goes forward\\, they ring an hour early.\\n";
  const std::string night = calendar(p, "2026-10-25T00:30");
  for (const char* key : {"run", "heat-on", "boils", "first-drop", "stop"}) {
    CAPTURE(key);
    CHECK(has(event(night, key), words));
  }
  // A run that only may last into that night has them too. A run by day doesn't.
  CHECK(has(event(calendar(p, "2026-10-24T19:02"), "stop"), words));
  CHECK_FALSE(has(calendar(p, "2026-10-24T18:59"), "Clocks"));
  CHECK_FALSE(has(calendar(p, "2026-10-25T09:30"), "Clocks"));
}

TEST_CASE("amounts are in the units of the bench", "[calendar]") {
  Plan p = by_level();
  CHECK(has(event(calendar(p), "stop"), "SUMMARY:Heat off at 500 mL: "));
  p.recipe.units = Units::us;
  const std::string text = unfolded(calendar(p));
  CHECK(has(event(text, "stop"), "SUMMARY:Heat off at 17 fl oz: "));
  CHECK(has(event(text, "boils"), "at 212 °F"));
  CHECK_FALSE(has(text, "500 mL"));
  CHECK_FALSE(has(text, "°C"));
}

TEST_CASE("a window is opened indoors", "[calendar]") {
  Plan p = by_level();
  CHECK(has(event(calendar(p), "heat-on"), "a window is open"));
  p.recipe.site.place = Place::outdoors;
  CHECK_FALSE(has(event(calendar(p), "heat-on"), "window"));
}

TEST_CASE("of several runs the calendar is of one, and says so", "[calendar]") {
  Plan p = by_level();
  CHECK_FALSE(has(event(calendar(p), "run"), "one of them"));
  p.charge.runs = 3;
  CHECK(has(event(calendar(p), "run"), "takes 3 runs. This calendar is of one of them"));
}

TEST_CASE("what an event is called hangs on title, plant, still and start alone", "[calendar]") {
  Plan p = by_level();
  const auto name = [&](const char* start) {
    const std::string text = calendar(p, start);
    const std::size_t at = text.find("UID:");
    return text.substr(at, text.find('\r', at) - at);
  };
  // UIDs must be stable from version to version. Otherwise a newer file would duplicate the events
  // of an older one.
  p.recipe.title = "Rose, second cut";
  p.recipe.plant.change().key = "rose";
  p.recipe.still.change().key = "herb-pot";
  const std::string first = name("2026-06-20T09:30");
  CHECK(first == "UID:firstdrop-d6310fc02079432e-run");
  p.run->times.stop += minutes(5);
  p.charge.mass = grams(1);
  CHECK(name("2026-06-20T09:30") == first);
  CHECK(name("2026-06-20T09:31") != first);
  p.recipe.still.change().key = "herb-pot-2";
  CHECK(name("2026-06-20T09:30") != first);
}

TEST_CASE("no title becomes a line of the calendar", "[calendar]") {
  Plan p = by_level();
  p.recipe.title = "a\r\nEND:VEVENT\nBEGIN:VEVENT\rUID:b;,\\ " + std::string(9000, 'x');
  const std::string text = calendar(p);
  CHECK(count(text, "\nBEGIN:VEVENT\r\n") == 5);
  CHECK(count(text, "\nEND:VEVENT\r\n") == 5);
  CHECK(has(event(text, "run"), "DESCRIPTION:a\\nEND:VEVENT\\nBEGIN:VEVENT\\nUID:b\\;\\,\\\\ xxx"));
  CHECK(has(event(text, "run"),
            "SUMMARY:Distilling: a  END:VEVENT BEGIN:VEVENT UID:b\\;\\,\\\\ xxx"));
  CHECK(has(event(text, "stop"), "xxx…\r\n"));
}

TEST_CASE("an untitled run is called by its plant", "[calendar]") {
  Plan p = by_level();
  p.recipe.title.clear();
  CHECK(has(event(calendar(p), "heat-on"), "SUMMARY:Heat on: " + p.recipe.plant->name + "\r\n"));
}

TEST_CASE("no calendar of a refused plan, none without a run, none past the year 9999",
          "[calendar]") {
  Plan p = by_level();
  CHECK_THROWS_AS(calendar(p, "9999-12-31T23:30"), RangeError);
  p.verdict = Verdict::refused;
  CHECK_THROWS_AS(calendar(p), RefusedError);
  p.verdict = Verdict::go;
  p.run.reset();
  CHECK_THROWS_AS(calendar(p), RefusedError);
}
