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
std::string figure_json(const Range<Q>& range, const ShownUnit<Q>& unit, const std::string& day) {
  return fmt::format(
      R"({{"low": {:.4g}, "typical": {:.4g}, "high": {:.4g}, "unit": "{}", )"
      R"("basis": "measured in a water run on {}, and the defaults", "known": "measured"}})",
      unit.number(range.low), unit.number(range.typical), unit.number(range.high), unit.symbol,
      day);
}

}  // namespace

std::string measured_still(const std::string& text, const WaterRunResult& result,
                           std::chrono::local_days day,
                           const std::optional<MeasuredRuns>& earlier) {
  const std::string date = day_text(day);
  const StillFigures& after = result.after;
  std::string still = json::with_value(text, {"heater", "efficiency"},
                                       figure_json(after.efficiency, shown_in::percent, date));
  still = json::with_value(still, {"wall_hold_up"},
                           figure_json(after.wall_hold_up, shown_in::grams, date));
  still =
      json::with_value(still, {"heat_loss"},
                       figure_json(after.heat_loss, shown_in::watts_per_square_metre_kelvin, date));
  // Rounded up, because the worst case of plans rests on it.
  const Fraction seen = std::max(result.hottest, earlier ? earlier->hottest : fraction(0));
  const double hottest = std::min(std::ceil(in_percent(seen) * 10.0) / 10.0, 100.0);
  return json::with_value(
      still, {"measured_runs"},
      fmt::format(R"({{"runs": 1, "days": 1, "last": "{}", "hottest": "{:.1f} %"}})", date,
                  hottest));
}

}  // namespace firstdrop
