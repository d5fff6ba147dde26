// How long the heat may stay on, read from sheets, calendars and campaigns as a person reads them:
// from the printed numbers alone, without using the code that made them.
#include "output/stop_bounds.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <regex>
#include <string>
#include <vector>

#include "campaign/campaign_calendar.hpp"
#include "campaign/campaign_content.hpp"
#include "campaign/campaign_print.hpp"
#include "catch.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/quantity/units.hpp"
#include "model/model_parameters.hpp"
#include "model/worst_case.hpp"
#include "output/bench_words.hpp"
#include "quantity/numbers_text.hpp"
#include "test_stills.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using namespace test_stills;

namespace {

constexpr int samples = 8;
// At 09:30, no printed time of day looks like a number of minutes.
constexpr const char* start = "2026-06-20T09:30";

// A printed time from the start of heating, in minutes: "55 min", "1 h", "1 h 10 min".
const std::string a_time = "(?:([0-9]+) h)? ?(?:([0-9]+) min)?";

double minutes_of(const std::smatch& match, std::size_t first) {
  const auto number = [&](std::size_t i) { return match[i].matched ? std::stod(match[i]) : 0.0; };
  return 60.0 * number(first) + number(first + 1);
}

// Turns each stretch of white space into one blank, and undoes the escapes of an iCalendar text.
std::string plain(std::string text) {
  for (std::size_t at; (at = text.find("\r\n ")) != std::string::npos;) text.erase(at, 3);
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    char c = text[i];
    if (c == '\\' && i + 1 < text.size()) c = text[++i] == 'n' ? ' ' : text[i];
    if (c == '\n' || c == '\r') c = ' ';
    if (c != ' ' || (!out.empty() && out.back() != ' ')) out += c;
  }
  return out;
}

/// What a person reads on paper.
struct Read {
  std::optional<std::string> before;  ///< "1.1 L"
  std::optional<double> within;       ///< minutes
  std::optional<std::string> level;   ///< after reaching it, `within` counts
  std::optional<double> by;           ///< minutes from the start of heating
  std::string by_clock;               ///< "10:40"
  bool in_any_case = false;
};

std::optional<Read> read(const std::string& text) {
  static const std::regex bounds(
      "Heat off (?:before ([0-9.]+ [a-zA-Z ]+?) is (?:in the receiver|caught in total))?(?: and )?"
      "(?:within " +
      a_time +
      " of reaching ([0-9.]+ [a-zA-Z ]+?)|at once at ([0-9.]+ [a-zA-Z ]+?))?\\. "
      "(Jug not checked|In any case): heat off by " +
      a_time + "(?: \\(([^)]*)\\))?\\.");
  std::smatch match;
  if (!std::regex_search(text, match, bounds)) return std::nullopt;
  Read found;
  if (match[1].matched) found.before = match[1];
  if (match[4].matched) {
    found.within = minutes_of(match, 2);
    found.level = match[4];
  }
  if (match[5].matched) {
    found.within = 0.0;
    found.level = match[5];
  }
  found.in_any_case = match[6] == "In any case";
  found.by = minutes_of(match, 7);
  found.by_clock = match[9];
  return found;
}

// Every time of day after these words, in minutes from the start.
std::vector<double> clocks_after(const std::string& text, const std::string& words) {
  const std::regex clock(words + "[^()]{0,40}\\(?([0-9]{2}):([0-9]{2})");
  std::vector<double> found;
  for (std::sregex_iterator i(text.begin(), text.end(), clock), end; i != end; ++i) {
    const double day = 60.0 * std::stod((*i)[1]) + std::stod((*i)[2]) - (9 * 60 + 30);
    found.push_back(day < 0 ? day + 24 * 60 : day);
  }
  return found;
}

/// Five plants in four stills, each still with its first method, to a level and to a time, in both
/// systems of units. Refused plans are left out.
std::vector<Plan> plans() {
  std::vector<Plan> all;
  for (const char* still : {"bench-column", "bench-basket", "herb-pot", "farm-grid"}) {
    for (const char* plant : {"lavender", "peppermint", "rosemary", "rose", "lemongrass"}) {
      for (const bool timed : {false, true}) {
        for (const Units units : {Units::metric, Units::us}) {
          Recipe r;
          r.title = "Bounds";
          r.plant = shipped_tables().plants.at(plant);
          r.state = r.plant->states.begin()->first;
          r.cut = default_cut(r.plant, r.state);
          r.still = shipped_tables().stills.at(still);
          r.method = r.still->methods.front();
          r.units = units;
          r.start = start;
          r.site.coolant = celsius(14);
          const Volume level = r.still->pot.volume.typical() * 0.15;
          if (timed) {
            r.goal = TimeGoal{minutes(75)};
          } else {
            r.goal = HydrosolGoal{neat_down(level, units)};
          }
          Plan plan = make_plan(r, shipped_tables(), samples);
          if (plan.may_be_run()) all.push_back(std::move(plan));
        }
      }
    }
  }
  return all;
}

