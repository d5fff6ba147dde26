/// @file
/// The worst credible case: how little water a pot can have left, and the strongest and the weakest
/// heater that the condenser must cope with.
///
/// A plan is accepted only if the worst case, with the person as late as the recipe allows, still
/// has the reserve in its pot. No single run has every parameter at its worst end, so the worst
/// case is not a run: it is a bound that holds for all runs within the ranges together. It rests on
/// the inequalities below. "Ranges" are those of the tables, of the recipe and of the bench's own
/// readings; the bounds of a range (quantiles 0 and 1) are as far beyond P10 and P90 as those are
/// from the median.
///
/// 1. **Heat.** No heater gives more, or less, than
///
///        Q_most  = max(Q(1), Q(0.9) * mains_most, Q(0.9) * dial)
///        Q_least = min(Q(0), Q(0.1) * mains_least)
///
///    with Q(p) the heat into the pot at quantile p, and mains and dial by HeatMargin. One of the
///    three terms may be at its end in a run, not all of them: that would be rarer than one run in
///    200. Held by worst_case_test "mains and dial are in the worst case of the pot's water, and
///    not in the condenser's".
///
/// 2. **Readings.** A reading of the bench may raise the bound and never lowers it, because one
/// reading
///    says nothing of the hottest run. The pot boils as early, makes as much vapour, and heats the
///    column as soon as by either:
///
///        Q_warm = max(tables, bench),  V = max(tables, bench),  t_steaming = min(tables, bench)
///
///    Held by worst_case_test "the worst case is that of the tables or of the bench, whichever is
///    hotter" and plan_test "one reading raises the worst case and never lowers it".
///
/// 3. **Water held.** Charge and walls together hold at most
///
///        held <= held_median + sqrt(d_m^2 + d_H^2 + d_W^2) + c * dm * dH / 2
///
///    (see held_at_worst()): moisture, hold-up and walls are never all at their ends in one run.
///    Held by worst_case_test "what charge and walls hold at worst bounds all combinations that
///    occur together".
///
/// 4. **Water condensed.** What column and charge have taken up cannot be more than has condensed
/// in
///    them by then (see most_condensed()):
///
///        lost <= min(held, condensed by the slowest run that gets there)
///
/// 5. **Heater against time.** A weak heater has the time to soak the charge; a strong one boils
/// off
///    most while the person is late. No heater does both (see lost_at_worst()):
///
///        lost + V * lateness <= max over V of [V * lateness + min(held, a + b / V)]
///
///    4 and 5 are held by worst_case_test "a level and a clock: the worst case holds at every
///    plate", and by plan_properties "the worst credible case is a bound" over random recipes.
///
/// 6. **Lateness.** The pot boils on after the planned stop for at most
///
///        lateness = limits.absence + stored heat of the heater
///
///    Held by worst_case_test "what the heater has stored goes on boiling".
///
/// 7. **The condenser** is tried with the upper-bound heater at nominal mains. Steam at the outlet
/// and
///    warm coolant can be seen, and the sheet says to turn the heat off at either; nobody sees the
///    level in a metal pot. Held by worst_case_test "no point asks more of the condenser than the
///    hottest run".
///
/// Together: for every point of the ranges that is credible by 1 and 3,
///
///     left(run, stop, lateness) >= left(WorstCase::run(fill, stop, lateness))
///
/// and an accepted plan has the right-hand side at its reserve or above. Held by plan_test "no
/// credible case of an accepted plan reaches the reserve" and plan_properties "the reserve is not
/// touched".
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

/// The sample point at which a pot runs dry first: strongest heater, least loss, driest charge,
/// most water held, largest uncondensed loss, smallest fill. It is one point; worst_values() is the
/// bound.
SamplePoint worst_for_water();

/// How long the pot boils on at full heat after the heat is off, at most: the stored heat of the
/// heater, as a time at the heat that it gave.
Duration longest_after_heat(const ModelParameters& parameters);
/// How long the pot may boil past the planned stop (inequality 6).
Duration longest_lateness(const ModelParameters& parameters);

/// The worst case for the pot's water, for one charge and any first fill, stop and lateness. It is
/// the run at worst_for_water() with the heat of inequalities 1 and 2, and with so much water taken
/// out of the pot at once that inequalities 3 to 5 hold.
class WorstCase {
 public:
  /// Works out what doesn't depend on fill, stop and lateness. Keeps a reference to the parameters.
  WorstCase(const ModelParameters& parameters, Mass charge);
  /// The same for another charge; takes less time than a new one.
  void reload(Mass charge);
  /// The run with this nominal first fill, ended by this stop and boiling on for `lateness`. It may
  /// have a failure.
  Run run(Mass first_fill, const Stop& stop, Duration lateness) const;
  /// The same run with no water taken out: the earliest boil and first drop, and the most vapour.
  Run strongest_heater(Mass first_fill) const;

 private:
  /// One of the runs that take longest to reach a level.
  struct SlowRun {
    Boiling boiling;
    VolumeFlow distillate;
  };

  // In hydro only the walls catch condensate: so little that all of it is taken.
  bool bounded() const { return parameters_->recipe.method_used() != Method::hydro; }
  Run load(Mass charge);
  void load_slow(ParametersAt slow, Mass charge, double uncondensed, double mains);
  Mass most_condensed(const Stop& stop, Duration lateness, const Run& strongest) const;
  Mass lost_at_worst(Volume level, Duration lateness, const Run& strongest, Mass most) const;

  const ModelParameters* parameters_;
  ParametersAt at_worst_;                     ///< with the heat of the tables
  std::optional<ParametersAt> own_at_worst_;  ///< with the heat of the bench's readings, if any
  HeatCapacity column_capacity_;
  Conductance column_loss_;
  std::array<SlowRun, 12> slow_;
  std::size_t slow_runs_ = 0;
  bool may_never_drip_ = false;  ///< the weakest heater never brings a drop
  Run strongest_;                ///< the last member: load() works out the others, too
};

/// The values of a single run of WorstCase.
RunValues worst_values(const ModelParameters& parameters, Mass charge, Mass first_fill,
                       const Stop& stop, Duration lateness);

/// The upper-bound heater case, for the condenser (inequality 7): the most vapour, the earliest
/// first drop, and the most vapour in all, whether the run ends by a level or by the clock. A bound
/// over all sample points, by the tables and by the bench's readings.
RunValues upper_heater_values(const ModelParameters& parameters, Mass charge, Mass first_fill);
/// The lower-bound heater case: the least vapour, the latest first drop, the least vapour in all.
/// With such a heater the run may fail.
RunValues lower_heater_values(const ModelParameters& parameters, Mass charge, Mass first_fill);

}  // namespace firstdrop
