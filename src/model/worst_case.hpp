/// @file
/// WORST
#pragma once

#include <array>
#include <cstddef>
#include <optional>

#include "firstdrop/quantity/quantity.hpp"
#include "model/model_parameters.hpp"
#include "model/parameters_at.hpp"
#include "model/sample_point.hpp"
#include "physics/run.hpp"
#include "physics/stop.hpp"

namespace firstdrop {

/// The point whose pot runs dry first: strongest heater, least loss, driest charge, most held and
/// vented, least filled. A point only: worst_values() is the bound.
SamplePoint worst_for_water();

/// For so long the pot still boils at full heat, at most, when the heat is off: what the heater has
/// stored, as a time of the heat that it gave.
Duration longest_after_heat(const ModelParameters& parameters);
/// For so long the pot may go on boiling past the planned stop: the person's lateness
/// (limits.absence), and then what the heater has stored.
Duration longest_lateness(const ModelParameters& parameters);

/// The worst credible case for the pot's water, for any first fill and stop of one charge and any
/// time for which it boils past that stop: a bound over all points. That of worst_for_water(), with
/// so much gone from the pot at once that no whole run with any heater has less left when it is
/// stopped and has boiled so long past that. The heat is the most that tables *or* the bench's own
/// figures allow: one reading may raise the worst case and never lowers it.
class WorstCase {
 public:
  /// Works out what does not change with fill, stop and absence. Keeps a reference to the inputs.
  WorstCase(const ModelParameters& parameters, Mass charge);
  /// The same for another charge, which takes less than a new one.
  void reload(Mass charge);
  /// The run with this nominal first fill, ended by this stop and boiling so long past it. It may
  /// have a failure.
  Run run(Mass first_fill, const Stop& stop, Duration lateness) const;
  /// The same with nothing gone at once.
  Run hottest(Mass first_fill) const;

 private:
  /// Of the slowest runs, which wait longest for a level.
  struct SlowRun {
    Boiling boiling;
    VolumeFlow distillate;
  };

  // In hydro only the walls catch condensate, so little that all of it is taken.
  bool bounded() const { return parameters_->recipe.method_used() != Method::hydro; }
  Run load(Mass charge);
  void load_slow(ParametersAt slow, Mass charge, double vent, double mains);
  Mass most_condensed(const Stop& stop, Duration lateness, const Run& hottest) const;
  Mass lost_at_worst(Volume level, Duration lateness, const Run& hottest, Mass most) const;

  const ModelParameters* parameters_;
  ParametersAt at_worst_;                     ///< by the tables' heat
  std::optional<ParametersAt> own_at_worst_;  ///< by the bench's own, where it has some
  HeatCapacity column_capacity_;
  Conductance column_loss_;
  std::array<SlowRun, 12> slow_;
  std::size_t slow_runs_ = 0;
  bool never_ends_ = false;  ///< a weak heater never brings a drop
  Run hottest_;              ///< the last member: load() works out the others, too
};

/// The values of a single such run of WorstCase.
RunValues worst_values(const ModelParameters& parameters, Mass charge, Mass first_fill,
                       const Stop& stop, Duration lateness);

/// The values of the run that asks most of the condenser, at nominal mains: steam at the outlet and
/// warm coolant are seen, and end the run; how low the pot is nobody sees. A bound over all points,
/// by the tables' heat and by the bench's own, with the most vapour, the earliest first drop and
/// the most vapour in all, whether it ends by a level or by the clock.
RunValues upper_heater_values(const ModelParameters& parameters, Mass charge, Mass first_fill);
/// The opposite: least vapour, latest first drop, least vapour in all. With such a heater there may
/// be no run at all.
RunValues lower_heater_values(const ModelParameters& parameters, Mass charge, Mass first_fill);

}  // namespace firstdrop