double latest_allowed(const Plan& plan) {
  const ModelParameters parameters = model_parameters(plan.recipe, shipped_tables());
  return in_minutes(plan.run->times.reserve_worst - longest_after_heat(parameters));
}

// Checks any text with the bounds that a person works from.
void is_safe(const Plan& plan, const std::string& text, bool has_clock) {
  const RunPlan& run = *plan.run;
  const Units units = plan.recipe.units;
  CAPTURE(plan.recipe.plant->key, plan.recipe.still->key, units == Units::us, run.stops_by_clock(),
          text);
  const auto found = read(text);
  REQUIRE(found);
  REQUIRE(found->by);
  // A person who can't see the level has only this time to go by.
  CHECK(*found->by <= latest_allowed(plan));
  CHECK(*found->by <= in_minutes(run.times.latest) + 1e-9);
  CHECK(*found->by > in_minutes(run.times.latest) - 1.0 - 1e-9);
  if (has_clock) {
    const auto clocks = clocks_after(text, "heat off by");
    REQUIRE_FALSE(clocks.empty());
    for (const double at : clocks) CHECK(at == std::fmod(*found->by, 24 * 60));
  }
  // If the level isn't reached, there may be a leak. Even with the strongest heater, and with
  // nothing caught, the pot isn't dry by then.
  static const std::regex leak("Not at ([0-9.]+ [a-zA-Z ]+?) by " + a_time +
                               ": heat off, find out why");
  std::smatch match;
  const bool given_up = std::regex_search(text, match, leak);
  CHECK(given_up == !run.stops_by_clock());
  if (given_up) {
    CHECK(match[1] == firstdrop::text(*run.stop.hydrosol, units));
    const double at = minutes_of(match, 2);
    const ModelParameters parameters = model_parameters(plan.recipe, shipped_tables());
    CHECK(at <= in_minutes(run.times.dry_worst - longest_after_heat(parameters)) + 1e-9);
    CHECK(at >= *found->by);
  }
  // No other words give a later limit.
  for (const char* words :
       {"[Ll]atest", "at the latest", "no later than", " late[ .,;:]", "[Nn]ever past"}) {
    CAPTURE(words);
    CHECK_FALSE(std::regex_search(text, std::regex(words)));
  }
  // It is the level beyond which the worst case would be short of water.
  if (found->before) CHECK(*found->before == firstdrop::text(run.water.never_beyond, units));
  // The clock binds a person who sees the level only where the clock ends the run.
  CHECK(found->in_any_case == !run.stop.hydrosol);
  if (run.stop.hydrosol) {
    REQUIRE(found->level);
    CHECK(*found->level == firstdrop::text(*run.stop.hydrosol, units));
    CHECK(*found->within <= in_minutes(plan.recipe.limits.absence) + 1e-9);
  } else {
    CHECK_FALSE(found->level);
  }
}

}  // namespace

TEST_CASE("the reader of bounds can fail", "[bounds]") {
  CHECK_FALSE(read("Never past 1.1 L, never more than 15 min late."));
  const auto level = read(
      "STOP. Heat off before 37 fl oz is in the receiver and within 15 min of reaching 27 fl oz. "
      "Jug not checked: heat off by 1 h 50 min (11:20). More.");
  REQUIRE(level);
  CHECK(level->before == "37 fl oz");
  CHECK(level->within == 15.0);
  CHECK(level->level == "27 fl oz");
  CHECK(level->by == 110.0);
  CHECK(level->by_clock == "11:20");
  CHECK_FALSE(level->in_any_case);
  const auto timed =
      read("Heat off before 1.1 L is caught in total. In any case: heat off by 65 min.");
  REQUIRE(timed);
  CHECK(timed->by == 65.0);
  CHECK(timed->in_any_case);
  CHECK_FALSE(timed->level);
  const auto at_once =
      read("Heat off at once at 800 mL. Jug not checked: heat off by 2 h (__:__).");
  REQUIRE(at_once);
  CHECK(at_once->within == 0.0);
  CHECK(at_once->by == 120.0);
  CHECK(clocks_after("heat off by 70 min (10:40).", "heat off by") == std::vector<double>{70.0});
}

