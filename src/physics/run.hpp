/// @file
/// One run of the still with every value known: three phases, each in closed form.
///
/// - warming: heat on until the pot boils
/// - steaming: steam heats column and charge; it all condenses there
/// - running: distillate comes at a constant rate, from first drop on
///
/// Times count from heat on. Model: a lumped pot, a lumped column with its charge, constant heat.
/// Left out, being small: evaporation before boiling, the latent heat of the oil (some 0.3 kJ/g of
/// a few grams), and the change of exposed wall as the level falls.
#pragma once

#include <optional>

#include "firstdrop/physics/course.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "physics/heated_body.hpp"
#include "physics/release.hpp"

namespace firstdrop {

/// All that a run depends on, each as one value. ParametersAt makes them from ranges.
struct RunValues {
  Temperature boiling;                ///< of the pot
  SpecificEnergy latent_heat;         ///< at `boiling`, above zero
  Temperature room;                   ///< also of column and charge at heat on
  TemperatureDifference fill_excess;  ///< of the first fill over the room, at heat on
  TemperatureDifference pot_excess;   ///< the same of what warms with it
  SpecificHeat water_heat;            ///< mean from room to boiling
  Mass first_fill;                    ///< of water in the pot at heat on
  HeatCapacity pot_capacity;     ///< of what warms with the water: vessel, grid, charge when hydro
  Conductance pot_loss;          ///< from pot to room
  Power heat_warming;            ///< into the pot until it boils
  Power heat_boiling;            ///< into the pot from then on
  HeatCapacity column_capacity;  ///< of what steam heats: column, head, charge unless hydro
  Conductance column_loss;       ///< from column and head to room
  Mass soaked;                   ///< pot water that the charge takes up at once (hydro)
  Mass hold_up;                  ///< condensate that charge and walls keep before any drips back
  Fraction uncondensed_loss;     ///< of the vapour that the condenser does not catch; below 1
  Density distillate_density;    ///< as measured in the receiver
  Mass charge;                   ///< that steam passes; zero only where there is no oil to come
  Mass oil_recoverable;          ///< that this still can get from the charge
  Release release;               ///< how fast it comes at the reference flow of steam
  FlowEffect flow_effect;        ///< how that changes with the flow
  std::optional<Fraction> oil_per_steam;  ///< the steam bound
  Density hydrosol_oil;                   ///< what the hydrosol can hold
  Fraction mixing;  ///< how well the receiver mixes, 0 to 1. At 1 all its oil stays in contact with
                    ///< all its water. At 0 later water never dissolves oil that has separated
};

/// Why a run gives nothing.
enum class RunFailure {
  never_boils,      ///< the pot loses all its heat before it boils
  never_at_the_top  ///< the column loses all the steam before it reaches the condenser
};

/// What of a run no first fill changes: how it goes from boiling on.
struct Boiling {
  std::optional<RunFailure> failure = {};  ///< then the others are zero and mean nothing
  MassFlow steam = {};                     ///< made in the pot
  MassFlow vapour = {};                    ///< of it, over the top, from first drop on
  Duration steaming = {};                  ///< from boiling to first drop
};
/// How it boils. Costs one logarithm, where a run costs two.
/// Source: as Run.
Boiling boiling_of(const RunValues& values);

/// Where the water is; sums to the first fill.
struct WaterBalance {
  Mass distilled;    ///< caught as hydrosol
  Mass uncondensed;  ///< past the condenser
  Mass held;         ///< by charge and walls
  Mass left;         ///< free in the pot; below zero would mean dry
};

/// Where the oil that has left the charge is; the parts sum to it.
struct OilBalance {
  Mass vaporised;  ///< has left the charge
  Mass dissolved;  ///< of it, in the hydrosol
  Mass separated;  ///< of it, on or under the hydrosol
};

/// Where the heat went; the parts sum to the heat put in.
struct EnergyBalance {
  Energy put_in;             ///< by the heater
  Energy water_and_pot;      ///< warmed them
  Energy column_and_charge;  ///< warmed them (hydro: the charge is in the pot)
  Energy pot_lost;           ///< from pot to room
  Energy column_lost;        ///< from column and head to room
  Energy left_with_vapour;   ///< latent heat, to the condenser or vented
  /// What does not close; rounding.
  Energy residual() const {
    return put_in - water_and_pot - column_and_charge - pot_lost - column_lost - left_with_vapour;
  }
};

/// A run and all that happens in it, at any time.
///
/// All times count from heat on and are taken from 0 on. A run never ends by itself: it goes on
/// beyond a dry pot, with less than nothing left, so that whoever asks sees by how much. Save
/// failure(), values(), refill() and soak_at_once(), everything needs a run without failure: times
/// and flows of a failed one are zero and mean nothing.
/// Source: balances of water and heat, each phase with the closed form of HeatedBody; held against
/// a general-purpose integrator by tests/reference/ode_test.cpp.
class Run {
 public:
  /// Works out the phases. `failure()` tells when there is no running phase. Throws nothing.
  explicit Run(const RunValues& values);

