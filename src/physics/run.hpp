/// @file
/// One run of the still with every value known. It has three phases, each in closed form.
///
/// - warming: from the start of heating until the pot boils
/// - steaming: steam heats the column and the charge, and all of it condenses there
/// - running: from first drop on, distillate comes at a constant rate
///
/// Times count from the start of heating. The model is a lumped pot, and a lumped column with its
/// charge, under constant heat. It neglects small effects: evaporation before boiling, the latent
/// heat of the oil (about 0.3 kJ/g of a few grams), and the change of exposed wall as the level
/// falls.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "firstdrop/physics/course.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "physics/heat_balance.hpp"
#include "physics/release.hpp"
#include "quantity/equation.hpp"

namespace firstdrop {

/// Everything that a run depends on, each as a single value. ParametersAt computes them from
/// ranges.
struct RunValues {
  Temperature boiling;                ///< boiling point in the pot
  SpecificEnergy latent_heat;         ///< at `boiling`, above zero
  Temperature room;                   ///< also that of column and charge at the start of heating
  TemperatureDifference fill_excess;  ///< of the first fill over the room, at the start
  TemperatureDifference pot_excess;   ///< of the pot over the room, at the start
  SpecificHeat water_heat;            ///< mean between room and boiling temperature
  Mass first_fill;                    ///< water in the pot at the start of heating
  HeatCapacity pot_capacity;     ///< all that warms with the water: vessel, grid, charge (hydro)
  Conductance pot_loss;          ///< from pot to room
  Power heat_warming;            ///< into the pot until it boils
  Power heat_boiling;            ///< into the pot from then on
  HeatCapacity column_capacity;  ///< all that steam heats: column, head, charge (unless hydro)
  Conductance column_loss;       ///< from column and head to room
  Mass soaked;                   ///< pot water that the charge takes up at the start (hydro)
  Mass hold_up;                  ///< condensate that charge and walls hold before any drips back
  Fraction uncondensed_loss;     ///< share of the vapour that the condenser lets through; below 1
  Density distillate_density;    ///< as measured in the receiver
  Mass charge;                   ///< charge that steam passes; zero only without recoverable oil
  Mass oil_recoverable;          ///< oil that this still can get from the charge
  Release release;               ///< release of the oil at the reference flow of steam
  FlowEffect flow_effect;        ///< how the release changes with the flow
  std::optional<Fraction> oil_per_steam;  ///< co-distillation limit; none if unknown
  Density hydrosol_oil;                   ///< oil that the hydrosol can dissolve
  Fraction mixing;  ///< how well the receiver mixes, 0 to 1. At 1 all the oil stays in contact with
                    ///< all the water. At 0 later water never dissolves separated oil
};

/// Why a run yields no distillate.
enum class RunFailure {
  never_boils,      ///< heat loss keeps the pot below boiling
  never_at_the_top  ///< all the steam condenses in the column
};

/// The results from boiling on. They don't depend on the first fill.
struct Boiling {
  std::optional<RunFailure> failure = {};  ///< if set, the other members are zero and meaningless
  MassFlow steam = {};                     ///< steam made in the pot
  MassFlow vapour = {};                    ///< steam past the column, from first drop on
  Duration steaming = {};                  ///< from boiling to first drop
};
/// Computes the results from boiling on. Costs one logarithm; a run costs two.
/// Source: as for Run.
Boiling boiling_of(const RunValues& values);

/// Where the water is. The members add up to the first fill.
struct WaterBalance {
  Mass distilled;    ///< caught as hydrosol
  Mass uncondensed;  ///< vapour lost past the condenser
  Mass held;         ///< held by charge and walls
  Mass left;         ///< free water in the pot; negative after the pot has run dry
};

/// Where the oil that has left the charge is.
struct OilBalance {
  Mass vaporised;  ///< total that has left the charge; the sum of the other two
  Mass dissolved;  ///< dissolved in the hydrosol
  Mass separated;  ///< floats on the hydrosol or sinks in it
};

/// Where the heat went. The other members add up to `put_in`.
struct EnergyBalance {
  Energy put_in;             ///< heat put into the pot
  Energy water_and_pot;      ///< stored in the water and the pot
  Energy column_and_charge;  ///< stored in column and charge (hydro: the charge is in the pot)
  Energy pot_lost;           ///< lost from pot to room
  Energy column_lost;        ///< lost from column and head to room
  Energy left_with_vapour;   ///< latent heat of the vapour, condensed or lost
  /// The error of the balance, from rounding only.
  Energy residual() const {
    return put_in - water_and_pot - column_and_charge - pot_lost - column_lost - left_with_vapour;
  }
};

/// A run and its state at any time.
///
/// All times count from the start of heating and must be 0 or more. A run never ends by itself. It
/// continues after the pot is dry, with a negative amount of water left, so that callers can see
/// the shortfall. Only failure(), values(), refill() and soak_at_once() may be used on a failed
/// run. The times and flows of a failed run are zero and meaningless.
/// Source: balances of water and heat; each phase uses the closed form of HeatedBody.
/// tests/reference/ode_test.cpp compares it with a general-purpose integrator.
class Run {
 public:
  /// Computes the phases. If there is no running phase, failure() gives the reason. Does not throw.
  explicit Run(const RunValues& values);