TEST_CASE("nobody who reads sheet, calendar or picture is past the worst case", "[bounds]") {
  const std::vector<Plan> all = plans();
  CHECK(all.size() >= 40);
  int by_clock = 0;
  for (const Plan& plan : all) {
    by_clock += plan.run->stops_by_clock() ? 1 : 0;
    for (const SheetFormat format : {SheetFormat::text, SheetFormat::markdown}) {
      std::string sheet = run_sheet(plan, format);
      if (format == SheetFormat::markdown) std::erase(sheet, '\\');
      is_safe(plan, plain(sheet), true);
    }
    const auto made_at = std::chrono::sys_seconds(std::chrono::seconds(0));
    const auto minute = parse_local_minute(start).value();
    is_safe(plan, plain(run_calendar(plan, minute, made_at)), true);
    is_safe(plan, plain(run_picture(plan)), true);
    is_safe(plan, bounds_in_words(plan, ""), false);
  }
  CHECK(by_clock >= 10);
  CHECK(by_clock <= static_cast<int>(all.size()) - 10);
}

TEST_CASE("who sees a low level is not stopped by the clock", "[bounds]") {
  int seen = 0;
  for (const Plan& plan : plans()) {
    if (!plan.run->stop.hydrosol) continue;
    ++seen;
    CAPTURE(plan.recipe.plant->key, plan.recipe.still->key);
    const std::string sheet = plain(run_sheet(plan, SheetFormat::text));
    CHECK(sheet.find("Jug not checked: heat off by") != std::string::npos);
    CHECK(sheet.find("In any case") == std::string::npos);
    CHECK(sheet.find("by the clock") == std::string::npos);
  }
  CHECK(seen >= 10);
}

TEST_CASE("nobody who reads a campaign is past the worst case", "[bounds]") {
  int seen = 0;
  for (const Plan& one : plans()) {
    if (one.recipe.units == Units::us && one.recipe.plant->key != "lavender") continue;
    Campaign campaign;
    campaign.title = "Bounds";
    campaign.units = one.recipe.units;
    campaign.bench.first_day = parse_local_day("2026-06-20").value();
    campaign.bench.from = std::chrono::minutes(9 * 60 + 30);
    campaign.bench.to = std::chrono::minutes(9 * 60 + 29);
    campaign.work = {{one.recipe, "", HarvestOrder{one.charge.mass}, std::nullopt}};
    const CampaignPlan planned = plan_campaign(campaign, shipped_tables(), samples);
    if (!planned.may_be_run() || planned.runs() != 1) continue;
    ++seen;
    const Plan& plan = planned.work.front().plan;
    const std::string page = plain(campaign_markdown(planned));
    is_safe(plan, page.substr(0, page.find("Notes")), true);
    const auto made_at = std::chrono::sys_seconds(std::chrono::seconds(0));
    const std::string calendar = plain(campaign_calendar(planned, made_at));
    const auto clock = clocks_after(calendar, "heat off by");
    REQUIRE(clock.size() == 1);
    CHECK(clock.front() <= latest_allowed(plan));
    CHECK_THAT(clock.front(), WithinAbs(in_minutes(stop_bounds(plan).by), 1e-9));
    CAPTURE(calendar);
    CHECK(read(calendar));
  }
  CHECK(seen >= 20);
}

TEST_CASE("bounds at their edges", "[bounds]") {
  Plan p = plan(recipe(herb(), column_still(), HydrosolGoal{millilitres(500)}));
  p.run->water.never_beyond = millilitres(640);
  p.run->times.latest = minutes(70.99);
  p.run->times.give_up = minutes(89.5);
  const std::string leak = " Not at 500 mL by 89 min: heat off, find out why (weak heater, leak).";
  CHECK(bounds_in_words(p, "10:40") ==
        "Heat off before 640 mL is in the receiver and within 15 min of reaching 500 mL. Jug not "
        "checked: heat off by 70 min (10:40)." +
            leak);
  // Rounded down, not to the nearest minute. No level is named above the stop's.
  p.recipe.limits.absence = minutes(7.9);
  p.run->water.never_beyond = millilitres(500);
  CHECK(bounds_in_words(p, "") ==
        "Heat off within 7 min of reaching 500 mL. Jug not checked: heat off by 70 min." + leak);
  p.recipe.limits.absence = minutes(0);
  CHECK(bounds_in_words(p, "") ==
        "Heat off at once at 500 mL. Jug not checked: heat off by 70 min." + leak);

  // With a level and a clock, the clock ends the nominal run. A strong heater may still reach the
  // level sooner, and then the clock doesn't hold for it.
  p.run->stop_criterion = StopRule::time;
  p.run->stop.clock = minutes(60);
  p.run->times.stop_worst = minutes(50);
  CHECK_FALSE(stop_bounds(p).in_any_case);
  p.run->times.stop_worst = minutes(60);
  CHECK(stop_bounds(p).in_any_case);
}

