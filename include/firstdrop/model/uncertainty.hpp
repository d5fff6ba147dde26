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

/// How many samples, and by how many threads. The result does not depend on the threads, nor on
/// whether anybody counts along.
struct Sampling {
  /// Fewer than one thread count as one. Needs how_many >= 0.
  constexpr Sampling(int how_many, int by_threads = 1)  // NOLINT(google-explicit-constructor)
      : samples(how_many), threads(by_threads) {}
  int samples;  ///< 0 for none: then every range is the typical run's figure, without chances
  int threads;  ///< above 0
  /// Where to add the samples that have been run, a few hundred at a time, for somebody who shows
  /// how far it is; may be null, and else has to outlive the plan.
  std::atomic<std::int64_t>* sampled = nullptr;
};

/// With so many the percentiles of oil and times lie within about one hundredth of their own range
/// (10 to 90 %) of those of very many samples, and the chance of the goal within half a per cent:
/// less than the figures are rounded to. tests/bench/convergence prints the table.
inline constexpr int default_samples = 1280;

/// How much of a plan is wanted.
enum class Detail {
  full,  ///< all that a plan has
  /// Charge, water, times, yields, coolant, stop and verdict: the same numbers, but no timeline, no
  /// notes, no sources, no stand-ins, and no words in findings but in those that refuse.
  brief,
};

/// An input, and the share of an outcome's variance that would go if it were known.
struct Sensitivity {
  Parameter parameter = Parameter::oil_content;  ///< which
  Fraction share;                                ///< 0.01 to 1
};

/// Where the spread of an outcome comes from: the inputs by their shares, largest first; those
/// below one per cent are left out. What the shares lack to 1 comes from inputs acting together.
using Sensitivities = std::vector<Sensitivity>;

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

}  // namespace firstdrop
