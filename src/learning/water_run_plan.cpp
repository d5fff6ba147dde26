#include "learning/water_run_plan.hpp"

#include <algorithm>
#include <functional>

#include "model/model_parameters.hpp"
#include "physics/heat_balance.hpp"
#include "physics/reserve.hpp"
#include "physics/water.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {
namespace {

// Common practice, no source: a fifth takes about as long as the boil, and half of that is still
// enough to tell the rate to a few percent.
constexpr double usual_draw = 0.2;  // of the fill
constexpr double least_draw = 0.1;
constexpr std::array<double, 3> mark_shares = {0.4, 0.7, 1.0};  // of the last mark

Fraction at_most_one(Fraction share) {
  return std::min(share, fraction(1));
}

Power heat_at(const WaterRunSetup& setup, const StillFigures& figures, double quantile) {
  return heat_into_pot(positive_at(setup.still.heater.power, quantile), setup.setting,
                       at_most_one(figures.efficiency.at(quantile)));
}

// The most heat into the pot that occurs: inequality 1 of model/worst_case.hpp.
Power most_heat(const WaterRunSetup& setup, const StillFigures& figures,
                const DesignDefaults& defaults) {
  const double margin =
      std::max(mains_margin(setup.still, defaults).most, dial_margin(setup.setting, defaults));
  return std::max(heat_at(setup, figures, 1.0), heat_at(setup, figures, 0.9) * margin);
}

// What the strongest heater can draw from the pot.
struct WorstDraw {
  MassFlow vapour;
  MassFlow
      to_condense;  ///< with the mains at their nominal voltage, as for the condenser of a plan
  Fraction uncondensed;
  Mass spare;  // water that may be drawn as vapour until the last mark
};

WorstDraw worst_draw(const WaterRunSetup& setup, const StillFigures& figures, Duration absence,
                     Mass reserve, const Tables& tables) {
  const DesignDefaults& defaults = tables.design_defaults;
  const HeatTransfer least_film = std::max(figures.heat_loss.least(), figures.heat_loss.low * 0.5);
  StillFigures hottest = figures;
  hottest.heat_loss = Range<HeatTransfer>::exactly(least_film);
  const WaterRunModel model(setup, hottest, tables);
  WorstDraw worst;
  worst.vapour = model.vapour_at(most_heat(setup, figures, defaults));
  worst.to_condense = model.vapour_at(heat_at(setup, figures, 1.0));
  worst.uncondensed = std::min(figures.uncondensed_loss.most(), fraction(0.5));
  const Mass poured = setup.fill * (1.0 - defaults.fill_error.range.most());
  worst.spare = poured - figures.wall_hold_up.most() - reserve -
                worst.vapour * (absence + figures.stored_heat.most());
  return worst;
}

Range<Duration> as_times(const Percentiles& p) {
  return {seconds(p.p10), seconds(p.p50), seconds(p.p90)};
}

// The time of a moment of the run: P10, P50 and P90. None if a drop might not come.
std::optional<Range<Duration>> expected(
    const WaterRunModel& model,
    const std::function<Duration(const Run&, const ScoreVector&)>& moment) {
  const auto p = percentiles(
      [&](const ScoreVector& scores) -> std::optional<double> {
        const auto run = model.run(scores);
        return run ? std::optional(moment(*run, scores).si()) : std::nullopt;
      },
      ScoreVector(run_score_count), identity(run_score_count));
  return p ? std::optional(as_times(*p)) : std::nullopt;
}

// Fills in the expected times; false if a drop might not come.
bool add_times(WaterRunPlan& plan, const WaterRunModel& model) {
  const auto boil = expected(model, [](const Run& run, const ScoreVector&) { return run.boil(); });
  const auto drop =
      expected(model, [](const Run& run, const ScoreVector&) { return run.first_drop(); });
  if (!boil || !drop) return false;
  plan.boil = *boil;
  plan.first_drop = *drop;
  // As far beyond P90 as that is beyond the median: fewer than 1 run in 100.
  plan.none_by = drop->high + (drop->high - drop->typical);
  for (TimedMark& mark : plan.marks) {
    const auto at = expected(model, [&](const Run& run, const ScoreVector& scores) {
      return run.time_of_hydrosol(model.caught(mark.level, scores));
    });
    if (!at) return false;
    mark.at = *at;
  }
  return true;
}

}  // namespace