TEST_CASE("the timer is set to the strongest heater's stop", "[bounds]") {
  Plan p = plan(recipe(herb(), column_still(), HydrosolGoal{millilitres(500)}));
  p.run->times.earliest_stop = minutes(41.8);
  CHECK(timer_in_words(p) ==
        "Timer: 41 min. A very strong heater can reach 500 mL then; look from here on.");
  p.run->stop.clock = minutes(60);
  p.run->stop_criterion = StopRule::time;
  CHECK(timer_in_words(p).starts_with("Timer: 41 min. A very strong"));
  p.run->times.earliest_stop = minutes(60);
  CHECK(timer_in_words(p) == "Timer: 60 min, the stop.");
  p.run->stop.hydrosol.reset();
  CHECK(timer_in_words(p) == "Timer: 60 min, the stop.");
}

TEST_CASE("the heater is checked by a mark that a jug has", "[bench]") {
  // 100 mL at 20.9 mL/min takes 4 min 47 s. 50 mL would take 2 min 23 s, and 200 mL 9 min 34 s.
  const HeaterCheck metric = heater_check(millilitres_per_minute(20.9), Units::metric);
  CHECK(metric.mark == "100 mL");
  CHECK(metric.at_least == seconds(285));
  // 4 fl oz is 118.3 mL: 5 min 39 s.
  const HeaterCheck us = heater_check(millilitres_per_minute(20.9), Units::us);
  CHECK(us.mark == "4 fl oz (1/2 cup)");
  CHECK(us.at_least == seconds(335));
  CHECK(heater_check(millilitres_per_minute(20), Units::metric).at_least == minutes(5));
  CHECK(heater_check(millilitres_per_minute(1), Units::metric).mark == "50 mL");
  CHECK(heater_check(millilitres_per_minute(780), Units::us).mark == "1 gal");
  CHECK(heater_check(litres(1) / minutes(1), Units::metric).mark == "5 L");

  Plan p = plan(recipe(herb(), column_still(), HydrosolGoal{millilitres(500)}));
  p.run->rates.distillate_most = millilitres_per_minute(20.9);
  CHECK(heater_check_in_words(p) ==
        "100 mL in less than 4 min 45 s? Too hot for this plan: turn down until it "
        "takes longer, or heat off.");
  // A heater within the plan is never called too hot.
  for (const double flow : {0.7, 3.3, 14.2, 19.8, 66.0, 310.0, 1500.0}) {
    for (const Units units : {Units::metric, Units::us}) {
      const HeaterCheck check = heater_check(millilitres_per_minute(flow), units);
      CHECK(check.at_least > seconds(0));
      CHECK(std::fmod(in_seconds(check.at_least), 5.0) == 0.0);
    }
  }
}

TEST_CASE("water is poured as warm as the recipe says", "[bench]") {
  Recipe r = recipe(herb(), column_still(), HydrosolGoal{millilitres(500)});
  const Plan cold = plan(r);
  CHECK(how_warm_to_pour(cold.recipe) == "at room temperature");
  r.water_temperature = celsius(90);
  const Plan warm = plan(r);
  REQUIRE(warm.run);
  CHECK(how_warm_to_pour(warm.recipe) == "at 90 °C");
  CHECK(warm.run->water.pour > warm.run->water.first_fill * 1.01);
  const std::string sheet = plain(run_sheet(warm, SheetFormat::text));
  CHECK(sheet.find(text(warm.run->water.pour, Units::metric) + " at 90 °C [ ]") !=
        std::string::npos);
}

