// Campaigns: how many runs, on which days and when. Runs by the clock let the days be worked out by
// hand. A run of an hour with its person 15 min late blocks the still for 75 min, and cleaning
// takes 45 min more.
#include "campaign/campaign.hpp"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "campaign/campaign_calendar.hpp"
#include "campaign/campaign_content.hpp"
#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using namespace test_stills;

namespace {

namespace chrono = std::chrono;

LocalDay day(const char* text) {
  return parse_local_day(text).value();
}

Bench bench(const char* from = "09:00", const char* to = "17:00",
            const char* first_day = "2026-07-06") {
  Bench b;
  b.first_day = day(first_day);
  b.from = parse_time_of_day(from).value();
  b.to = parse_time_of_day(to).value();
  return b;
}

// The test column takes 153 g of the test herb: 1 L, 10 % of it head space, 170 g/L.
Recipe by_the_clock(Duration time = minutes(60)) {
  Still still = column_still();
  still.pot.volume = exactly(litres(5));  // enough water for more than an hour
  return recipe(herb(), still, TimeGoal{time});
}
Recipe by_level(Volume level = millilitres(500)) {
  return recipe(herb(), column_still(), HydrosolGoal{level});
}

WorkOrder harvest(Recipe recipe, Mass mass) {
  return {std::move(recipe), "", HarvestOrder{mass}, std::nullopt};
}

CampaignPlan planned(Bench bench, std::vector<WorkOrder> work) {
  Campaign campaign;
  campaign.title = "test";
  campaign.bench = std::move(bench);
  campaign.work = std::move(work);
  return plan_campaign(campaign, rules(), 16);
}

// "2026-07-06: 09:00 11:00", one line per day.
std::string starts(const CampaignPlan& plan) {
  std::string all;
  for (const CampaignDay& one : plan.days) {
    all += day_text(one.day) + ":";
    for (const CampaignRun& run : one.runs) {
      all += " " + time_of_day(one.day, minutes(double((run.heat_on - one.day).count())));
    }
    all += "\n";
  }
  return all;
}

std::string codes(const CampaignWork& work) {
  std::string all;
  for (const CampaignProblem& problem : work.problems) all += problem.code + " ";
  return all;
}

int runs_of(const CampaignPlan& plan) {
  return plan.work.front().runs;
}

}  // namespace

TEST_CASE("runs follow each other within the bench's hours, then on the next day", "[campaign]") {
  const CampaignPlan plan = planned(bench(), {harvest(by_the_clock(), grams(750))});
  REQUIRE(plan.may_be_run());
  CHECK(runs_of(plan) == 5);  // 750 g in fills of 153 g
  CHECK_THAT(in_grams(plan.work.front().plan.charge.mass), WithinRel(150, 1e-12));
  CHECK_THAT(in_minutes(done_by(plan.work.front().plan)), WithinAbs(75, 1e-6));
  CHECK(starts(plan) ==
        "2026-07-06: 09:00 11:00 13:00 15:00\n"
        "2026-07-07: 09:00\n");
  const CampaignRun& second = plan.days.front().runs.at(1);
  CHECK(second.number == 2);
  CHECK(date_and_time(second.stop) == "2026-07-06 12:00");
  CHECK(date_and_time(second.done_by) == "2026-07-06 12:15");
  // By the clock, the worst case ends like any other: after an hour, and 15 min late.
  CHECK(date_and_time(second.heat_off_by) == "2026-07-06 12:15");
  CHECK(plan.days.back().runs.front().number == 5);
}

TEST_CASE("a run that may end after the bench is left to another day", "[campaign]") {
  const std::vector<WorkOrder> work = {harvest(by_the_clock(), grams(750))};
  CHECK(planned(bench("09:00", "16:15"), work).days.front().runs.size() == 4);
  CHECK(planned(bench("09:00", "16:14"), work).days.front().runs.size() == 3);
}

TEST_CASE("heat goes on on full five minutes", "[campaign]") {
  Bench b = bench("09:02");
  b.between_runs = minutes(47);
  CHECK(starts(planned(b, {harvest(by_the_clock(), grams(450))})) ==
        "2026-07-06: 09:05 11:10 13:15\n");  // 10:20 + 47 min, 12:25 + 47 min
}