Volume usual_water_run_fill(const Still& still, Units units) {
  return neat_down(
      fill_room(least_of(still.pot.volume), least_of(still.pot.fill_limit), litres(0)) * 0.5,
      units);
}

std::variant<WaterRunPlan, NoWaterRun> plan_water_run(const WaterRunSetup& setup, Duration absence,
                                                      Units units, const Tables& tables) {
  const Still& still = setup.still;
  const Density poured = liquid_density(setup.poured);
  const Density drawn = setup.water.fill_density;
  WaterRunPlan plan;
  plan.fill_mass = setup.fill;
  plan.fill = setup.fill / poured;
  const Volume room =
      fill_room(least_of(still.pot.volume), least_of(still.pot.fill_limit), litres(0));
  if (plan.fill > room * (1.0 + 1e-9)) return NoWaterRun::pot_overfull;

  const Mass reserve = water_reserve(setup.fill, tables.design_defaults.reserve_share.typical(),
                                     most_of(still.pot.minimum_water) * poured, grams(0));
  const StillFigures own = figures_of(still, setup.method, tables);
  const StillFigures before = figures_before_runs(still, setup.method, tables);
  const WaterRunModel model(setup, own, tables);
  if (!model.run(ScoreVector(run_score_count))) return NoWaterRun::too_weak;
  const WorstDraw of_own = worst_draw(setup, own, absence, reserve, tables);
  const WorstDraw of_kind = worst_draw(setup, before, absence, reserve, tables);
  const auto most_drawn = [&](const WorstDraw& worst) {
    return worst.spare * (1.0 - worst.uncondensed) / drawn;
  };
  const MassFlow steam = std::max(of_own.to_condense, of_kind.to_condense);
  if (!condenses(setup, steam, setup.coolant, tables)) return NoWaterRun::steam_escapes;
  const Volume most = std::min(most_drawn(of_own), most_drawn(of_kind));
  const Volume usual = plan.fill * usual_draw;
  if (most < plan.fill * least_draw) return NoWaterRun::too_little;
  Volume last = neat_down(std::min(usual, most), units);
  plan.drawn_less = last < neat_down(usual, units);
  const Fraction uncondensed = std::max(of_own.uncondensed, of_kind.uncondensed);
  const auto cooled = [&] {
    return water_run_cooling(setup, steam, uncondensed, last * drawn, absence, tables);
  };
  auto cooling = cooled();
  for (; !cooling && last >= plan.fill * least_draw; cooling = cooled()) {
    last = neat_down(last * 0.9, units);
    plan.cooled_less = true;
  }
  if (!cooling || last < plan.fill * least_draw) return NoWaterRun::coolant_warms;
  plan.cooling = *cooling;
  for (std::size_t i = 0; i < plan.marks.size(); ++i)
    plan.marks[i].level =
        i + 1 == plan.marks.size() ? last : neat_down(last * mark_shares[i], units);
  const auto left = [&](const WorstDraw& worst) {
    return (worst.spare + reserve - last * drawn / (1.0 - worst.uncondensed)) / poured;
  };
  plan.left_at_worst = std::min(left(of_own), left(of_kind));
  plan.reserve = reserve / poured;
  const MassFlow vapour = std::max(of_own.vapour, of_kind.vapour);
  plan.most_distillate = vapour / drawn;
  if (!add_times(plan, model)) return NoWaterRun::too_weak;
  return plan;
}

}  // namespace firstdrop