TEST_CASE("ice goes in by what is seen", "[bench]") {
  Plan p = plan(recipe(herb(), iced_still(litres(1), litres(6), kilograms(1)),
                       HydrosolGoal{millilitres(500)}));
  REQUIRE_FALSE(p.run->cooling.ice_changes.empty());
  const IceChange& first = p.run->cooling.ice_changes.front();
  CHECK(sign_for_ice(p, first) == "coolant at 35 °C");
  CHECK(ice_change_in_words(grams(510), Units::metric) ==
        "take out 600 mL of warm water, put in 600 g of ice");

  // For the ice before the stop, the sign is the nominal run's level at that time, rounded so that
  // it is below the stop.
  p.run->cooling.ice_before_stop = minutes(55);
  p.run->times.first_drop = minutes(20);
  p.run->times.stop = minutes(60);
  p.run->rates.distillate = millilitres_per_minute(12.7);  // 444.5 mL after 35 min
  const IceChange last{minutes(55), kilograms(1)};
  CHECK(is_before_stop(p, last));
  CHECK(sign_for_ice(p, last) == "440 mL in the receiver, coolant warm or not");
  CHECK_FALSE(is_before_stop(p, {minutes(54), kilograms(1)}));
  p.run->stop.clock = minutes(60);
  CHECK(sign_for_ice(p, last) ==
        "440 mL in the receiver or 55 min by the clock, coolant warm or not");
  p.run->stop_criterion = StopRule::time;
  p.run->stop.hydrosol.reset();
  CHECK(sign_for_ice(p, last) == "55 min by the clock, coolant warm or not");
  p.run->cooling.ice_before_stop.reset();
  CHECK(sign_for_ice(p, last) == "coolant at 35 °C");
}

TEST_CASE("the end of the ice is the end of the heat", "[bench]") {
  Plan p = plan(recipe(herb(), iced_still(litres(1), litres(6), kilograms(1)),
                       HydrosolGoal{millilitres(500)}));
  CHECK(coolant_limit_in_words(p) ==
        "Coolant at its limit (35 °C): ice in, each time; no ice left: HEAT OFF.");
  p.run->cooling.first_ice = p.run->cooling.ice_ready;  // all of it is in the bath at the start
  p.run->cooling.ice = p.run->cooling.ice_ready;
  p.run->cooling.ice_changes.clear();
  CHECK(coolant_limit_in_words(p) == "Coolant at its limit (35 °C): HEAT OFF.");
  p.run->cooling.first_ice.reset();
  p.run->cooling.ice.reset();
  p.run->cooling.ice_ready.reset();
  CHECK(coolant_limit_in_words(p) == "Coolant at its limit (35 °C): HEAT OFF.");
  CHECK(ice_in_words(p).empty());
  const Plan tap =
      plan(recipe(herb(), tap_still(millilitres_per_minute(2000)), HydrosolGoal{millilitres(500)}));
  CHECK(coolant_limit_in_words(tap).empty());
}

TEST_CASE("what comes after heat off, and the gauge", "[bench]") {
  Plan p = plan(recipe(herb(), column_still(), HydrosolGoal{millilitres(500)}));
  p.run->water.after_heat_off = millilitres(25.2);
  CHECK(more_after_heat_in_words(p) == "About 25 mL more comes");
  const std::string leave = "Leave the pot where it is, and the coolant on until nothing drips.";
  CHECK(after_heat_in_words(p) == "About 25 mL more comes after heat off. " + leave);
  p.run->water.after_heat_off = millilitres(1);
  CHECK(more_after_heat_in_words(p).empty());
  CHECK(after_heat_in_words(p) == leave);
  CHECK(gauge_in_words(p) == "The jug is the gauge: a metal pot shows no level.");
  p.recipe.still.change().pot.material = "glass";
  CHECK(gauge_in_words(p).empty());
}

TEST_CASE("whoever pours and stops by the printed figures is on the safe side", "[stop-bounds]") {
  int read = 0;
  for (const Recipe& plain : plain_recipes({"lavender", "rosemary"})) {
    for (const double goal : {0.0, 333.3, 817.6, 1234.5, 12345.0}) {
      for (const Units units : {Units::metric, Units::us}) {
        Recipe r = plain;
        r.units = units;
        if (goal > 0.0) r.goal = HydrosolGoal{millilitres(goal)};
        const Plan p = make_plan(r, shipped_tables(), 16);
        if (!p.may_be_run()) continue;
        const Volume poured = *parse_quantity<Volume>(pour_text(p)).value;
        const Volume stop = *parse_quantity<Volume>(text(*p.run->stop.hydrosol, units)).value;
        CAPTURE(pour_text(p), in_millilitres(p.run->water.pour), goal, r.still->key);
        CHECK(poured >= p.run->water.pour * (1 - 1e-9));
        CHECK(stop <= *p.run->stop.hydrosol * (1 + 1e-9));
        ++read;
      }
    }
  }
  CHECK(read > 60);
}
