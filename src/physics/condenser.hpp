/// @file
/// The condenser, which removes the heat of the steam: duty, surface, coolant and ice.
///
/// Only what a docstring mentions is checked. A division by zero makes the result infinite or not a
/// number.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "firstdrop/physics/course.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "physics/heat_balance.hpp"
#include "quantity/equation.hpp"

namespace firstdrop {

namespace cited {
inline constexpr EquationSource condenser{"two-zone-condenser",
                                          "heat and surface of the condenser"};
}  // namespace cited

/// Heat that a kilogram of steam gives up between saturated vapour at `boiling` and distillate at
/// `outlet` (<= boiling).
struct CondensingHeat {
  SpecificEnergy condensing;  ///< latent heat
  SpecificEnergy cooling;     ///< heat of cooling the condensate to the outlet temperature
  /// The sum of both.
  SpecificEnergy total() const { return condensing + cooling; }
};
/// Heat given up by condensing at `boiling` and cooling to `outlet`.
/// Range: both 273.16 to 647.096 K; throws RangeError outside. An outlet above `boiling` makes
/// `cooling` negative. Source: latent_heat() and saturated_liquid_enthalpy().
CondensingHeat condensing_heat(Temperature boiling, Temperature outlet);
namespace equations {
inline constexpr Equation<Power> duty{
    "Q_c", "heat to remove", shown_in::watts,
    "V / 60 * (h_fg + mean_specific_heat(T_out, T_boil) * (T_boil - T_out))", cited::condenser};
}  // namespace equations

/// Logarithmic mean of two temperature differences: (a - b) / ln(a / b). For equal differences it
/// is their arithmetic mean.
/// Range: both above zero; if one is zero, the result is zero. Source: textbook definition (from
/// memory).
TemperatureDifference log_mean(TemperatureDifference a, TemperatureDifference b);

/// Condenser surface in two zones, each Q / (U LMTD).
struct Surface {
  Area condensing;  ///< smallest surface that lets no steam escape
  Area cooling;     ///< additional surface that cools the distillate to the outlet temperature
  /// The sum of both.
  Area total() const { return condensing + cooling; }
};

/// Surface needed in a vessel whose coolant has the same temperature, `coolant`, throughout: an ice
/// bath or a reservoir. `u` is the overall heat transfer coefficient of the wall.
/// Range: coolant < outlet < boiling, u above zero; temperatures as for condensing_heat(), which
/// throws RangeError. Source: Q = U A LMTD for each zone (from memory).
Surface surface_in_bath(MassFlow steam, HeatTransfer u, Temperature boiling, Temperature outlet,
                        Temperature coolant);

/// Overload for a known condensing heat. Does not throw.
/// Range: coolant < outlet < boiling, u above zero. Source: as above.
Surface surface_in_bath(MassFlow steam, HeatTransfer u, const CondensingHeat& heat,
                        Temperature boiling, Temperature outlet, Temperature coolant);

/// The condensing zone of surface_in_bath() alone. It doesn't depend on the outlet temperature.
/// Does not throw.
/// Range: coolant < boiling, u above zero. Source: as above.
Area condensing_in_bath(MassFlow steam, HeatTransfer u, SpecificEnergy latent_heat,
                        Temperature boiling, Temperature coolant);

/// Surface needed when coolant runs through in counterflow and warms from `coolant_in` to
/// `coolant_out`. It passes the cooling zone first, then the condensing zone.
/// Range: coolant_in < outlet < boiling, coolant_out < boiling, u above zero; temperatures as for
/// condensing_heat(), which throws RangeError. Source: as surface_in_bath().
Surface surface_in_counterflow(MassFlow steam, HeatTransfer u, Temperature boiling,
                               Temperature outlet, Temperature coolant_in, Temperature coolant_out);

/// Overload for a known condensing heat. Does not throw.
/// Range: coolant_in < outlet < boiling, coolant_out < boiling, u above zero. Source: as above.
Surface surface_in_counterflow(MassFlow steam, HeatTransfer u, const CondensingHeat& heat,
                               Temperature boiling, Temperature outlet, Temperature coolant_in,
                               Temperature coolant_out);

/// Coolant flow that takes up `duty` while it warms from `coolant_in` to `coolant_out`. Uses the
/// mean heat capacity of water between 0 and 40 °C (mean_liquid_specific_heat()).
/// Range: coolant_out above coolant_in. Source: heat balance of the coolant.
MassFlow coolant_flow(Power duty, Temperature coolant_in, Temperature coolant_out);
namespace equations {
inline constexpr Equation<VolumeFlow> coolant_flow{
    "F", "coolant flow", shown_in::litres_per_minute,
    "Q_c / (mean_specific_heat(0.01, 40) * (T_max - T_cool)) * 60 / rho_w / 1000",
    cited::condenser};
inline constexpr Equation<Volume> coolant_used{"V_cool", "total coolant", shown_in::litres,
                                               "F * t_run", cited::condenser};
}  // namespace equations

/// Surface over which a coolant vessel exchanges heat with the room: that of a cylinder as high as
/// it is wide, without its base.
/// Range: filling not below zero. Source: geometry; the shape is common practice.
Area vessel_surface(Volume filling);
namespace equations {
inline constexpr Equation<Area> vessel_surface{
    "A_bath", "surface of that vessel, if as high as wide, without its base",
    shown_in::square_metres, "5 * pi / 4 * (4 * V_bath / 1000 / pi) ^ (2 / 3)"};
}  // namespace equations

/// The least ice that counts as an ice change. Smaller changes would make a schedule endless.
inline constexpr Mass least_ice = grams(10);
/// The largest number of ice changes in one run.
inline constexpr std::size_t most_ice_changes = 500;

/// An ice bath or a reservoir whose coolant is well mixed.
struct CoolantVessel {
  Mass filling;         ///< water and ice together, above 0; added ice replaces as much water
  Mass first_ice;       ///< ice in the filling at the start; capped at the filling
  Temperature start;    ///< temperature of the water before the first ice goes in
  Temperature limit;    ///< highest temperature allowed, above 0 °C
  Mass ice_per_change;  ///< below 10 g there is no ice for changes; at most 500 changes
  Temperature room;     ///< temperature of the room
  Conductance loss;     ///< heat loss to the room; a vessel colder than the room gains heat
};

/// A coolant vessel under a constant duty. First its ice melts at 0 °C, then it warms as a
/// HeatedBody. The heat of melting is ice_melting_heat. All times count from the start of
/// condensing.
class CoolantRun {
 public:
  /// Simulates the vessel for `time`. Each time the coolant reaches its limit, `ice_per_change`
  /// goes in. The last change can be smaller, but is at least 10 g. It only has to last until
  /// `beyond` after the run, a time when nobody may be there to change ice.
  ///
  /// `planned` goes in at its time (within the run) at any coolant temperature; below 10 g it is
  /// ignored. There are at most 500 changes. After the last one, or without ice, the coolant may
  /// get warmer than its limit.
  /// Range: duty above zero, times not below zero.
  CoolantRun(const CoolantVessel& vessel, Power duty, Duration time, Duration beyond = seconds(0),
             const IceChange& planned = {});
  /// Overload with a given amount of ice for each change, in order. No change is larger than the
  /// filling. After the last one no more ice goes in.
  CoolantRun(const CoolantVessel& vessel, Power duty, Duration time, const std::vector<Mass>& ice);

