// Clock times: which texts are valid, and how they pass the end of an hour, day, month and year.
#include "quantity/clock_time.hpp"

#include <string>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"

using namespace firstdrop;

namespace {

std::string after(const char* start, Duration at) {
  return date_and_time(clock_time(parse_local_minute(start).value(), at));
}

}  // namespace

TEST_CASE("days and times that exist are read, to the letter", "[clock_time]") {
  for (const char* good : {"2026-06-20T09:30", "2028-02-29T00:00", "2000-02-29T23:59",
                           "1900-01-01T00:00", "9999-12-31T23:59"}) {
    CAPTURE(good);
    const auto minute = parse_local_minute(good);
    REQUIRE(minute);
    std::string again = date_and_time(*minute);
    again[10] = 'T';
    CHECK(again == good);
  }
  for (const char* bad : {"",
                          "2026-06-20",
                          "2026-06-20t09:30",
                          "2026-06-20T 09:30",
                          "2026-06-20 T09:30",
                          "2026-06-20T9:30 am",
                          "2026-06-20 9",
                          "2026-06-20 13:00 pm",
                          "2026-06-20 0:30 am",
                          "2026-06-20 9:30 Am",
                          "2026-06-20 9:3",
                          "2026-06-20  ",
                          "06/07/2026 09:30",
                          "today 9:30",
                          "2026-06-20T09:30:00",
                          "2026-06-20T09:30Z",
                          " 2026-06-20T09:30",
                          "2026-6-20T9:30",
                          "2026-06-20T24:00",
                          "2026-06-20T09:60",
                          "2026-02-29T09:30",
                          "2100-02-29T09:30",
                          "2026-04-31T09:30",
                          "2026-00-10T09:30",
                          "2026-13-10T09:30",
                          "2026-01-00T09:30",
                          "+026-06-20T09:30",
                          "2026-06-20T-9:30",
                          "２026-06-20T09:3",
                          "1899-12-31T23:59"}) {
    CAPTURE(bad);
    CHECK_FALSE(parse_local_minute(bad));
  }
}

TEST_CASE("days and times as people type them", "[clock_time][typed]") {
  struct Row {
    const char* text;
    const char* means;
  };
  for (const Row& row : {
           Row{"2026-06-20T9:30", "2026-06-20T09:30"},
           Row{"2026-06-20 09:30", "2026-06-20T09:30"},
           Row{"2026-06-20 9:30", "2026-06-20T09:30"},
           Row{"2026-06-20\u00a0 9:30", "2026-06-20T09:30"},
           Row{"2026-06-20 9:30 am", "2026-06-20T09:30"},
           Row{"2026-06-20 9:30AM", "2026-06-20T09:30"},
           Row{"2026-06-20 9 a.m.", "2026-06-20T09:00"},
           Row{"2026-06-20 12:30 am", "2026-06-20T00:30"},
           Row{"2026-06-20 12 pm", "2026-06-20T12:00"},
           Row{"2026-06-20 2:15 p.m.", "2026-06-20T14:15"},
           Row{"2026-06-20 11:59 PM", "2026-06-20T23:59"},
       }) {
    CAPTURE(row.text);
    const auto minute = parse_local_minute(row.text);
    REQUIRE(minute);
    CHECK(local_minute_text(*minute) == row.means);
  }
  const LocalDay today = parse_local_day("2026-12-31").value();
  CHECK(local_minute_text(parse_local_minute("today 9:30", today).value()) == "2026-12-31T09:30");
  CHECK(local_minute_text(parse_local_minute("tomorrow 2 pm", today).value()) ==
        "2027-01-01T14:00");
  CHECK(parse_local_minute("2026-06-20 9:30", today) == parse_local_minute("2026-06-20T09:30"));
  for (const char* bad : {"today", "tomorrow", "todayT09:30", "yesterday 9:30", "9:30"}) {
    CAPTURE(bad);
    CHECK_FALSE(parse_local_minute(bad, today));
  }
}