TEST_CASE("a bench may be open over midnight, and over the end of months and years", "[campaign]") {
  CHECK(starts(planned(bench("22:00", "02:00", "2026-12-30"),
                       {harvest(by_the_clock(), grams(750))})) ==
        "2026-12-30: 22:00 00:00 +1d\n"
        "2026-12-31: 22:00 00:00 +1d\n"
        "2027-01-01: 22:00\n");
  CHECK(starts(planned(bench("09:00", "12:15", "2028-02-28"),
                       {harvest(by_the_clock(), grams(900))})) ==
        "2028-02-28: 09:00 11:00\n"
        "2028-02-29: 09:00 11:00\n"
        "2028-03-01: 09:00 11:00\n");
}

TEST_CASE("a campaign's calendar says of which runs the clock may be changed", "[campaign]") {
  const CampaignPlan plan =
      planned(bench("18:00", "02:00", "2026-10-24"), {harvest(by_the_clock(), grams(450))});
  REQUIRE(starts(plan) == "2026-10-24: 18:00 20:00 22:00\n");
  std::string text = campaign_calendar(plan, {});
  for (std::size_t at; (at = text.find("\r\n ")) != std::string::npos;) text.erase(at, 3);
  const auto warns = [&](const std::string& run) {
    const std::size_t begin = text.find("SUMMARY:" + run);
    REQUIRE(begin != std::string::npos);
    const std::size_t said = text.find("Clocks may change in the night to Sun 2026-10-25.", begin);
    return said < text.find("END:VEVENT", begin);
  };
  CHECK_FALSE(warns("Run 1"));
  CHECK_FALSE(warns("Run 2"));
  CHECK(warns("Run 3"));
}

TEST_CASE("no run begins before the one of the night before is cleared away", "[campaign]") {
  // Open for all but one minute of each day.
  const CampaignPlan plan =
      planned(bench("09:00", "08:59"), {harvest(by_the_clock(), kilograms(6))});
  REQUIRE(plan.runs() == 40);
  std::optional<LocalMinute> free;
  for (const CampaignDay& one : plan.days) {
    for (const CampaignRun& run : one.runs) {
      if (free) CHECK(run.heat_on >= *free);
      CHECK(run.heat_on >= plan.campaign.bench.opens(one.day));
      CHECK(run.done_by <= plan.campaign.bench.closes(one.day));
      free = run.done_by + chrono::minutes(45);
    }
  }
  // Eleven two-hour turns end at 07:00. The twelfth may take until 08:15 and be cleared at 09:00.
  CHECK(plan.days.front().runs.size() == 12);
}

TEST_CASE("only on the days of the week that are asked for, and not on days off", "[campaign]") {
  Bench b = bench("09:00", "10:15");
  b.weekdays = {false, true, false, true, false, false, true};  // Monday, Wednesday, Saturday
  b.off = {day("2026-07-08"), day("2026-07-13")};
  CHECK(starts(planned(b, {harvest(by_the_clock(), grams(600))})) ==
        "2026-07-06: 09:00\n2026-07-11: 09:00\n2026-07-15: 09:00\n2026-07-18: 09:00\n");
}

TEST_CASE("a run longer than the bench's hours finds no day", "[campaign]") {
  const CampaignPlan exact =
      planned(bench("09:00", "10:15"), {harvest(by_the_clock(), grams(150))});
  CHECK(exact.may_be_run());
  const CampaignPlan plan = planned(
      bench("09:00", "10:14"),
      {harvest(by_the_clock(), grams(150)), harvest(by_the_clock(minutes(40)), grams(150))});
  CHECK_FALSE(plan.may_be_run());
  CHECK(codes(plan.work[0]) == "run-too-long ");
  CHECK_THAT(plan.work[0].problems[0].text, ContainsSubstring("keep the bench until 10:15"));
  CHECK(plan.work[0].placed == 0);
  CHECK(plan.work[0].runs == 1);
  CHECK(plan.work[1].placed == 1);  // the other work still gets its day
  CHECK(starts(plan) == "2026-07-06: 09:00\n");
}

TEST_CASE("the freezer bounds the runs of a day", "[campaign]") {
  const Recipe iced = recipe(herb(), iced_still(litres(1), litres(6), kilograms(1)),
                             HydrosolGoal{millilitres(500)});
  const std::vector<WorkOrder> work = {harvest(iced, grams(600))};
  Bench b = bench("06:00", "22:00");
  const CampaignPlan free = planned(b, work);
  REQUIRE(runs_of(free) == 4);
  REQUIRE(free.work.front().ice);
  const Mass ice = *free.work.front().ice;
  REQUIRE(ice >= grams(100));
  REQUIRE(free.days.size() == 1);
  CHECK_THAT(in_grams(free.days.front().needs.ice.value()), WithinRel(4 * in_grams(ice), 1e-9));

  b.ice_per_day = ice * 2.0;
  const CampaignPlan two = planned(b, work);
  REQUIRE(two.days.size() == 2);
  CHECK(two.days.front().runs.size() == 2);
  CHECK(two.may_be_run());

  b.ice_per_day = ice * 2.0 - grams(1);
  CHECK(planned(b, work).days.size() == 4);

  b.ice_per_day = ice - grams(1);
  const CampaignPlan none = planned(b, work);
  CHECK(codes(none.work.front()) == "ice-short ");
  CHECK(none.days.empty());
  CHECK(none.work.front().placed == 0);
}

