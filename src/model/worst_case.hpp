// clang-format off
/// @file
/// The worst credible case: how little water a pot can have left, and the strongest and the weakest
/// heater that the condenser must cope with.
///
/// A plan is accepted only if the worst case, with the person as late as the recipe allows, still
/// has its reserve in the pot. The worst case isn't one run, because no run has every parameter at
/// its worst end. It is a bound for all credible runs; inequalities 1 and 4 say which runs are
/// credible. The bounds of a range (quantiles 0 and 1) are as far beyond P10 and P90 as those are
/// from the median, in a range by ratio by the same factor.
///
/// 1. Heat. In a credible run the heat into the pot lies between
///
///        Q_most  = max(Q(1), Q(0.9) * mains_most, Q(0.9) * dial)
///        Q_least = min(Q(0), Q(0.1) * mains_least)
///
///    where Q(p) is the heat at quantile p of the heater's range. set_heat_margins() in
///    model_parameters.cpp has the other factors: mains within 10 % of nominal or as measured, and
///    a dial that gives more than it says, but never more than the heater has, and not for a
///    reading taken at this setting. Only one term is at its end in a run; several would be rarer
///    than one run in 200.
///    Tests: worst_case_test, "mains and dial are in the worst case of the pot's water, and not in
///    the condenser's" and "a weak heater on low mains leaves no less than the worst case".
///
/// 2. Readings. A reading of the bench may raise the bound and never lowers it, because one reading
///    says nothing about the hottest run. With V for the vapour that reaches the condenser,
///
///        Q_warm = max(tables, bench),  V = max(tables, bench),  t_steaming = min(tables, bench).
///
///    Tests: worst_case_test, "the worst case is that of the tables or of the bench, whichever is
///    hotter"; plan_test, "one reading raises the worst case and never lowers it".
///
/// 3. Start. The charge is the driest, the fill the smallest that a misread jug gives, and water
///    and pot start at the warmer of room and poured water: each makes the pot boil dry sooner.
///    Test: worst_case_test, "the worst point for water is worse in every figure".
///
/// 4. Water held. Moisture m, hold-up H and walls W aren't all at their ends in a credible run, nor
///    are film F and walls. With charge c, and d_i for what one of them adds at its bound (see
///    held_at_worst()),
///
///        held <= W + max(dry, wet), and no more than with all of them at their ends,
///        dry = c * ((1 - m) * H - m) + sqrt(d_m^2 + d_H^2 + d_W^2) + c * dm * dH / 2,
///        wet = c * F + sqrt(d_F^2 + d_W^2).
///
///    Test: worst_case_test, "what charge and walls hold at worst bounds all combinations that
///    occur together".
///
/// 5. Water condensed. Column and charge can't have taken up more than has condensed in them (see
///    most_condensed()):
///
///        lost <= min(held, condensed until the end of the run).
///
///    For a level, that is the most over the runs that take longest to get there; there is no such
///    bound if the weakest heater never brings a drop. For a clock, it is what heats column and
///    charge through, and their loss from the earliest boil on. In hydro all of `held` counts.
///
/// 6. Heater against time. A weak heater has time to soak the charge; a strong one boils off the
///    most while the person is late. No heater does both (see lost_at_worst(), which defines a and
///    b):
///
///        lost + V * lateness <= max [V * lateness + min(lost_5, a + b / V)]
///
///    over V up to the strongest heater's, with lost_5 from inequality 5. Where a clock ends the strongest run before the level, other
///    runs may boil off the rest, and that is added.
///    Tests of 5 and 6: worst_case_test, "a level and a clock: the worst case holds at every
///    plate"; plan_properties, "the worst credible case is a bound", over random recipes.
///
/// 7. Lateness. The pot boils on after the planned stop for at most
///
///        lateness = limits.absence + the stored heat, as a time at full heat.
///
///    Test: worst_case_test, "what the heater has stored goes on boiling".
///
/// 8. Condenser. It is tried with the strongest heater, and ice and coolant also with the weakest,
///    at nominal or measured mains and with the dial as it says: Q(1) and Q(0). Steam at the outlet
///    and warm coolant can be seen, and the sheet says to turn the heat off at either; nobody sees
///    the level in a metal pot.
///    Test: worst_case_test, "no point asks more of the condenser than the hottest run".
///
/// Together, for every credible run:
///
///     left(run, stop, lateness) >= left(WorstCase::run(fill, stop, lateness)),
///
/// and in an accepted plan the right-hand side is the reserve or more. Tests: plan_test, "no
/// credible case of an accepted plan reaches the reserve"; plan_properties, "the reserve is not
/// touched".
// clang-format on
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
#include "quantity/equation.hpp"

