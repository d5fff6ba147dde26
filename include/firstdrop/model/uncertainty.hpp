/// @file
/// Uncertainty: what the run gives when the inputs are not quite the typical ones, and which of
/// them the spread comes from.
#pragma once

#include <optional>
#include <vector>

#include "firstdrop/model/sampling.hpp"
#include "firstdrop/model/sensitivity.hpp"
#include "firstdrop/physics/condenser.hpp"
#include "firstdrop/physics/stop.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

class Run;
struct ModelParameters;
struct DesignDefaults;

/// How much of a plan is wanted.
enum class Detail {
  full,  ///< all that a plan has
  /// Charge, water, times, yields, coolant, stop and verdict: the same numbers, but no timeline, no
  /// notes, no sources, no stand-ins, and no words in findings but in those that refuse.
  brief,
};

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

/// 10th, 50th and 90th percentile of one run's outcomes.
struct Uncertainty {
  std::optional<Range<Volume>> charge_volume;  ///< as loaded; none in water, as the next
  std::optional<Range<Fraction>> charge_fill;  ///< of the space for it

  Range<Volume> held;          ///< by charge and walls, at the stop
  Range<Volume> uncondensed;   ///< past the condenser, at the stop
  Range<Volume> left_at_stop;  ///< free in the pot

  Range<Duration> boil;                   ///< from heat on, as all of these
  Range<Duration> first_drop;             ///< steam is at the condenser
  Range<Duration> stop;                   ///< by the decision's rule
  Range<Duration> reserve;                ///< reached, if the heat stays on
  Range<Duration> dry;                    ///< if the heat stays on
  Range<Duration> left_alone_to_reserve;  ///< from the stop
  Range<Duration> left_alone_to_dry;      ///< from the stop

  Range<VolumeFlow> distillate;                      ///< into the receiver
  Range<Rate> steam_per_charge;                      ///< kg steam per kg charge and unit time
  std::optional<Range<Velocity>> steam_velocity;     ///< superficial, in the bed; none in water
  std::optional<Range<Pressure>> bed_pressure_drop;  ///< none in water
  Range<Power> heat_into_pot;                        ///< while boiling
  Range<Power> heat_lost;                            ///< to the room, while boiling

  Range<Volume> hydrosol;                 ///< at the stop, as all of these
  Range<Density> dissolved_oil;           ///< per volume of hydrosol
  Range<Mass> oil_in_charge;              ///< at the start
  Range<Mass> oil_vaporised;              ///< has left the charge
  Range<Mass> oil_dissolved;              ///< in the hydrosol
  Range<Mass> oil_in_receiver;            ///< parted
  Range<Volume> oil_volume;               ///< in the receiver
  Range<Density> oil_density;             ///< of the plant's oil
  Range<Fraction> oil_share;              ///< vaporised, of the oil in the charge
  std::vector<Range<Volume>> oil_course;  ///< oil in the receiver at each of the marks

  // None where the coolant cannot do it at all.
  std::optional<Range<Power>> duty;                 ///< of the condenser
  std::optional<Range<Mass>> ice;                   ///< in all; none where no ice is needed
  std::optional<Range<Temperature>> reservoir_end;  ///< at the stop; none for a tap
  std::optional<Range<VolumeFlow>> flow;            ///< run-through
  std::optional<Range<Volume>> coolant_used;        ///< run-through, in all
  std::optional<Range<Area>> surface_needed;        ///< with the warmest coolant of the run

  Range<Energy> plug;  ///< or fuel

  std::optional<Fraction> chance_of_goal;  ///< none without a goal or without samples
  Sensitivities oil_from;      ///< of the oil in the receiver; of that vaporised, where none parts
  Sensitivities time_from;     ///< of the time of the stop; of first drop, for a stop by the clock
  Sensitivities reserve_from;  ///< of the time from the stop until the reserve is reached
  int samples = 0;             ///< that all this comes from
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