TEST_CASE("a freezer that has what is expected, but not what to have ready, is warned of",
          "[campaign]") {
  const Recipe iced = recipe(herb(), iced_still(litres(1), litres(6), kilograms(1)),
                             HydrosolGoal{millilitres(500)});
  const std::vector<WorkOrder> work = {harvest(iced, grams(600))};
  Bench b = bench("06:00", "22:00");
  const CampaignPlan free = planned(b, work);
  const CampaignWork& all = free.work.front();
  REQUIRE(all.ice_ready);
  REQUIRE(*all.ice_ready > *all.ice);
  const CampaignDay& day = free.days.front();
  CHECK_THAT(in_grams(*day.needs.ice_ready), WithinRel(4 * in_grams(*all.ice_ready), 1e-9));
  CHECK(all.cautions.empty());

  b.ice_per_day = *day.needs.ice_ready;
  CHECK(planned(b, work).work.front().cautions.empty());
  b.ice_per_day = *day.needs.ice_ready - grams(200);
  const CampaignPlan short_of = planned(b, work);
  CHECK(short_of.may_be_run());
  REQUIRE(short_of.work.front().cautions.size() == 1);
  const CampaignProblem& caution = short_of.work.front().cautions.front();
  CHECK(caution.code == "ice-ready-short");
  CHECK_THAT(caution.text, ContainsSubstring("Buy the other 200 g"));
  CHECK_THAT(caution.text, ContainsSubstring("2026-07-06"));
  CHECK(verdict_of(short_of) == Verdict::caution);
}

TEST_CASE("what is refused has no amounts, and the rest its days", "[campaign]") {
  const CampaignPlan plan =
      planned(bench(), {harvest(by_level(litres(5)), grams(150)), harvest(by_level(), grams(150))});
  CHECK_FALSE(plan.may_be_run());
  CHECK(codes(plan.work[0]) == "refused ");
  CHECK_THAT(plan.work[0].problems[0].text, ContainsSubstring("Ways out"));
  CHECK(plan.work[0].runs == 0);
  CHECK(plan.work[0].placed == 0);
  CHECK(plan.work[0].herb() == grams(0));
  CHECK(plan.work[0].hydrosol().high == litres(0));
  CHECK(plan.work[1].placed == 1);
  CHECK(plan.runs() == 1);
}

TEST_CASE("days run out", "[campaign]") {
  Bench b = bench("09:00", "12:15");
  b.last_day = day("2026-07-07");
  const std::vector<WorkOrder> work = {harvest(by_the_clock(), grams(750)),
                                       harvest(by_the_clock(), grams(150))};
  const CampaignPlan plan = planned(b, work);
  CHECK_FALSE(plan.may_be_run());
  CHECK(plan.work[0].runs == 5);
  CHECK(plan.work[0].placed == 4);
  CHECK(codes(plan.work[0]) == "days-run-out ");
  CHECK_THAT(plan.work[0].problems[0].text, ContainsSubstring("1 of its 5 runs finds no day"));
  CHECK_THAT(plan.work[0].problems[0].text, ContainsSubstring("go on until 2026-07-08"));
  CHECK_THAT(plan.work[0].problems[0].text, ContainsSubstring("150 g of test herb"));
  // Work that comes later in the campaign also comes later on the bench.
  CHECK(codes(plan.work[1]) == "days-run-out ");
  CHECK(plan.days.size() == 2);

  b.last_day = day("2026-07-08");
  CHECK(planned(b, work).may_be_run());
}

TEST_CASE("a bench that is never open", "[campaign]") {
  Bench b = bench();
  b.weekdays.fill(false);
  const CampaignPlan plan = planned(b, {harvest(by_the_clock(), grams(150))});
  CHECK(codes(plan.work.front()) == "days-run-out ");
  CHECK_THAT(plan.work.front().problems[0].text, ContainsSubstring("within 366 days"));
  CHECK(plan.days.empty());
}

