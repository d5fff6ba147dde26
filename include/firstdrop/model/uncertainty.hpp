/// @file
/// Uncertainty: the ranges of a run's outcomes, which parameters they come from, and how many
/// samples to take.
#pragma once

#include <atomic>
#include <cstdint>
#include <optional>
#include <vector>

#include "firstdrop/model/parameter.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

/// How many samples to run, and in how many threads. The result doesn't depend on the threads, or
/// on whether the samples are counted.
struct Sampling {
  /// Fewer than one thread counts as one. Needs how_many >= 0.
  constexpr Sampling(int how_many, int by_threads = 1)  // NOLINT(google-explicit-constructor)
      : samples(how_many), threads(by_threads) {}
  /// 0 for none: then every range is the nominal run's value, and there are no chances.
  int samples;
  int threads;  ///< below 1 counts as 1
  /// Counter to which finished samples are added, a few hundred at a time, to show progress. May be
  /// null; otherwise it has to outlive the plan.
  std::atomic<std::int64_t>* sampled = nullptr;
};

/// With this many samples, the percentiles of oil and times lie within about one hundredth of their
/// own range (10 to 90 %) of those of very many samples. The chance of the goal lies within half a
/// per cent. Both errors are less than the figures are rounded to. tests/bench/convergence prints
/// the table.
inline constexpr int default_samples = 1280;

/// How much of a plan to make.
enum class Detail {
  full,  ///< everything that a plan has
  /// Charge, water, times, yields, coolant, stop and verdict, with the same numbers as in full.
  /// There is no timeline, and there are no notes, sources or defaults used. Findings lack their
  /// rows of the table.
  brief,
};

/// A parameter, and the share of an outcome's variance that would go if it were known exactly.
struct Sensitivity {
  Parameter parameter = Parameter::oil_content;  ///< which
  Fraction share;                                ///< 0.01 to 1
};

/// First-order sensitivities of an outcome, largest first. Those below one per cent are left out.
/// What the shares lack to 1 comes from parameters acting together.
using Sensitivities = std::vector<Sensitivity>;

/// P10, P50 and P90 of what one fraction of the distillate brings.
struct FractionRanges {
  Range<Volume> hydrosol;
  Range<Density> dissolved_oil;  ///< per volume of that hydrosol
  Range<Mass> oil;               ///< separated
  Range<Volume> oil_volume;      ///< separated
};

/// P10, P50 and P90 of the outcomes of one run.
struct Uncertainty {
  std::optional<Range<Volume>> charge_volume;  ///< as the charge lies; none in water
  std::optional<Range<Fraction>> charge_fill;  ///< share of the space for it; none in water

  Range<Volume> held;          ///< water in charge and on walls, at the stop
  Range<Volume> uncondensed;   ///< water lost as vapour past the condenser, at the stop
  Range<Volume> left_at_stop;  ///< free water in the pot

  Range<Duration> boil;                   ///< from the start of heating, as the next four
  Range<Duration> first_drop;             ///< when steam is at the condenser
  Range<Duration> stop;                   ///< when the run is stopped
  Range<Duration> reserve;                ///< when the reserve is reached, if the heat stays on
  Range<Duration> dry;                    ///< when the pot is dry, if the heat stays on
  Range<Duration> left_alone_to_reserve;  ///< from the stop
  Range<Duration> left_alone_to_dry;      ///< from the stop

  Range<VolumeFlow> distillate;                      ///< into the receiver
  Range<Rate> steam_per_charge;                      ///< kg steam per kg charge and unit time
  std::optional<Range<Velocity>> steam_velocity;     ///< superficial, in the bed; none in water
  std::optional<Range<Pressure>> bed_pressure_drop;  ///< none in water
  Range<Power> heat_into_pot;                        ///< while boiling
  Range<Power> heat_lost;                            ///< to the room, while boiling

  Range<Volume> hydrosol;                 ///< at the stop
  Range<Density> dissolved_oil;           ///< per volume of hydrosol, at the stop
  Range<Mass> oil_in_charge;              ///< at the start
  Range<Mass> oil_vaporised;              ///< has left the charge by the stop
  Range<Mass> oil_dissolved;              ///< in the hydrosol, at the stop
  Range<Mass> oil_in_receiver;            ///< separated, at the stop
  Range<Volume> oil_volume;               ///< separated, at the stop
  Range<Density> oil_density;             ///< of the plant's oil
  Range<Fraction> oil_share;              ///< vaporised, of the oil in the charge
  std::vector<Range<Volume>> oil_course;  ///< separated oil at each of the marks
  std::vector<FractionRanges> fractions;  ///< of each of the recipe's, in order; empty in brief

  // Empty if the coolant can't cool the run at all.
  std::optional<Range<Power>> duty;                 ///< of the condenser
  std::optional<Range<Mass>> ice;                   ///< in all; none if no ice is needed
  std::optional<Range<Temperature>> reservoir_end;  ///< at the stop; none for a tap
  std::optional<Range<VolumeFlow>> flow;            ///< run-through
  std::optional<Range<Volume>> coolant_used;        ///< run-through, in all
  std::optional<Range<Area>> surface_needed;        ///< with the warmest coolant of the run

  Range<Energy> plug;  ///< from the socket, or as fuel

  std::optional<Fraction> chance_of_goal;  ///< none without a goal or without samples
  /// Of the oil in the receiver, or of the oil vaporised if none separates.
  Sensitivities oil_from;
  /// Of the time of the stop, or of first drop if the clock ends the run.
  Sensitivities time_from;
  Sensitivities reserve_from;  ///< of the time from the stop until the reserve is reached
  int samples = 0;             ///< number of samples behind these outcomes
};

}  // namespace firstdrop
