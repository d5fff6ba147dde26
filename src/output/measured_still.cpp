#include "output/measured_still.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "json/json_edit.hpp"
#include "quantity/clock_time.hpp"
#include "quantity/shown_in.hpp"

namespace firstdrop {
namespace {

template <class Q>
std::string figure_json(const Range<Q>& range, const ShownUnit<Q>& unit, const std::string& basis) {
  return fmt::format(R"({{"low": {:.4g}, "typical": {:.4g}, "high": {:.4g}, "unit": "{}", )"
                     R"("basis": "{}", "known": "measured"}})",
                     unit.number(range.low), unit.number(range.typical), unit.number(range.high),
                     unit.symbol, basis);
}

/// Whether the run has narrowed this range. Our choice: by a fiftieth of its width or more.
template <class Q>
bool is_learned(const Range<Q>& before, const Range<Q>& after) {
  const auto width = [](const Range<Q>& range) { return (range.high - range.low) / range.typical; };
  return width(after) <= width(before) * 0.98;
}

}  // namespace

MeasuredRuns with_this_run(const WaterRunSetup& setup, const WaterRunResult& result,
                           std::chrono::local_days day) {
  const auto& earlier = setup.still.measured_runs;
  MeasuredRuns all{1, 1, day, result.hottest, setup.setting};
  if (!earlier) return all;
  // The hottest run counts at any setting.
  all.hottest = std::max(all.hottest, earlier->hottest);
  if (!adds_to_earlier_runs(setup)) return all;
  all.runs = earlier->runs + 1;
  // A day before the last may have been counted already.
  all.days = earlier->days + (day > earlier->last ? 1 : 0);
  all.last = std::max(day, earlier->last);
  return all;
}

std::string measured_still(const std::string& text, const WaterRunSetup& setup,
                           const WaterRunResult& result, std::chrono::local_days day) {
  const MeasuredRuns runs = with_this_run(setup, result, day);
  const std::string date = day_text(runs.last);
  const std::string basis =
      runs.runs == 1 ? fmt::format("measured in a water run on {}, and the defaults", date)
                     : fmt::format("measured in {} water runs, the last on {}, and the defaults",
                                   runs.runs, date);
  const StillFigures& after = result.after;
  std::string still = json::with_value(text, {"heater", "efficiency"},
                                       figure_json(after.efficiency, shown_in::percent, basis));
  if (is_learned(result.before.wall_hold_up, after.wall_hold_up))
    still = json::with_value(still, {"wall_hold_up"},
                             figure_json(after.wall_hold_up, shown_in::grams, basis));
  still = json::with_value(
      still, {"heat_loss"},
      figure_json(after.heat_loss, shown_in::watts_per_square_metre_kelvin, basis));
  // Rounded up, because the worst case of plans rests on it.
  const double hottest = std::min(std::ceil(in_percent(runs.hottest) * 10.0) / 10.0, 100.0);
  return json::with_value(
      still, {"measured_runs"},
      fmt::format(
          R"({{"runs": {}, "days": {}, "last": "{}", "hottest": "{:.1f} %", "setting": "{:.10g} %"}})",
          runs.runs, runs.days, date, hottest, in_percent(runs.setting)));
}

}  // namespace firstdrop