TEST_CASE("a harvest of more runs than a plan has", "[campaign]") {
  const CampaignPlan plan = planned(bench(), {harvest(by_level(), kilograms(4.5))});
  REQUIRE(plan.may_be_run());
  CHECK(runs_of(plan) == 30);
  CHECK_THAT(in_grams(plan.work.front().plan.charge.mass), WithinRel(150, 1e-12));
  CHECK_FALSE(finding(plan.work.front().plan, "several-runs"));
  CHECK(plan.work.front().plan.charge.runs == 30);

  const CampaignPlan far_too_many = planned(bench(), {harvest(by_level(), kilograms(200))});
  CHECK(codes(far_too_many.work.front()) == "too-many-runs ");
  CHECK(far_too_many.days.empty());
}

TEST_CASE("a goal that is an amount goes with the herb", "[campaign]") {
  // 500 mL from a full column of 150 g, so 450 mL from 135 g, on a mark of the jug.
  const CampaignPlan plan = planned(bench(), {harvest(by_level(), grams(405))});
  REQUIRE(runs_of(plan) == 3);
  const RunPlan& run = *plan.work.front().plan.run;
  CHECK_THAT(in_millilitres(run.stop.hydrosol.value()), WithinAbs(450, 1e-6));

  // If the recipe has its own charge, that counts: here 1 L from 300 g, in two runs.
  Recipe two_runs = by_level(litres(1));
  two_runs.charge = grams(300);
  const CampaignPlan of_two = planned(bench(), {harvest(two_runs, grams(450))});
  REQUIRE(runs_of(of_two) == 3);
  CHECK_THAT(in_millilitres(of_two.work.front().plan.run->stop.hydrosol.value()),
             WithinAbs(500, 1e-6));

  // A goal by time or by share stays the same for each run.
  const CampaignPlan timed = planned(bench(), {harvest(by_the_clock(), grams(405))});
  CHECK(timed.work.front().plan.run->stop.clock == minutes(60));
}

TEST_CASE("as many runs as typically give the hydrosol that is wanted", "[campaign]") {
  const auto wanted = [](Volume volume) {
    return planned(bench(), {{by_level(), "", HydrosolGoal{volume}, std::nullopt}});
  };
  const CampaignPlan plan = wanted(millilitres(1200));
  REQUIRE(plan.may_be_run());
  CHECK(runs_of(plan) == 3);  // a run of the recipe gives 500 mL
  const CampaignWork& work = plan.work.front();
  CHECK_THAT(in_millilitres(work.plan.run->stop.hydrosol.value()), WithinAbs(400, 1e-6));
  CHECK_THAT(in_millilitres(work.hydrosol().typical), WithinAbs(1200, 0.1));
  CHECK_THAT(in_grams(work.plan.charge.mass), WithinAbs(150, 1e-9));
  CHECK(runs_of(wanted(millilitres(1000))) == 2);
  CHECK(runs_of(wanted(millilitres(1010))) == 3);
  CHECK(runs_of(wanted(millilitres(100))) == 1);
}

TEST_CASE("as many runs as typically give the oil that is wanted", "[campaign]") {
  const auto wanted = [](Mass mass) {
    return planned(bench(), {{by_level(), "", OilGoal{mass}, std::nullopt}});
  };
  const Plan alone = plan(recipe(herb(), column_still(), OilGoal{grams(3)}));
  REQUIRE(alone.may_be_run());
  const CampaignPlan some = wanted(grams(3));
  CHECK(runs_of(some) == alone.charge.runs);
  CHECK(some.work.front().plan.charge.mass == alone.charge.mass);
  CHECK(some.work.front().oil().typical >= grams(3 * 0.9));

  // This also holds beyond what one plan takes, and in proportion.
  const CampaignPlan many = wanted(grams(30));
  CHECK(many.may_be_run());
  CHECK(runs_of(many) > 24);
  CHECK(many.work.front().oil().typical >= grams(30 * 0.9));
  CHECK(many.work.front().oil().typical <= grams(30 * 1.3));
}

TEST_CASE("oil that no number of runs gives is refused", "[campaign]") {
  Recipe weak = by_level();
  Plant poor = herb();
  poor.states.at(State::fresh).oil_content->by_mass =
      between(percent(0.002), percent(0.004), percent(0.006));
  weak.plant = poor;
  const CampaignPlan plan = planned(bench(), {{weak, "", OilGoal{grams(50)}, std::nullopt}});
  CHECK(codes(plan.work.front()).starts_with("refused "));
  CHECK(plan.days.empty());
}

