/// @file
/// Carries the ranges of the model parameters through the run to those of the outcomes.
#pragma once

#include <optional>
#include <vector>

#include "firstdrop/model/uncertainty.hpp"
#include "firstdrop/physics/course.hpp"
#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

class Run;
struct ModelParameters;
struct DesignDefaults;

/// What is decided before heating starts and is the same in every sample.
struct Decision {
  Mass charge;      ///< of one run
  Mass first_fill;  ///< nominal, without the jug's error
  Mass reserve;     ///< water that must stay in the pot
  Stop stop;        ///< what ends each run
};

/// How a run is cooled, if its coolant is sufficient. Ice goes in when the coolant reaches its
/// limit.
struct CoolingRule {
  Duration beyond;  ///< how long past the stop the last ice lasts
  /// Goes in whatever the coolant's temperature. Unlike in other uses, `at` counts back from the
  /// stop.
  IceChange ice_before_stop;
};

/// What one run must reach to meet the goal. An amount that isn't set isn't required.
struct GoalOfRun {
  std::optional<Volume> hydrosol;     ///< in the receiver, at least
  std::optional<Mass> oil;            ///< separated, at least
  std::optional<Volume> oil_volume;   ///< separated, at least
  std::optional<Fraction> oil_share;  ///< vaporised, over what this still can get
  /// Whether anything is required.
  bool any() const { return hydrosol || oil || oil_volume || oil_share; }
};

/// A moment of the nominal run to follow in every sample. If a level in the receiver ends the run,
/// a mark from first drop on stands for its level. Any other mark stands for its time.
struct Mark {
  Volume hydrosol;       ///< in the receiver at that moment
  Duration time;         ///< from the start of heating
  bool running = false;  ///< whether from first drop on
};

/// Carries the range of every model parameter through the run by quasi-random sampling (see
/// sampling.hpp). The same inputs give the same result to the last bit, whatever the number of
/// threads. A sample without distillate counts as no hydrosol and no oil. It is left out of times,
/// rates, water and coolant. With Detail::brief, only hydrosol, oil, first drop, stop, coolant,
/// energy and the chance of the goal are filled in.
///
/// `marks` are moments for Uncertainty::oil_course, in that order. Without `cooling`, the outcomes
/// of the coolant stay empty. Without samples, every range is the value of the nominal run.
/// Range: charge and first fill of the decision above zero; its stop has a level, a clock or both.
/// Source: see Run and SamplePoints.
Uncertainty uncertainty_of(const ModelParameters& parameters, const DesignDefaults& defaults,
                           const Decision& decision, const GoalOfRun& goal,
                           const Sampling& sampling = default_samples,
                           const std::vector<Mark>& marks = {},
                           const std::optional<CoolingRule>& cooling = std::nullopt,
                           Detail detail = Detail::full);

/// Outcomes of the nominal run alone, for a brief plan without samples. Its hydrosol, oil, first
/// drop and stop become ranges without width. Everything else stays empty, or is added from the
/// plan. Needs a run without failure.
Uncertainty nominal_uncertainty(const ModelParameters& parameters, const Decision& decision,
                                const Run& nominal);

/// The odds of a goal, found without the other outcomes. They use the same samples as
/// uncertainty_of(), and so give the same chance.
struct GoalOdds {
  Fraction chance;  ///< to meet the goal
  /// Time by which a share `often` of the runs has reached the stop's level, ignoring its clock.
  /// None if too few runs ever reach it, or if the stop has no level.
  std::optional<Duration> time;
};

/// Finds the odds of a goal. Needs goal.any() and `often` from 0 to 1. For a stop by level, `time`
/// says how long its clock would have to be.
GoalOdds goal_odds(const ModelParameters& parameters, const Decision& decision,
                   const GoalOfRun& goal, Fraction often,
                   const Sampling& sampling = default_samples);

}  // namespace firstdrop
