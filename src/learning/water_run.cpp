#include "learning/water_run.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "model/empty_still.hpp"
#include "model/selected_parameters.hpp"
#include "physics/heat_balance.hpp"

namespace firstdrop {
namespace {

// The wall hold-up of a still over its median, at P10 and P90: those of the example stills.
constexpr double little_hold_up = 0.55;
constexpr double much_hold_up = 2.0;
// A still whose walls hold nothing would have no score.
constexpr Mass least_hold_up = grams(1);

double score_of(const ScoreVector& scores, RunScore which) {
  return scores[static_cast<std::size_t>(which)];
}

Conductance whole_loss(const Still& still, Method method, const StillFilms& films) {
  const StillLosses losses = still_losses(still, method, films);
  return losses.pot + losses.column;
}

// One film for all parts that loses as much as theirs do together.
HeatTransfer common_film(const Still& still, Method method, const StillParameters& parameters,
                         HeatTransfer Range<HeatTransfer>::*percentile) {
  const Area surface = still.head.surface.typical();
  const HeatTransfer one = watts_per_square_metre_kelvin(1);
  const Conductance lost =
      whole_loss(still, method,
                 {parameters.pot_film.range.*percentile, parameters.column_film.range.*percentile,
                  parameters.head_film.range.*percentile, surface});
  return one * double(lost / whole_loss(still, method, {one, one, one, surface}));
}

}  // namespace

StillFigures figures_of(const Still& still, Method method, const Tables& tables) {
  const StillParameters parameters = still_parameters(still, method, tables);
  const auto film = [&](HeatTransfer Range<HeatTransfer>::*percentile) {
    return common_film(still, method, parameters, percentile);
  };
  return {parameters.heater_efficiency.range,
          {film(&Range<HeatTransfer>::low), film(&Range<HeatTransfer>::typical),
           film(&Range<HeatTransfer>::high)},
          parameters.wall_hold_up.range,
          parameters.uncondensed_loss.range,
          parameters.stored_heat.range};
}

StillFigures figures_before_runs(const Still& still, Method method, const Tables& tables) {
  Still of_its_kind = still;
  of_its_kind.heater.efficiency.reset();
  of_its_kind.heat_loss.reset();
  of_its_kind.measured_runs.reset();
  StillFigures figures = figures_of(of_its_kind, method, tables);
  Range<Mass>& walls = figures.wall_hold_up;
  walls.typical = std::max(walls.typical, least_hold_up);
  walls.low = std::max(std::min(walls.low, walls.typical * little_hold_up), least_hold_up * 0.1);
  walls.high = std::max(walls.high, walls.typical * much_hold_up);
  return figures;
}

bool adds_to_earlier_runs(const WaterRunSetup& setup) {
  const auto& earlier = setup.still.measured_runs;
  return earlier && std::abs(double(earlier->setting - setup.setting)) < 1e-6;
}

StillFigures figures_before_run(const WaterRunSetup& setup, const Tables& tables) {
  const Still& still = setup.still;
  StillFigures figures = figures_before_runs(still, setup.method, tables);
  if (!adds_to_earlier_runs(setup)) return figures;
  const StillFigures shown = figures_of(still, setup.method, tables);
  figures.efficiency = shown.efficiency;
  figures.heat_loss = shown.heat_loss;
  if (still.wall_hold_up.evidence.known == Known::measured)
    figures.wall_hold_up = shown.wall_hold_up;
  return figures;
}

WaterRunModel::WaterRunModel(WaterRunSetup setup, const StillFigures& figures, const Tables& tables)
    : setup_(std::move(setup)),
      errors_(tables.design_defaults.readings),
      run_to_run_(double(tables.design_defaults.run_to_run_heat.typical())),
      curves_{score_curve(figures.efficiency, ScoreOf::share),
              score_curve(figures.heat_loss, ScoreOf::ratio),
              score_curve(figures.wall_hold_up, ScoreOf::ratio),
              score_curve(figures.uncondensed_loss, ScoreOf::share),
              score_curve(figures.stored_heat, ScoreOf::difference)} {
  const StillCapacities empty = still_capacities(
      setup_.still, setup_.method, still_parameters(setup_.still, setup_.method, tables));
  pot_capacity_ = empty.pot;
  column_capacity_ = empty.head + empty.column;
}

RunValues WaterRunModel::values(const ScoreVector& scores) const {
  const auto figure = [&](RunScore which) { return figure_at(which, score_of(scores, which)); };
  const HeatTransfer film = HeatTransfer::from_si(figure(RunScore::heat_loss));
  const StillLosses losses = still_losses(setup_.still, setup_.method,
                                          {film, film, film, setup_.still.head.surface.typical()});
  RunValues v;
  v.boiling = setup_.water.boiling;
  v.latent_heat = setup_.water.latent_heat;
  v.room = setup_.water.room;
  v.fill_excess = setup_.poured - setup_.water.room;
  v.water_heat = setup_.water.water_heat;
  v.distillate_density = setup_.water.fill_density;
  v.first_fill = setup_.fill * std::exp(double(errors_.fill) * score_of(scores, RunScore::fill));
  v.pot_capacity = pot_capacity_;
  v.column_capacity = column_capacity_;
  v.pot_loss = losses.pot;
  v.column_loss = losses.column;
  v.hold_up = Mass::from_si(figure(RunScore::wall_hold_up));
  v.uncondensed_loss = fraction(figure(RunScore::uncondensed_loss));
  v.heat_warming = heat_into_pot(setup_.still.heater.power.typical(), setup_.setting,
                                 fraction(figure(RunScore::efficiency))) *
                   heat_of_run(scores);
  v.heat_boiling = v.heat_warming;
  return v;
}

std::optional<Run> WaterRunModel::run(const ScoreVector& scores) const {
  const Run run(values(scores));
  if (run.failure()) return std::nullopt;
  return run;
}

double WaterRunModel::heat_of_run(const ScoreVector& scores) const {
  return std::exp(run_to_run_ * score_of(scores, RunScore::heat));
}

double WaterRunModel::jug_of(const ScoreVector& scores) const {
  return std::exp(double(errors_.jug_marks) * score_of(scores, RunScore::jug));
}

Volume WaterRunModel::shown(Volume caught, const ScoreVector& scores) const {
  return caught * jug_of(scores);
}

Volume WaterRunModel::caught(Volume shown, const ScoreVector& scores) const {
  return shown / jug_of(scores);
}

Mass WaterRunModel::left(const Run& run, Duration heat_off, const ScoreVector& scores) const {
  const double stored = score_of(scores, RunScore::stored_heat);
  const Duration end = heat_off + Duration::from_si(figure_at(RunScore::stored_heat, stored));
  const WaterBalance water = run.water_at(end);
  // The walls hold what has condensed or all that they can. Newton's method sticks on the corner
  // between the two, so it is rounded off over as much as the scale can tell apart.
  const Mass corner = errors_.of_scale(setup_.fill);
  const Mass apart = std::max(run.condensed_until(end), run.values().hold_up) - water.held;
  return water.left + corner * std::log1p(std::exp(-double(apart / corner)));
}

Energy WaterRunModel::drawn(Duration heat_off, const ScoreVector& scores) const {
  return setup_.still.heater.power.typical() * double(setup_.setting) * heat_off *
         heat_of_run(scores);
}

Power WaterRunModel::net_heat(const ScoreVector& scores) const {
  ScoreVector usual = scores;
  usual[static_cast<std::size_t>(RunScore::heat)] = 0.0;
  const RunValues v = values(usual);
  return v.heat_boiling - (v.pot_loss + v.column_loss) * (v.boiling - v.room);
}

MassFlow WaterRunModel::vapour_at(Power heat) const {
  RunValues v = values(ScoreVector(run_score_count));
  v.heat_warming = heat;
  v.heat_boiling = heat;
  return Run(v).vapour();
}

Duration WaterRunLog::heat_off() const {
  Duration last;
  for (const Mark& mark : caught) last = std::max(last, mark.at.value);
  return last;
}

namespace {

// One entry as the fit sees it, in SI units.
struct Entry {
  EntryOf what;
  std::size_t mark;
  double value;
  double error;
};

std::vector<Entry> entries_of(const WaterRunLog& log, Mass fill, const ReadingErrors& errors) {
  std::vector<Entry> entries;
  const double clock = errors.clock.si();
  if (log.boil) entries.push_back({EntryOf::boil, 0, log.boil->value.si(), clock});
  if (log.first_drop)
    entries.push_back({EntryOf::first_drop, 0, log.first_drop->value.si(), clock});
  for (std::size_t i = 0; i < log.caught.size(); ++i) {
    const Volume volume = log.caught[i].volume.value;
    const Volume error = std::max(volume * errors.jug, errors.least_jug);
    entries.push_back({EntryOf::caught, i, volume.si(), error.si()});
  }
  if (log.left)
    entries.push_back({EntryOf::left, 0, log.left->value.si(), errors.of_scale(fill).si()});
  if (log.energy) {
    const double energy = log.energy->value.si();
    entries.push_back({EntryOf::energy, 0, energy, energy * double(errors.meter)});
  }
  return entries;
}

// What the run with these scores gives for an entry, in SI units.
std::optional<double> predicted(const Entry& entry, const WaterRunModel& model,
                                const WaterRunLog& log, const ScoreVector& scores) {
  const auto run = model.run(scores);
  if (!run) return std::nullopt;
  switch (entry.what) {
    case EntryOf::boil:
      return run->boil().si();
    case EntryOf::first_drop:
      return run->first_drop().si();
    case EntryOf::caught:
      return model.shown(run->hydrosol_at(log.caught[entry.mark].at.value), scores).si();
    case EntryOf::left:
      return model.left(*run, log.heat_off(), scores).si();
    case EntryOf::energy:
      break;
  }
  return model.drawn(log.heat_off(), scores).si();
}

template <class Q>
Range<Q> learned(const WaterRunModel& model, RunScore which, const ScoreFit& fit) {
  const auto k = static_cast<std::size_t>(which);
  const double score = fit.scores[k];
  const double reach = score_of_p90 * std::sqrt(fit.covariance(k, k));
  const auto at = [&](double z) { return Q::from_si(model.figure_at(which, z)); };
  return {at(score - reach), at(score), at(score + reach)};
}

Range<Power> net_heat_range(const WaterRunModel& model, const ScoreVector& scores,
                            const Matrix& covariance) {
  const auto p = percentiles(
      [&](const ScoreVector& at) {
        // A heater may be too weak to make steam.
        return std::optional(std::max(model.net_heat(at), watts(0)).si());
      },
      scores, covariance);
  if (!p) return {};
  return {Power::from_si(p->p10), Power::from_si(p->p50), Power::from_si(p->p90)};
}

}  // namespace

std::optional<WaterRunResult> learn_from(const WaterRunModel& model, const StillFigures& before,
                                         const WaterRunLog& log) {
  const std::vector<Entry> entries = entries_of(log, model.setup().fill, model.errors());
  std::vector<double> readings;
  for (const Entry& entry : entries) readings.push_back(entry.value / entry.error);
  auto fit = fit_scores(run_score_count, readings,
                        [&](const ScoreVector& scores) -> std::optional<std::vector<double>> {
                          std::vector<double> values;
                          for (const Entry& entry : entries) {
                            const auto value = predicted(entry, model, log, scores);
                            if (!value) return std::nullopt;
                            values.push_back(*value / entry.error);
                          }
                          return values;
                        });
  if (!fit) return std::nullopt;
  WaterRunResult result{before, before, {}, {}, {}, 1.0, {}, std::move(*fit)};
  const ScoreVector start(run_score_count);
  const Matrix unlearned = identity(run_score_count);
  StillFigures& after = result.after;
  after.efficiency = learned<Fraction>(model, RunScore::efficiency, result.fit);
  after.heat_loss = learned<HeatTransfer>(model, RunScore::heat_loss, result.fit);
  after.wall_hold_up = learned<Mass>(model, RunScore::wall_hold_up, result.fit);
  after.uncondensed_loss = learned<Fraction>(model, RunScore::uncondensed_loss, result.fit);
  after.stored_heat = learned<Duration>(model, RunScore::stored_heat, result.fit);
  result.net_before = net_heat_range(model, start, unlearned);
  result.net_after = net_heat_range(model, result.fit.scores, result.fit.covariance);
  result.hottest = after.efficiency.typical * model.heat_of_run(result.fit.scores);
  result.jug = model.jug_of(result.fit.scores);
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const auto expected =
        percentiles([&](const ScoreVector& at) { return predicted(entries[i], model, log, at); },
                    start, unlearned);
    constexpr double full_weight = 1.25;  // (nu + 1) / nu
    const double residual = result.fit.residuals[i];
    result.entries.push_back({entries[i].what, entries[i].mark, expected,
                              entries[i].value - residual * entries[i].error, residual,
                              result.fit.weights[i] / full_weight});
  }
  return result;
}

std::optional<WaterRunResult> learn_from(const WaterRunSetup& setup, const WaterRunLog& log,
                                         const Tables& tables) {
  const StillFigures before = figures_before_runs(setup.still, setup.method, tables);
  return learn_from(WaterRunModel(setup, before, tables), before, log);
}

}  // namespace firstdrop