  /// Changes the first fill. This moves the boiling time and the first drop by the same amount;
  /// nothing else in the phases depends on the fill. Costs no logarithm if fill and pot start at
  /// the same temperature, and one otherwise; a new run costs two.
  void refill(Mass first_fill);
  /// Makes the charge take up `water` from the pot at the start of heating, and nothing more after
  /// that. The times of the phases don't change.
  void soak_at_once(Mass water);

  /// Why there is no running phase; none if there is one.
  std::optional<RunFailure> failure() const { return failure_; }
  /// The values of the run, including the changes by refill() and soak_at_once().
  const RunValues& values() const { return values_; }

  /// When the pot starts to boil.
  Duration boil() const { return boil_; }
  /// When the first drop falls.
  Duration first_drop() const { return first_drop_; }
  /// Steam made in the pot from boiling on.
  MassFlow steam_made() const { return steam_; }
  /// The part of that steam that reaches the condenser, from first drop on.
  MassFlow vapour() const { return vapour_; }
  /// The part of that vapour that is caught as distillate.
  MassFlow distillate() const { return vapour_ * (1.0 - values_.uncondensed_loss); }
  /// The distillate as a volume flow.
  VolumeFlow distillate_rate() const { return distillate() / values_.distillate_density; }

  /// The phase at a time; at a boundary, the later one.
  Phase phase_at(Duration time) const;
  /// Temperature of the water in the pot.
  Temperature pot_temperature(Duration time) const;
  /// Where the water is.
  WaterBalance water_at(Duration time) const;
  /// Where the heat went since the start of heating.
  EnergyBalance energy_at(Duration time) const;
  /// Steam condensed in column and charge so far, whether held there or dripped back.
  Mass condensed_until(Duration time) const;
  /// Hydrosol in the receiver; zero before first drop.
  Volume hydrosol_at(Duration time) const;
  /// Where the oil is. Before first drop, all of it is in the charge. OilCourse is faster for many
  /// times of one run.
  OilBalance oil_at(Duration time) const;
  /// Oil that has left the charge; zero before first drop. See oil_vaporised().
  Mass oil_vaporised_at(Duration time) const;
  /// The vaporised oil as a share of the recoverable oil. Without recoverable oil, the limit for a
  /// vanishing amount.
  Fraction oil_share_at(Duration time) const;
  /// Separated oil in the receiver: vaporised oil minus the oil dissolved in the hydrosol. It can
  /// decrease only with mixing, and only after saturated_until().
  Mass oil_in_receiver_at(Duration time) const { return oil_at(time).separated; }
  /// The time until which the distillate brings at least as much oil as its water can dissolve. It
  /// is first drop at the earliest, and also when there is no oil. It is infinite when water
  /// dissolves no oil. The distillate never gets richer, so there is only one such time.
  Duration saturated_until() const;
  /// Release of the oil at the steam flow of this run.
  const Release& release() const { return release_; }
  /// Steam that passes the charge from first drop on, per kilogram of charge and unit time.
  Rate steam_per_charge() const { return vapour_ / values_.charge; }
  /// The most oil per time that the vapour can carry; none when that is not known.
  std::optional<MassFlow> codistillation_limit() const;