  /// Temperature at a time from 0 on. After the end of the run no new ice goes in.
  Temperature temperature_at(Duration time) const;
  /// Temperature at the end of the run.
  Temperature end() const { return end_; }
  /// The highest temperature during the run.
  Temperature warmest() const { return warmest_; }
  /// The ice changes in order of time, without the ice of the first filling.
  const std::vector<IceChange>& changes() const { return changes_; }
  /// Total ice, including that of the first filling.
  Mass ice() const;
  /// When the coolant first reaches its limit, if it does so within the run.
  std::optional<Duration> limit_reached() const { return limit_reached_; }

 private:
  /// Sets up the vessel at time 0 without simulating it.
  CoolantRun(const CoolantVessel& vessel, Power duty);
  /// `next_ice(now, swap)` returns the ice for a change at time `now`; below 10 g there is no
  /// change.
  template <class NextIce>
  void follow_changes(Duration time, NextIce next_ice, IceChange planned = {});
  void change_ice(Duration at, Mass ice, Energy before);
  Temperature warmth(Energy enthalpy) const;
  /// How long ice is left.
  Duration melts(Energy enthalpy) const;
  Energy enthalpy_after(Energy enthalpy, Duration time) const;
  Temperature follow(Energy enthalpy, Duration time) const;
  Duration time_to_limit(Energy enthalpy) const;

  // Enthalpies are relative to water at 0 degC.
  CoolantVessel vessel_;
  HeatedBody molten_;  // the vessel when no ice is left
  Power melting_;      // heat flow into the vessel while there is ice
  Energy first_;
  std::vector<IceChange> changes_;
  std::vector<Energy> after_changes_;
  std::optional<Duration> limit_reached_;
  Temperature end_;
  Temperature warmest_;
};

}  // namespace firstdrop
