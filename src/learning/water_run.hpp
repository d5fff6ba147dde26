/// @file
/// A run of the still with water alone, and what it shows of the still: how much of the heater's
/// power gets into the pot, how much heat is lost, and how much water clings to the walls.
///
/// The run is the planner's own (physics/run.hpp), without charge and oil. What is learned are
/// scores (learning/score.hpp) of the still and of this run, fitted by learning/fit.hpp.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/tables/still.hpp"
#include "firstdrop/tables/tables.hpp"
#include "learning/fit.hpp"
#include "learning/score.hpp"
#include "model/site_water.hpp"
#include "physics/run.hpp"

namespace firstdrop {

/// How a run with water alone was set up.
struct WaterRunSetup {
  Still still;  ///< checked
  Method method = Method::steam;
  SiteWater water;
  Temperature poured;              ///< of the water poured in
  Temperature coolant;             ///< at the start
  Fraction setting = fraction(1);  ///< of the heater
  Mass fill;                       ///< water poured in
};

/// The figures that such a run depends on and that may be learned, each with its range.
struct StillFigures {
  Range<Fraction> efficiency;     ///< heat into the pot over power drawn
  Range<HeatTransfer> heat_loss;  ///< from pot, column and head to the room, one for all
  Range<Mass> wall_hold_up;
  Range<Fraction> uncondensed_loss;
  Range<Duration> stored_heat;  ///< into the pot after heat off, as a time at full heat
};
/// Those that a plan with this still uses.
StillFigures figures_of(const Still& still, Method method, const Tables& tables);
/// Those before anybody has measured anything: the defaults for its kind of heater and for its
/// materials. There is no default for the wall hold-up, so that of the still counts, with a range
/// that is at least as wide as in the example stills.
StillFigures figures_before_runs(const Still& still, Method method, const Tables& tables);

/// Whether a run at this setting adds to what earlier runs of the still have shown. At another
/// setting it doesn't: many dials don't show the share of the power that they let through.
bool adds_to_earlier_runs(const WaterRunSetup& setup);
/// Those before this run: of the earlier runs that it adds to, or else figures_before_runs().
StillFigures figures_before_run(const WaterRunSetup& setup, const Tables& tables);

/// The scores of a run. The first five belong to the still, the others to this run.
enum class RunScore {
  efficiency,
  heat_loss,
  wall_hold_up,
  uncondensed_loss,
  stored_heat,
  heat,  ///< this run's heat over that of the still's usual run
  fill,  ///< water in the pot over what was read
  jug,   ///< what the jug shows over what is in it
};
inline constexpr std::size_t run_score_count = 8;

/// The run with these figures at given scores.
class WaterRunModel {
 public:
  WaterRunModel(WaterRunSetup setup, const StillFigures& figures, const Tables& tables);

  const WaterRunSetup& setup() const { return setup_; }
  const ReadingErrors& errors() const { return errors_; }
  /// One of the still's figures.
  double figure_at(RunScore which, double score) const { return curve(which).at(score); }
  const ScoreCurve& curve(RunScore which) const { return curves_[static_cast<std::size_t>(which)]; }
  /// None if no distillate would come.
  std::optional<Run> run(const ScoreVector& scores) const;
  /// This run's heat over that of the still's usual run.
  double heat_of_run(const ScoreVector& scores) const;
  /// What the jug shows over what is in it.
  double jug_of(const ScoreVector& scores) const;
  /// What the jug shows when this much has come, and the other way round.
  Volume shown(Volume caught, const ScoreVector& scores) const;
  Volume caught(Volume shown, const ScoreVector& scores) const;
  /// What is in the pot once it is cold, if the heat goes off at this time. The heater gives off
  /// what it has stored, and that goes on boiling.
  Mass left(const Run& run, Duration heat_off, const ScoreVector& scores) const;
  /// What a meter shows of the power drawn until the heat goes off.
  Energy drawn(Duration heat_off, const ScoreVector& scores) const;
  /// Vapour to the condenser with this heat into the pot, and the median of the heat loss.
  MassFlow vapour_at(Power heat) const;
  /// Heat into the pot that isn't lost to the room, in this still's usual run.
  Power net_heat(const ScoreVector& scores) const;

 private:
  RunValues values(const ScoreVector& scores) const;

  WaterRunSetup setup_;
  ReadingErrors errors_;
  double run_to_run_ = 0.0;  // standard deviation of the heat, relative
  HeatCapacity pot_capacity_;
  HeatCapacity column_capacity_;
  std::array<ScoreCurve, 5> curves_;
};

/// A reading as it was typed.
template <class Q>
struct Typed {
  Q value{};
  std::string text;
};

/// What somebody wrote down. At least one of `boil`, `first_drop` and `caught` is needed.
struct WaterRunLog {
  struct Mark {
    Typed<Volume> volume;  ///< in the jug
    Typed<Duration> at;
  };
  std::optional<Typed<Duration>> boil;
  std::optional<Typed<Duration>> first_drop;
  std::vector<Mark> caught;
  std::optional<Typed<Mass>> left;      ///< in the pot, cold; needs `caught`
  std::optional<Typed<Energy>> energy;  ///< by a meter; needs `caught`

  /// When the heat went off: at the last mark.
  Duration heat_off() const;
};

/// What one entry of a log is of.
enum class EntryOf { boil, first_drop, caught, left, energy };

/// One entry, and how it fits.
struct EntryFit {
  EntryOf what = EntryOf::boil;
  std::size_t mark = 0;                 ///< which of WaterRunLog::caught, for that
  std::optional<Percentiles> expected;  ///< before the run, in SI units; none: no drop
  double fitted = 0.0;                  ///< what the figures after the run give, in SI units
  double residual = 0.0;                ///< in errors
  double weight = 0.0;                  ///< with which it counts, 0 to 1
};
/// An entry whose residual is larger doesn't fit.
inline constexpr double misfit = 4.0;

/// What a run has shown.
struct WaterRunResult {
  StillFigures before;
  StillFigures after;
  Range<Power> net_before;  ///< heat into the pot that isn't lost to the room
  Range<Power> net_after;
  Fraction hottest;               ///< share of the heater's power that got into the pot in this run
  double jug = 1.0;               ///< what the jug shows over what is in it
  std::vector<EntryFit> entries;  ///< in the order of the log
  ScoreFit fit;
};

/// Works out a run. None if a heater by the defaults wouldn't bring a drop at that setting, or if
/// no figures fit the log.
std::optional<WaterRunResult> learn_from(const WaterRunSetup& setup, const WaterRunLog& log,
                                         const Tables& tables);
/// The same, from these figures on.
std::optional<WaterRunResult> learn_from(const WaterRunModel& model, const StillFigures& before,
                                         const WaterRunLog& log);

}  // namespace firstdrop