  /// When the free water in the pot has fallen to `left`, if the heat stays on; zero if the run
  /// starts with no more than that.
  Duration time_until_left(Mass left) const;
  /// When this much hydrosol is in the receiver, even if the pot would run dry before.
  Duration time_of_hydrosol(Volume volume) const;
  /// When this share (0 to below 1) of the recoverable oil is vaporised. See time_to_vaporise().
  Duration time_of_oil_share(Fraction share) const;
  /// When the co-distillation limit stops holding the oil back; none if it never does so, or for no
  /// more than a second.
  std::optional<Duration> codistillation_limit_until() const;

 private:
  RunValues values_;
  HeatedBody pot_;
  Temperature start_;  ///< temperature of pot and water once mixed
  HeatedBody column_;
  std::optional<RunFailure> failure_;
  Duration boil_;
  Duration first_drop_;
  MassFlow steam_;
  MassFlow vapour_;
  Release release_;
};

namespace equations {
// Until the first drop: Run::Run().
inline constexpr Equation<HeatCapacity> pot_capacity{
    "C_pot", "heat capacity of the pot and all that is in it", shown_in::kilojoules_per_kelvin, ""};
inline constexpr Equation<HeatCapacity> column_capacity{
    "C_col", "heat capacity of all that steam heats", shown_in::kilojoules_per_kelvin, ""};
/// What adds to the heat capacity of the pot or of what is above it.
struct Warms {
  bool grid = false;    ///< hangs in the pot
  bool column = false;  ///< stands on the pot
  bool charge_in_water = false;
};
/// @{
/// The right-hand sides.
std::string pot_capacity_text(const Warms& warms);
std::string column_capacity_text(const Warms& warms);
/// @}
inline constexpr Equation<Temperature> mixed_start{
    "T_start", "temperature of pot and water at the start of heating", shown_in::celsius,
    "T_room + (T_pour - T_room) * M_fill / 1000 * c_w / C_pot"};
inline constexpr Equation<Duration> first_drop{"t_drop", "first drop, from the start of heating",
                                               shown_in::minutes, "t_boil + t_steam"};
inline constexpr Equation<VolumeFlow> distillate{
    "D", "distillate rate", shown_in::millilitres_per_minute, "V * (1 - vent / 100) / rho_w"};
// Run::hydrosol_at() and its inverse.
inline constexpr Equation<Duration> distilling{"t_run", "time from the first drop to the stop",
                                               shown_in::minutes, "max(t_stop - t_drop, 0)"};
inline constexpr Equation<Volume> hydrosol{"V_h", "hydrosol caught", shown_in::millilitres,
                                           "D * t_run"};
/// One for each change of receivers, numbered from 1.
inline constexpr Equation<Volume> receiver_full{"V_full", "hydrosol when the receiver is full",
                                                shown_in::millilitres, ""};
inline constexpr Equation<Duration> receiver_full_at{
    "t_full", "receiver full, from the start of heating", shown_in::minutes, ""};
/// @{
/// The right-hand sides.
std::string receiver_full_text(std::size_t number);
std::string receiver_full_at_text(std::size_t number);
/// @}
inline constexpr Equation<Volume> hydrosol_more{"V_more", "additional hydrosol from another 15 min",
                                                shown_in::millilitres,
                                                "D * (max(t_stop + 15 - t_drop, 0) - t_run)"};
// Run::steam_per_charge().
inline constexpr Equation<Rate> steam_per_charge{
    "q", "steam through the charge, per kilogram of charge", shown_in::per_hour, "V * 60 / m"};
// Run::water_at() and Run::condensed_until().
inline constexpr Equation<Mass> condensed{
    "m_cond", "steam condensed above the pot by the stop", shown_in::grams,
    "S * min(max(t_stop - t_boil, 0), t_steam) + (S - V) * t_run"};
inline constexpr Equation<Mass> held{"m_held", "water held by charge and walls", shown_in::grams,
                                     "min(m_cond, m_soak + m_wall)"};
/// With the charge in the water.
inline constexpr Equation<Mass> held_in_water{held.symbol, held.name, held.unit,
                                              "m_soak + min(m_cond, m_wall)"};
inline constexpr Equation<Mass> uncondensed{"m_vent", "uncondensed vapour, lost to the room",
                                            shown_in::grams, "V * vent / 100 * t_run"};
inline constexpr Equation<Volume> held_volume{"V_held", "volume of that water",
                                              shown_in::millilitres, "m_held / rho_w"};
inline constexpr Equation<Volume> uncondensed_volume{"V_vent",
                                                     "volume of the uncondensed vapour, as water",
                                                     shown_in::millilitres, "m_vent / rho_w"};
inline constexpr Equation<Volume> left_at_stop{"V_left", "water left in the pot at the stop",
                                               shown_in::millilitres,
                                               "(M_fill - m_held - m_vent) / rho_w - V_h"};
// Run::time_until_left().
inline constexpr Equation<Duration> reserve_reached{
    "t_res", "pot down to its reserve, if the heat stays on", shown_in::minutes, ""};
inline constexpr Equation<Duration> pot_dry{"t_dry", "pot dry, if the heat stays on",
                                            shown_in::minutes, ""};
/// How a pot gets down to a level after the first drop.
struct FallsToLevel {
  std::string_view left;         ///< mass left then, as an equation's text
  bool charge_in_water = false;  ///< it takes up its water at the start
  bool still_wetting = false;    ///< at first drop, charge and walls don't yet hold all they can
};
/// The right-hand side. From first drop on, the pot loses all the steam that it makes until charge
/// and walls hold all they can. After that it loses only what goes to the condenser.
std::string time_until_left_text(const FallsToLevel& falls);
}  // namespace equations

/// When the fractions of a run begin and end: first drop, the times at which `ends` are in all
/// receivers together, and the stop. None is later than the stop.
std::vector<Duration> fraction_bounds(const Run& run, const std::vector<Volume>& ends,
                                      Duration stop);

/// Where the oil of a run is at any time. Computes once what does not depend on the time. Keeps a
/// reference to the run, which must have no failure.
/// Source: a weighted mean of two receivers. In one, each millilitre of water dissolves only the
/// oil that came with it. In the other (weight RunValues::mixing), all the water can dissolve all
/// the oil. tests/reference/ode_test.cpp compares it with a general-purpose integrator.
///
/// With several receivers, the oil of one never meets the water of another.
class OilCourse {
 public:
  /// Computes the time until which the distillate is saturated. Does not throw. `changes` are what
  /// all receivers together hold when an empty one takes the place of another, in rising order; at
  /// most `most_changes` of them.
  explicit OilCourse(const Run& run, const std::vector<Volume>& changes = {});
  /// The most receivers, less one.
  static constexpr std::size_t most_changes = 7;
  /// Where the oil is at a time from the start of heating. Before first drop, all of it is in the
  /// charge.
  OilBalance at(Duration time) const;
  /// What has come into the receivers between two times. Needs from <= to, and no change of
  /// receivers between them.
  OilBalance between(Duration from, Duration to) const;
  /// The oil that would dissolve between two times if separated oil never met later water.
  Mass dissolved_as_it_comes(Duration from, Duration to) const;