namespace firstdrop {

/// The sample point at which a pot runs dry first: strongest heater, least loss, driest charge,
/// most water held, largest uncondensed loss, smallest fill. It is one point; WorstCase is the
/// bound.
SamplePoint worst_for_water();

/// How long the pot boils on at full heat after the heat is off, at most: the stored heat of the
/// heater, as a time at the heat that it gave.
Duration longest_after_heat(const ModelParameters& parameters);
/// How long the pot may boil past the planned stop (inequality 7).
Duration longest_lateness(const ModelParameters& parameters);

/// The worst case for the pot's water, for one charge and any first fill, stop and lateness. It is
/// the run at worst_for_water() with the heat of inequalities 1 and 2, and with so much water taken
/// out of the pot at once that inequalities 4 to 6 hold.
class WorstCase {
 public:
  /// Works out what doesn't depend on fill, stop and lateness. Keeps a reference to the parameters.
  WorstCase(const ModelParameters& parameters, Mass charge);
  /// The same for another charge; takes less time than a new one.
  void reload(Mass charge);
  /// The run with this nominal first fill, ended by this stop and boiling on for `lateness`. It may
  /// have a failure.
  Run run(Mass first_fill, const Stop& stop, Duration lateness) const;
  /// The same run before that water is taken out: the earliest boil and first drop, the most
  /// vapour.
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

namespace equations {
// Of WorstCase::run().
inline constexpr Equation<MassFlow> worst_vapour{"V_w", "most vapour", shown_in::grams_per_minute,
                                                 "(Q_w - U_w * (T_boil - T_room)) * 60 / h_fg"};
inline constexpr Equation<VolumeFlow> worst_distillate{
    "D_w", "distillate rate with the strongest heater", shown_in::millilitres_per_minute,
    "V_w * (1 - vent_w / 100) / rho_w"};
inline constexpr Equation<Volume> worst_left{
    "V_left_w", "water left if you come late; must not be less than the reserve",
    shown_in::millilitres,
    "(M_w - m_held_w - V_w * max(t_stop_w + late + t_store_w - t_drop_w, 0)) / rho_w"};
inline constexpr Equation<Duration> worst_reserve{
    "t_res_w", "pot down to its reserve at the earliest", shown_in::minutes,
    "t_drop_w + (M_w - m_held_w - V_res * rho_w) / V_w"};
inline constexpr Equation<Duration> worst_dry{
    "t_dry_w", "pot dry at the earliest", shown_in::minutes, "t_drop_w + (M_w - m_held_w) / V_w"};
}  // namespace equations

/// The upper-bound heater case, for the condenser (inequality 8): the most vapour, the earliest
/// first drop, and the most vapour in all, whether the run ends by a level or by the clock. A bound
/// over all sample points, by the tables and by the bench's readings.
RunValues upper_heater_values(const ModelParameters& parameters, Mass charge, Mass first_fill);
/// The lower-bound heater case: the least vapour, the latest first drop, the least vapour in all.
/// With such a heater the run may fail.
RunValues lower_heater_values(const ModelParameters& parameters, Mass charge, Mass first_fill);

}  // namespace firstdrop
