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
  return result;
}

/// The shipped bench column as a file of one's own.
std::string own_file() {
  const std::string entry(*table_entry("bench-column", embedded_table_texts().stills));
  return "{\"still\": 1, " + entry.substr(1);
}

}  // namespace

TEST_CASE("a still's file with measured figures is read back", "[still]") {
  const std::string text =
      measured_still(own_file(), shown(percent(69.21)), first_of_december, std::nullopt);
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
  // Rounded up.
  CHECK_THAT(in_percent(still.measured_runs->hottest), WithinAbs(69.3, 1e-9));
}

TEST_CASE("the hottest run of all is kept, and it is never above the power drawn", "[still]") {
  const MeasuredRuns earlier{3, 2, first_of_december, percent(74)};
  const auto hottest = [&](Fraction share, const std::optional<MeasuredRuns>& before) {
    const std::string text = measured_still(own_file(), shown(share), first_of_december, before);
    return in_percent(read_still(text, "mine.json", shipped_tables()).measured_runs->hottest);
  };
  CHECK_THAT(hottest(percent(70), earlier), WithinAbs(74, 1e-9));
  CHECK_THAT(hottest(percent(76), earlier), WithinAbs(76, 1e-9));
  CHECK_THAT(hottest(percent(101.2), std::nullopt), WithinAbs(100, 1e-9));
}
