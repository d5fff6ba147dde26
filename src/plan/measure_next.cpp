#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <utility>

#include "firstdrop/base/error.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/tables/tables.hpp"
#include "model/selected_parameters.hpp"
#include "quantity/normal.hpp"
#include "quantity/numbers_text.hpp"
#include "quantity/range_text.hpp"

namespace firstdrop {
namespace {

/// A measurement of the still, and the recipe as it would be with its likely result.
struct Measurement {
  std::string text;
  Recipe recipe;
};

/// Standard deviation, relative, of the heat of a still after `runs` water runs, if they agree.
/// `before` is that of the defaults; `reading` that of a reading of the jug. Source: normal-normal
/// estimate of a mean, whose variance from run to run is pooled with that of five earlier runs (our
/// choice).
double known_after(int runs, double before, double run_to_run, double reading) {
  constexpr double earlier = 4.0;
  const double variance =
      earlier * (run_to_run * run_to_run + reading * reading) / (earlier + runs - 1);
  return 1.0 / std::sqrt(1.0 / (before * before) + runs / variance);
}

/// The range with this median and this standard deviation, relative.
Range<Fraction> around(Fraction median, double sd) {
  const double by = std::exp(p90_in_sd * sd);
  return {median / by, median, std::min(median * by, fraction(1))};
}

/// The still's condensing surface, measured as its default says it usually is.
std::optional<Measurement> condensing_surface(const Recipe& asked) {
  const Cited<Area>& surface = asked.still->condenser.surface;
  if (surface.evidence.known != Known::default_value) return std::nullopt;
  Measurement one{{}, asked};
  Cited<Area>& known = one.recipe.still.change().condenser.surface;
  known.range = {surface.typical() * 0.95, surface.typical(), surface.typical() * 1.05};
  one.text = fmt::format(
      "Measure the condenser: length and inside diameter of its tube, or the dome's diameter. The "
      "plan counts on {} to be safe. If it has about {}, as usual, this plan goes as it is.",
      text(least_of(surface), asked.units), text(surface.typical(), asked.units));
  return one;
}

/// The herb that fills the column once, weighed.
std::optional<Measurement> bulk_density(const Recipe& asked, const SelectedParameters& selected) {
  if (asked.own.bulk_density || asked.method_used() == Method::hydro) return std::nullopt;
  Measurement one{{}, asked};
  one.recipe.own.bulk_density = selected.bulk_density.typical();
  one.text = fmt::format(
      "Fill the space for the herb loosely once, weigh that herb, and enter its weight per volume "
      "as own.bulk_density. If it is about {}, as usual, this plan goes as it is.",
      text(selected.bulk_density.typical(), asked.units));
  return one;
}

/// So many water runs, on two days or more.
Measurement water_runs(const Recipe& asked, const Tables& tables, int runs) {
  const DesignDefaults& defaults = tables.design_defaults;
  Measurement one{{}, asked};
  Still& still = one.recipe.still.change();
  const Cited<Fraction> before =
      still.heater.efficiency.value_or(defaults.heater_efficiency.at(still.heater.kind));
  const double sd_before = std::log(double(before.range.high / before.range.low)) / bound_in_sd;
  const auto run_to_run = double(defaults.run_to_run_heat.typical());
  const auto reading = double(defaults.readings.jug);
  Cited<Fraction> after = before;
  if (sd_before > 0.0)
    after.range = around(before.typical(), known_after(runs, sd_before, run_to_run, reading));
  still.heater.efficiency = after;
  still.measured_runs = {runs, MeasuredRuns::least_days, {}, before.typical(), asked.setting};
  one.text = fmt::format(
      "Do {} water runs on two days (firstdrop water-run). If your heater turns out as usual, this "
      "plan goes as it is after them. One run isn't enough: one reading never lowers the worst "
      "case.",
      runs);
  return one;
}

}  // namespace

std::vector<std::string> measurements_that_help(const Plan& refused, const Tables& tables,
                                                const Sampling& sampling) {
  std::vector<std::string> texts;
  if (refused.verdict != Verdict::refused) return texts;
  PlanMaker maker(tables);
  const auto goes = [&](const Recipe& recipe) {
    try {
      return maker.make(recipe, sampling, Detail::brief).verdict != Verdict::refused;
    } catch (const InputError&) {
      return false;  // a figure out of its bounds
    }
  };
  const Recipe& asked = refused.recipe;
  std::vector<Measurement> quick;
  if (auto one = condensing_surface(asked)) quick.push_back(std::move(*one));
  if (auto one = bulk_density(asked, select_parameters(asked, tables)))
    quick.push_back(std::move(*one));
  for (Measurement& one : quick)
    if (goes(one.recipe)) texts.push_back(std::move(one.text));
  if (!texts.empty() || asked.own.distillate_rate || asked.own.boil_time) return texts;
  for (const int runs : {MeasuredRuns::least_runs, 6, 10}) {
    Measurement one = water_runs(asked, tables, runs);
    if (!goes(one.recipe)) continue;
    texts.push_back(std::move(one.text));
    break;
  }
  return texts;
}

}  // namespace firstdrop
