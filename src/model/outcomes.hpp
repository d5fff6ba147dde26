/// @file
/// From the ranges of the parameters to those of the outcomes.
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

/// What has been decided before the heat goes on, and does not vary.
struct Decision {
  Mass charge;      ///< of one run
  Mass first_fill;  ///< nominal
  Mass reserve;     ///< of water in the pot
  Stop stop;        ///< what ends each run
};

/// How a run is cooled, if its coolant can do it at all: ice goes in at the limit.
struct CoolingRule {
  Duration beyond;            ///< the last ice lasts so long past the stop
  IceChange ice_before_stop;  ///< so long before it, whatever the coolant's temperature
};

/// What counts as the goal met, in one run.
struct GoalOfRun {
  std::optional<Volume> hydrosol;     ///< at least this much
  std::optional<Mass> oil;            ///< in the receiver
  std::optional<Volume> oil_volume;   ///< in the receiver
  std::optional<Fraction> oil_share;  ///< vaporised, of what this still can get
  /// Whether there is one.
  bool any() const { return hydrosol || oil || oil_volume || oil_share; }
};

/// A moment of the typical run to follow through the spread: from first drop on, in a run that ends
/// by the level in the receiver, it is that level, otherwise that time.
struct Mark {
  Volume hydrosol;       ///< in the receiver then
  Duration time;         ///< from heat on
  bool running = false;  ///< from first drop on
};

/// Carries every input's range through the run by quasi-random sampling (see sampling.hpp). The
/// same inputs give the same result to the last bit, whatever the threads. Samples in which no
/// distillate comes count as nothing gained, and not at all in times, rates, water and coolant. In
/// brief only hydrosol and oil, first drop and stop, what cools and the energy are filled in, and
/// the chance of the goal.
///
/// `marks` are moments for Uncertainty::oil_course, in their order; without `cooling` nothing is
/// said of coolant. Without samples all ranges are those of the typical run. Range: charge and
/// first fill of the decision above zero, and its stop has one of the two set. Source: see Run and
/// SamplePoints.
Uncertainty uncertainty_of(const ModelParameters& parameters, const DesignDefaults& defaults,
                           const Decision& decision, const GoalOfRun& goal,
                           const Sampling& sampling = default_samples,
                           const std::vector<Mark>& marks = {},
                           const std::optional<CoolingRule>& cooling = std::nullopt,
                           Detail detail = Detail::full);

/// Of the typical run alone, for a plan in brief without samples: its hydrosol, oil, first drop and
/// stop as ranges without width. All else stays empty, or is added from the plan. Needs a run
/// without failure.
Uncertainty nominal_uncertainty(const ModelParameters& parameters, const Decision& decision,
                                const Run& nominal);

/// What can be said of a goal before all else is known; the same samples, and so the same chance.
struct GoalOdds {
  Fraction chance;  ///< to meet the goal
  /// By when the run is at its stop so often; none if it is never so often.
  std::optional<Duration> time;
};

/// Needs a goal (goal.any()) and `often` from 0 to 1. Once the stop's clock is left out of account,
/// `time` says how long the clock would have to be.
GoalOdds goal_odds(const ModelParameters& parameters, const Decision& decision,
                   const GoalOfRun& goal, Fraction often,
                   const Sampling& sampling = default_samples);

}  // namespace firstdrop