TEST_CASE("a day or time that isn't read is answered with what to write", "[clock_time][typed]") {
  struct Row {
    const char* text;
    const char* said;
  };
  constexpr auto any_day = " Write a day that exists, from 1900 on, as \"2026-06-20\".";
  for (const Row& row : {
           Row{"06/07/2026",
               " Write 2026-07-06 or 2026-06-07. The order of day and month isn't "
               "clear."},
           Row{"6.7.2026",
               " Write 2026-07-06 or 2026-06-07. The order of day and month isn't "
               "clear."},
           Row{"13/07/2026", " Write 2026-07-13."},
           Row{"07/13/2026", " Write 2026-07-13."},
           Row{"7/7/2026", " Write 2026-07-07."},
           Row{"2026/6/20", " Write 2026-06-20."},
           Row{"2026-6-20", " Write 2026-06-20."},
           Row{"31/31/2026", any_day},
           Row{"2026-02-30", any_day},
           Row{"6/7/26", any_day},
           Row{"1/2/2026/3", any_day},
           Row{"1/2/2026/", any_day},
           Row{"", any_day},
       }) {
    CAPTURE(row.text);
    CHECK_FALSE(parse_local_day(row.text));
    CHECK(local_day_fault(row.text).text() ==
          "Can't read \"" + std::string(row.text) + "\" as a day." + row.said);
  }
  CHECK(
      local_day_fault("today").text() ==
      "Can't read \"today\" as a day. Write a day that exists, from 1900 on, as \"2026-06-20\". "
      "\"today\" and \"tomorrow\" work only with --start, because a file must mean the same every "
      "day.");
  CHECK(local_minute_fault("2026-06-20").wanted == "the time too, such as 2026-06-20T09:30");
  CHECK(local_minute_fault("9:30 am").wanted == "the day too, such as 2026-06-20T09:30");
  CHECK(local_minute_fault("13.7.2026 9:30 pm").wanted == "2026-07-13T21:30");
  CHECK(local_minute_fault("6/7/2026 9:30").wanted == "2026-07-06T09:30 or 2026-06-07T09:30");
  CHECK(local_minute_fault("2026-06-20 25:00").wanted == local_minute_form);
  CHECK(time_of_day_fault("25:00").text() ==
        "Can't read \"25:00\" as a time of day. Write a time of day, as \"09:30\".");
}

TEST_CASE("days and times of day by themselves", "[clock_time]") {
  for (const char* good : {"2026-06-20", "2028-02-29", "1900-01-01", "9999-12-31"}) {
    CAPTURE(good);
    const auto day = parse_local_day(good);
    REQUIRE(day);
    CHECK(day_text(*day) == good);
  }
  for (const char* bad : {"", "2026-02-29", "2026-6-20", "2026-06-20T09:30", "20260620"}) {
    CAPTURE(bad);
    CHECK_FALSE(parse_local_day(bad));
  }
  CHECK(parse_time_of_day("00:00") == std::chrono::minutes(0));
  CHECK(parse_time_of_day("23:59") == std::chrono::minutes(1439));
  CHECK(parse_time_of_day("9:30") == std::chrono::minutes(570));
  CHECK(parse_time_of_day("9:30 pm") == std::chrono::minutes(1290));
  for (const char* bad : {"", "24:00", "9", "9:3", "09:60", "09:30:00", "T09:30", "am", "13 pm",
                          "0 am", "9:30 xm", " 9:30"}) {
    CAPTURE(bad);
    CHECK_FALSE(parse_time_of_day(bad));
  }
  // Well-known weekdays: the first Moon landing was on a Sunday.
  CHECK(weekday_text(parse_local_day("1969-07-20").value()) == "Sun");
  CHECK(weekday_text(parse_local_day("2000-01-01").value()) == "Sat");
  CHECK(weekday_text(parse_local_day("2026-07-06").value()) == "Mon");
}