 private:
  Mass dissolved_by(Duration time, Mass vaporised) const;

  const Run* run_;
  Duration saturated_;
  Mass vaporised_by_then_;
  std::array<Duration, most_changes> changes_{};
  std::size_t change_count_ = 0;
};
namespace equations {
inline constexpr Equation<Volume> hydrosol_while_saturated{"V_sat", "hydrosol by then",
                                                           shown_in::millilitres, "D * t_sat"};
inline constexpr Equation<Mass> dissolved_as_it_comes{
    "m_come", "oil that would dissolve if separated oil never met later water", shown_in::grams,
    "c_h * V_sat / 1e6 + m_vap - m_sat"};
inline constexpr Equation<Mass> oil_dissolved{
    "m_diss", "oil dissolved in the hydrosol", shown_in::grams,
    "min(m_vap, (1 - mix / 100) * m_come + mix / 100 * min(m_vap, c_h * V_h / 1e6))"};
inline constexpr Equation<Mass> oil_separated{"m_part", "oil that separates in the receiver",
                                              shown_in::grams, "m_vap - m_diss"};
inline constexpr Equation<Volume> oil_volume{
    "V_oil",
    "volume of the separated oil in the nominal run (the plan leads with its median, p_vol)",
    shown_in::millilitres, "m_part / rho_oil"};
}  // namespace equations

}  // namespace firstdrop