TEST_CASE("sums are those of the runs that have their day", "[campaign]") {
  const CampaignPlan plan = planned(bench(), {harvest(by_level(), grams(450))});
  const CampaignWork& work = plan.work.front();
  REQUIRE(work.placed == 3);
  const Uncertainty& one = work.plan.run->uncertainty;
  CHECK_THAT(in_grams(work.herb()), WithinRel(450, 1e-12));
  CHECK_THAT(in_grams(work.oil().low), WithinAbs(3 * in_grams(one.oil_in_receiver.low), 1e-9));
  CHECK_THAT(in_grams(work.oil().high), WithinAbs(3 * in_grams(one.oil_in_receiver.high), 1e-9));
  CHECK_THAT(in_millilitres(work.oil_volume().typical),
             WithinAbs(3 * in_millilitres(one.oil_volume.typical), 1e-9));
  const CampaignNeeds needs = plan.needs();
  CHECK_THAT(in_millilitres(needs.pot_water),
             WithinAbs(3 * in_millilitres(work.plan.run->water.first_fill), 1e-6));
  CHECK_THAT(in_kilowatt_hours(needs.plug),
             WithinRel(3 * in_kilowatt_hours(work.plan.run->energy.plug), 1e-9));
  CHECK_FALSE(needs.ice);
}

TEST_CASE("water through the condenser is counted day by day", "[campaign]") {
  const Recipe tap =
      recipe(herb(), tap_still(millilitres_per_minute(2000)), HydrosolGoal{millilitres(500)});
  const CampaignPlan plan = planned(bench(), {harvest(tap, grams(300))});
  REQUIRE(plan.may_be_run());
  CHECK_THAT(
      in_litres(plan.needs().tap_water),
      WithinRel(2 * in_litres(plan.work.front().plan.run->cooling.coolant_used.value()), 1e-9));
}

TEST_CASE("the sheet of a run is made from its own plan", "[campaign]") {
  const CampaignPlan plan = planned(bench(), {harvest(by_the_clock(), grams(750))});
  const Plan fifth = run_of_campaign(plan, 5);
  CHECK(fifth.recipe.start == "2026-07-07T09:00");
  CHECK(fifth.charge.runs == 5);
  CHECK(run_of_campaign(plan, 1).recipe.start == "2026-07-06T09:00");
  CHECK_THROWS_AS(run_of_campaign(plan, 0), RangeError);
  CHECK_THROWS_AS(run_of_campaign(plan, 6), RangeError);
}

TEST_CASE("a recipe's own start counts for nothing, and all are in the campaign's units",
          "[campaign]") {
  Recipe started = by_the_clock();
  started.start = "2020-01-01T06:00";
  Campaign campaign;
  campaign.bench = bench();
  campaign.units = Units::us;
  campaign.work = {harvest(started, grams(150))};
  const CampaignPlan plan = plan_campaign(campaign, rules(), 16);
  CHECK(starts(plan) == "2026-07-06: 09:00\n");
  CHECK(plan.work.front().plan.recipe.start.empty());
  CHECK(plan.work.front().plan.recipe.units == Units::us);
}

TEST_CASE("done by is the end of nine runs in ten, with the person late", "[campaign]") {
  Plan p = plan(by_level());
  p.run->times.stop = minutes(60);
  p.run->uncertainty.stop = {minutes(50), minutes(61), minutes(80)};
  p.recipe.limits.absence = minutes(10);
  CHECK(done_by(p) == minutes(90));
  p.run->uncertainty.stop = {minutes(50), minutes(55), minutes(58)};
  CHECK(done_by(p) == minutes(70));
}

TEST_CASE("recipes that do not hold together are told of by their file", "[campaign]") {
  Recipe broken = by_level();
  broken.own.boil_time = minutes(10);  // needs own.boil_water or water beside it
  Campaign campaign;
  campaign.bench = bench();
  campaign.work = {harvest(by_level(), grams(150)), harvest(broken, grams(150))};
  campaign.work.push_back(campaign.work.back());
  campaign.work.back().file = "broken.json";
  try {
    plan_campaign(campaign, rules(), 16);
    FAIL("no fault");
  } catch (const InputError& error) {
    REQUIRE(error.faults().size() == 2);
    CHECK(error.faults()[0].pointer == "/work/1/recipe/own/boil_water");
    CHECK(error.faults()[1].file == "broken.json");
    CHECK(error.faults()[1].pointer == "/own/boil_water");
  }
}
