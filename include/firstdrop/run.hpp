// One run of the still with every value known: three phases, each in closed form.
//
//   warming   heat on until the pot boils
//   steaming  steam heats column and charge; it all condenses there
//   running   distillate comes at a constant rate, from first drop on
//
// Times count from heat on. Model: a lumped pot, a lumped column with its charge, constant heat.
// Left out, being small: evaporation before boiling, the latent heat of the oil (some 0.3 kJ/g of a
// few grams), and the change of exposed wall as the level falls.
#pragma once

#include <optional>

#include "firstdrop/heated_body.hpp"
#include "firstdrop/quantity.hpp"
#include "firstdrop/release.hpp"

namespace firstdrop {

struct RunValues {
  Temperature boiling;
  SpecificEnergy latent_heat;
  Temperature room;         ///< also of water, still and charge at heat on
  SpecificHeat water_heat;  ///< mean from room to boiling
  Mass first_fill;
  HeatCapacity pot_capacity;  ///< of what warms with the water: vessel, grid, charge when hydro
  Conductance pot_loss;
  Power heat_warming;            ///< into the pot until it boils
  Power heat_boiling;            ///< into the pot from then on
  HeatCapacity column_capacity;  ///< of what steam heats: column, head, charge unless hydro
  Conductance column_loss;
  Mass soaked;                 ///< pot water that the charge takes up at once (hydro)
  Mass hold_up;                ///< condensate that charge and walls keep before any drips back
  Fraction vent_share;         ///< of the vapour that the condenser does not catch
  Density distillate_density;  ///< as measured in the receiver
  Mass oil_recoverable;
  Release release;
  std::optional<Fraction> oil_per_steam;  ///< the steam bound
  Density hydrosol_oil;                   ///< what the hydrosol can hold
};

/// Why a run gives nothing.
enum class RunFailure {
  never_boils,      ///< the pot loses all its heat before it boils
  never_at_the_top  ///< the column loses all the steam before it reaches the condenser
};

enum class Phase { warming, steaming, running };

/// Where the water is; sums to the first fill.
struct WaterBalance {
  Mass distilled;  ///< caught as hydrosol
  Mass vented;
  Mass held;  ///< by charge and walls
  Mass left;  ///< free in the pot; below zero would mean dry
};

/// Where the heat went; the parts sum to the heat put in.
struct EnergyBalance {
  Energy put_in;
  Energy water_and_pot;
  Energy column_and_charge;
  Energy pot_lost;
  Energy column_lost;
  Energy left_with_vapour;  ///< latent heat, to the condenser or vented
  Energy residual() const {
    return put_in - water_and_pot - column_and_charge - pot_lost - column_lost - left_with_vapour;
  }
};

class Run {
 public:
  /// Works out the phases. `failure()` tells when there is no running phase.
  explicit Run(const RunValues& values);

  /// Another first fill: the pot boils so much sooner or later, and nothing else of a run's phases
  /// depends on it. Costs no logarithm, where a new run costs two.
  void refill(Mass first_fill);
  /// The charge takes up so much of its hold-up from the pot at heat on, and nothing more after
  /// that. No time of the run's phases depends on it.
  void soak_at_once(Mass water);

  std::optional<RunFailure> failure() const { return failure_; }
  const RunValues& values() const { return values_; }

  // All below need a run without failure.
  Duration boil() const { return boil_; }
  Duration first_drop() const { return first_drop_; }
  MassFlow steam_made() const { return steam_; }  ///< in the pot
  MassFlow vapour() const { return vapour_; }     ///< over the top, to the condenser
  MassFlow distillate() const { return vapour_ * (1.0 - values_.vent_share); }
  VolumeFlow distillate_rate() const { return distillate() / values_.distillate_density; }

  Phase phase_at(Duration time) const;
  Temperature pot_temperature(Duration time) const;
  WaterBalance water_at(Duration time) const;
  EnergyBalance energy_at(Duration time) const;
  Mass condensed_until(Duration time) const;  ///< in column and charge, held or dripped back
  Volume hydrosol_at(Duration time) const;
  Mass oil_vaporised_at(Duration time) const;
  Mass oil_in_receiver_at(Duration time) const;
  /// The most oil that the vapour can carry; none when that is not known.
  std::optional<MassFlow> oil_bound() const;

  /// When only `left` of free water is in the pot, with the heat left on.
  Duration time_until_left(Mass left) const;
  /// When this much hydrosol is in the receiver.
  Duration time_of_hydrosol(Volume volume) const;
  /// When this share (0 to below 1) of the recoverable oil is vaporised.
  Duration time_of_oil_share(Fraction share) const;
  /// While the steam bound holds the oil back; none when it never does.
  std::optional<Duration> steam_bound_until() const;

 private:
  RunValues values_;
  HeatedBody pot_;
  HeatedBody column_;
  std::optional<RunFailure> failure_;
  Duration boil_;
  Duration first_drop_;
  MassFlow steam_;
  MassFlow vapour_;
};

}  // namespace firstdrop