TEST_CASE("minutes after a start go over midnight, the month's and the year's end",
          "[clock_time]") {
  CHECK(after("2026-06-20T09:30", minutes(0)) == "2026-06-20 09:30");
  CHECK(after("2026-06-20T09:30", minutes(95)) == "2026-06-20 11:05");
  CHECK(after("2026-06-20T23:59", minutes(1)) == "2026-06-21 00:00");
  CHECK(after("2026-06-30T23:30", hours(1)) == "2026-07-01 00:30");
  CHECK(after("2026-02-28T23:30", hours(1)) == "2026-03-01 00:30");
  CHECK(after("2028-02-28T23:30", hours(1)) == "2028-02-29 00:30");
  CHECK(after("2100-02-28T23:30", hours(1)) == "2100-03-01 00:30");
  CHECK(after("2026-12-31T23:30", hours(1)) == "2027-01-01 00:30");
  CHECK(after("2026-06-20T09:30", hours(168)) == "2026-06-27 09:30");
}

TEST_CASE("a clock time is the nearest minute", "[clock_time]") {
  CHECK(after("2026-06-20T09:30", seconds(29)) == "2026-06-20 09:30");
  CHECK(after("2026-06-20T09:30", seconds(31)) == "2026-06-20 09:31");
  CHECK(after("2026-06-20T23:59", seconds(31)) == "2026-06-21 00:00");
}

TEST_CASE("no clock time past the year 9999", "[clock_time]") {
  CHECK(after("9999-12-31T23:00", minutes(59)) == "9999-12-31 23:59");
  CHECK_THROWS_AS(after("9999-12-31T23:00", minutes(60)), RangeError);
  CHECK_THROWS_AS(after("2026-06-20T09:30", hours(1e300)), RangeError);
}

TEST_CASE("the nights in which clocks may change", "[clock_time]") {
  const auto day = [](const char* from, const char* to) {
    const auto found =
        clocks_may_change(parse_local_minute(from).value(), parse_local_minute(to).value());
    return found ? day_text(*found) : std::string();
  };
  // Europe, back and forward; the United States; Easter Island; Egypt, on a Friday; Morocco.
  CHECK(day("2026-10-25T00:30", "2026-10-25T03:30") == "2026-10-25");
  CHECK(day("2027-03-27T23:00", "2027-03-28T05:00") == "2027-03-28");
  CHECK(day("2026-11-01T01:00", "2026-11-01T04:00") == "2026-11-01");
  CHECK(day("2026-09-05T21:00", "2026-09-05T23:00") == "2026-09-06");
  CHECK(day("2026-04-23T20:00", "2026-04-24T09:00") == "2026-04-24");
  CHECK(day("2026-02-14T23:30", "2026-02-15T04:00") == "2026-02-15");
  // The first of several such nights; one that comes months after the start.
  CHECK(day("2026-10-20T08:00", "2026-10-27T08:00") == "2026-10-23");
  CHECK(day("2026-05-01T08:00", "2026-10-27T08:00") == "2026-09-04");
  // None by day, in a night to a Monday, in summer or in winter.
  CHECK(day("2026-10-25T09:30", "2026-10-25T21:00").empty());
  CHECK(day("2026-10-25T22:30", "2026-10-26T05:00").empty());
  CHECK(day("2026-06-20T22:30", "2026-06-21T05:00").empty());
  CHECK(day("2026-12-19T22:30", "2026-12-20T05:00").empty());
  // The limits are exact to the minute.
  CHECK(day("2026-10-24T20:00", "2026-10-24T22:00").empty());
  CHECK(day("2026-10-24T20:00", "2026-10-24T22:01") == "2026-10-25");
  CHECK(day("2026-10-25T03:59", "2026-10-25T06:00") == "2026-10-25");
  CHECK(day("2026-10-25T04:00", "2026-10-25T06:00").empty());
}

TEST_CASE("the time of day counts the days past", "[clock_time]") {
  const LocalMinute start = parse_local_minute("2026-12-31T23:50").value();
  CHECK(time_of_day(start, minutes(0)) == "23:50");
  CHECK(time_of_day(start, minutes(9)) == "23:59");
  CHECK(time_of_day(start, minutes(10)) == "00:00 +1d");
  CHECK(time_of_day(start, hours(25)) == "00:50 +2d");
}
