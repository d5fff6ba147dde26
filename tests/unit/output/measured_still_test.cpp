#include "output/measured_still.hpp"

#include <string>

#include "catch.hpp"
#include "quantity/clock_time.hpp"
#include "readers/table_entries.hpp"
#include "test_tables.hpp"

using namespace firstdrop;

namespace {

constexpr LocalDay first_of_december{std::chrono::days(20788)};

WaterRunResult shown(Fraction hottest) {
  WaterRunResult result{{}, {}, {}, {}, hottest, 1.0, {}, {{}, identity(0), {}, {}, 0.0, 1}};
  result.after.efficiency = {percent(66.214), percent(69.336), percent(72.016)};
  result.after.heat_loss = {watts_per_square_metre_kelvin(6.596),
                            watts_per_square_metre_kelvin(7.747),
                            watts_per_square_metre_kelvin(8.595)};
  result.after.wall_hold_up = {grams(13.02), grams(20.62), grams(34.81)};
  result.before.wall_hold_up = {grams(10), grams(20), grams(50)};
  return result;
}

/// The shipped bench column as a file of one's own.
std::string own_file() {
  const std::string entry(*table_entry("bench-column", embedded_table_texts().stills));
  return "{\"still\": 1, " + entry.substr(1);
}

/// The still of own_file() with these earlier runs, at a setting of the heater.
WaterRunSetup at(Fraction setting, std::optional<MeasuredRuns> earlier = std::nullopt) {
  WaterRunSetup setup;
  setup.still = read_still(own_file(), "mine.json", shipped_tables());
  setup.still.measured_runs = earlier;
  setup.setting = setting;
  return setup;
}

}  // namespace

TEST_CASE("a still's file with measured figures is read back", "[still]") {
  const std::string text =
      measured_still(own_file(), at(percent(60)), shown(percent(69.21)), first_of_december);
  const Still still = read_still(text, "mine.json", shipped_tables());
  REQUIRE(still.heater.efficiency);
  CHECK(still.heater.efficiency->evidence.known == Known::measured);
  CHECK(still.heater.efficiency->evidence.basis ==
        "measured in a water run on 2026-12-01, and the defaults");
  CHECK_THAT(in_percent(still.heater.efficiency->range.low), WithinAbs(66.2, 0.05));
  CHECK_THAT(in_percent(still.heater.efficiency->range.high), WithinAbs(72.0, 0.05));
  REQUIRE(still.heat_loss);
  CHECK_THAT(still.heat_loss->range.typical.si(), WithinAbs(7.75, 0.005));
  CHECK_THAT(in_grams(still.wall_hold_up.range.high), WithinAbs(34.8, 0.05));
  REQUIRE(still.measured_runs);
  CHECK(still.measured_runs->runs == 1);
  CHECK(still.measured_runs->days == 1);
  CHECK(still.measured_runs->last == first_of_december);
  CHECK_THAT(in_percent(still.measured_runs->setting), WithinAbs(60, 1e-9));
  // Rounded up.
  CHECK_THAT(in_percent(still.measured_runs->hottest), WithinAbs(69.3, 1e-9));
}

TEST_CASE("the hottest run of all is kept, and it is never above the power drawn", "[still]") {
  const MeasuredRuns earlier{3, 2, first_of_december, percent(74)};
  const auto hottest = [&](Fraction share, const std::optional<MeasuredRuns>& before) {
    const std::string text =
        measured_still(own_file(), at(percent(100), before), shown(share), first_of_december);
    return in_percent(read_still(text, "mine.json", shipped_tables()).measured_runs->hottest);
  };
  CHECK_THAT(hottest(percent(70), earlier), WithinAbs(74, 1e-9));
  CHECK_THAT(hottest(percent(76), earlier), WithinAbs(76, 1e-9));
  CHECK_THAT(hottest(percent(101.2), std::nullopt), WithinAbs(100, 1e-9));
}

TEST_CASE("a wall hold-up that the run says nothing of stays as it was", "[still]") {
  WaterRunResult result = shown(percent(70));
  result.after.wall_hold_up = result.before.wall_hold_up;
  const std::string text = measured_still(own_file(), at(percent(100)), result, first_of_december);
  const Still still = read_still(text, "mine.json", shipped_tables());
  const Still before = read_still(own_file(), "mine.json", shipped_tables());
  CHECK(still.wall_hold_up.range.high == before.wall_hold_up.range.high);
  CHECK(still.wall_hold_up.evidence.known == before.wall_hold_up.evidence.known);
  CHECK(still.heater.efficiency->evidence.known == Known::measured);
}

TEST_CASE("a run adds to those before it at its setting", "[still]") {
  const LocalDay before = first_of_december - std::chrono::days(3);
  const MeasuredRuns earlier{2, 1, before, percent(71), percent(60)};
  const auto runs = [&](Fraction setting, LocalDay day) {
    return with_this_run(at(setting, earlier), shown(percent(70)), day);
  };
  const MeasuredRuns third = runs(percent(60), first_of_december);
  CHECK(third.runs == 3);
  CHECK(third.days == 2);
  CHECK(third.last == first_of_december);
  CHECK(third.hottest == percent(71));
  CHECK(runs(percent(60), before).days == 1);
  // It may be that of a run that was counted.
  CHECK(runs(percent(60), before - std::chrono::days(1)).days == 1);
  const MeasuredRuns other = runs(percent(80), first_of_december);
  CHECK(other.runs == 1);
  CHECK(other.setting == percent(80));
  CHECK(other.hottest == percent(71));
  const std::string text =
      measured_still(own_file(), at(percent(60), earlier), shown(percent(70)), first_of_december);
  const Still still = read_still(text, "mine.json", shipped_tables());
  CHECK(still.measured_runs->runs == 3);
  CHECK(still.heater.efficiency->evidence.basis ==
        "measured in 3 water runs, the last on 2026-12-01, and the defaults");
}
