#include <algorithm>
#include <utility>

#include "model/worst_case.hpp"
#include "plan/settle.hpp"

namespace firstdrop {
namespace {

using found::OwnReading;

// Converts the readings taken on the bench to watts, and compares them with what the heater can
// give and with each other. Needs at least one reading.
std::vector<Finding> judge_readings(const Planning& p, const RunValues& v) {
  std::vector<Finding> findings;
  std::vector<OwnReading> readings;
  if (p.parameters.own_boil_time) readings.push_back({OwnReading::Kind::boil_time, v.heat_warming});
  if (p.parameters.own_rate)
    readings.push_back({OwnReading::Kind::distillate_rate, v.heat_boiling});
  const auto weaker = [](const OwnReading& a, const OwnReading& b) { return a.heat < b.heat; };
  const OwnReading low = *std::min_element(readings.begin(), readings.end(), weaker);
  const OwnReading high = *std::max_element(readings.begin(), readings.end(), weaker);
  const Fraction setting = p.recipe.setting;
  const Heater& heater = p.still.heater;
  const Power cap = most_of(heater.power) * setting * p.defaults.mains.range.high;
  if (high.heat > cap) {
    findings.emplace_back(Level::refuse,
                          found::OwnFigureImpossible{high, setting, heater.power.typical(), cap});
    return findings;
  }
  const Range<Power> by_tables = heat_by_tables(p.parameters);
  const bool too_hot = high.heat > by_tables.high;
  if (too_hot || low.heat < by_tables.low) {
    findings.emplace_back(Level::caution, found::OwnFigureUnlikely{too_hot ? high : low, setting,
                                                                   by_tables.low, by_tables.high});
  }
  const double accuracy = 2.0 * p.defaults.own_heat_accuracy.range.typical;
  if (low.heat * (1.0 + accuracy) < high.heat * (1.0 - accuracy)) {
    findings.emplace_back(Level::caution, found::OwnFiguresDisagree{low, high, setting});
  }
  return findings;
}

}  // namespace

std::vector<Finding> check_heater(const Planning& p, Mass charge) {
  const Mass fill = fill_to_judge_by(p, charge);
  const Run nominal = p.nominal.of(charge, fill);
  const RunValues& v = nominal.values();
  std::vector<Finding> findings;
  if (measured_heat(p.parameters)) findings = judge_readings(p, v);
  if (!findings.empty() && findings.back().level == Level::refuse) return findings;
  if (const auto failure = nominal.failure()) {
    const TemperatureDifference excess = p.parameters.boiling - p.recipe.site.room;
    const found::HeatAgainstLoss heat{p.recipe.setting, std::min(v.heat_warming, v.heat_boiling),
                                      (v.pot_loss + v.column_loss) * excess, p.parameters.boiling};
    if (*failure == RunFailure::never_boils)
      findings.emplace_back(Level::refuse, found::NeverBoils{heat});
    else
      findings.emplace_back(Level::refuse, found::NeverAtTheTop{heat});
  } else if (boiling_of(p.nominal.weakest(charge, fill)).failure) {
    findings.emplace_back(Level::caution, found::HeaterWeak{p.still.heater.kind});
  }
  return findings;
}

}  // namespace firstdrop