  /// Another first fill: the pot boils so much sooner or later, and nothing else of a run's phases
  /// depends on it. Costs no logarithm, where a new run costs two; one where the fill is warmer or
  /// colder than the pot.
  void refill(Mass first_fill);
  /// The charge takes up so much of its hold-up from the pot at heat on, and nothing more after
  /// that. No time of the run's phases depends on it.
  void soak_at_once(Mass water);

  /// Why there is no running phase; none for a run that has one.
  std::optional<RunFailure> failure() const { return failure_; }
  /// What the run was made from, with what refill() and soak_at_once() changed.
  const RunValues& values() const { return values_; }

  /// When the pot boils.
  Duration boil() const { return boil_; }
  /// When the first drop falls.
  Duration first_drop() const { return first_drop_; }
  /// Steam made in the pot from boiling on.
  MassFlow steam_made() const { return steam_; }
  /// What of it comes over the top, to the condenser, from first drop on.
  MassFlow vapour() const { return vapour_; }
  /// What of that is caught.
  MassFlow distillate() const { return vapour_ * (1.0 - values_.uncondensed_loss); }
  /// The same by volume.
  VolumeFlow distillate_rate() const { return distillate() / values_.distillate_density; }

  /// The phase; at a border the later one.
  Phase phase_at(Duration time) const;
  /// Of the water in the pot.
  Temperature pot_temperature(Duration time) const;
  /// Where the water is.
  WaterBalance water_at(Duration time) const;
  /// Where the heat went, from heat on.
  EnergyBalance energy_at(Duration time) const;
  /// What has condensed in column and charge, held there or dripped back.
  Mass condensed_until(Duration time) const;
  /// Hydrosol in the receiver; zero before first drop.
  Volume hydrosol_at(Duration time) const;
  /// Where the oil is; nowhere but in the charge before first drop. For many times of one run see
  /// OilCourse.
  OilBalance oil_at(Duration time) const;
  /// Oil that has left the charge; zero before first drop. See oil_vaporised().
  Mass oil_vaporised_at(Duration time) const;
  /// The same as a share of the recoverable oil. With none, the limit for a vanishing amount.
  Fraction oil_share_at(Duration time) const;
  /// Oil that has parted in the receiver: vaporised, less what the hydrosol holds. It falls again
  /// only with mixing, and only after saturated_until().
  Mass oil_in_receiver_at(Duration time) const { return oil_at(time).separated; }
  /// The moment up to which the distillate brings at least as much oil as its water can hold. First
  /// drop at the earliest, and when there is no oil; infinite when water holds none. The distillate
  /// never gets richer, so there is one such moment.
  Duration saturated_until() const;
  /// How fast the oil comes, at the flow of this run.
  const Release& release() const { return release_; }
  /// Steam that passes the charge, per kilogram of it and unit time, from first drop on.
  Rate steam_per_charge() const { return vapour_ / values_.charge; }
  /// The most oil that the vapour can carry; none when that is not known.
  std::optional<MassFlow> codistillation_limit() const;

  /// When only `left` of free water is in the pot, with the heat left on; zero if there is no more
  /// at heat on.
  Duration time_until_left(Mass left) const;
  /// When this much hydrosol is in the receiver, whether the pot has the water or not.
  Duration time_of_hydrosol(Volume volume) const;
  /// When this share (0 to below 1) of the recoverable oil is vaporised. See time_to_vaporise().
  Duration time_of_oil_share(Fraction share) const;
  /// Until when the steam bound holds the oil back; none when it does not, or for less than a
  /// second.
  std::optional<Duration> codistillation_limit_until() const;

 private:
  RunValues values_;
  HeatedBody pot_;
  Temperature start_;  ///< of pot and water, mixed
  HeatedBody column_;
  std::optional<RunFailure> failure_;
  Duration boil_;
  Duration first_drop_;
  MassFlow steam_;
  MassFlow vapour_;
  Release release_;
};

/// Where the oil of a run is at any time. Computes once what does not depend on the time. Keeps a
/// reference to the run, which must have no failure.
/// Source: a weighted mean of two receivers: one where each millilitre of water dissolves only the
/// oil that came with it, and one (weight RunValues::mixing) where all the water can dissolve all
/// the oil. Held against a general-purpose integrator by tests/reference/ode_test.cpp.
class OilCourse {
 public:
  /// Works out until when the hydrosol is saturated. Throws nothing.
  explicit OilCourse(const Run& run);
  /// From heat on; nowhere but in the charge before first drop.
  OilBalance at(Duration time) const;

 private:
  const Run* run_;
  Duration saturated_;
  Mass vaporised_by_then_;
};

}  // namespace firstdrop
