/// @file
/// The model parameters of a recipe at one point of their ranges, and the values of a run made from
/// them.
///
/// The nominal run, the worst credible case and every sample go through ParametersAt: a point gives
/// each parameter a quantile, and this turns them into numbers.
#pragma once

#include "firstdrop/quantity/quantity.hpp"
#include "model/model_parameters.hpp"
#include "model/sample_point.hpp"
#include "physics/run.hpp"

namespace firstdrop {

/// Space for the charge: typical volume of column, grid space, or pot (hydro). The still must have
/// that part.
Volume charge_space(const Still& still, Method method);
/// Cross-section of the bed that steam passes: column (steam) or pot (water-and-steam).
Area bed_area(const Still& still, Method method);

/// Bulk density of the charge at this point; above zero.
Density bulk_density_at(const ModelParameters& parameters, const SamplePoint& point);
/// Overall heat transfer of the condensing wall at this point; above zero.
HeatTransfer condensing_at(const ModelParameters& parameters, const SamplePoint& point);

/// The most charge that fits at this point, in a still that is no larger than it may be.
Mass charge_capacity(const ModelParameters& parameters, const DesignDefaults& defaults,
                     const SamplePoint& point);

/// Oil in a charge at this point; never more than half of it.
Mass oil_in_charge(const ModelParameters& parameters, const SamplePoint& point, Mass charge);
/// What this still can get of it.
Mass oil_recoverable(const ModelParameters& parameters, const SamplePoint& point, Mass charge);

/// What tells the heat that gets into the pot.
enum class HeatFrom {
  bench,   ///< the bench's own figures, where it has some; else the tables
  tables,  ///< power and efficiency of the heater, whatever the bench has measured
};

/// The values of a run at one point of the ranges, for any charge and first fill: what does not
/// depend on these is worked out once. Values that a wide range would take where none can be (a
/// share above one, a film below zero) are held at the border. Keeps a reference to the inputs.
/// Throws nothing.
class ParametersAt {
 public:
  /// All inputs at this point.
  ParametersAt(const ModelParameters& parameters, const SamplePoint& point,
               HeatFrom heat = HeatFrom::bench);
  /// Moves to this point what decides of the heat: Parameter::heater, heat_loss and
  /// uncondensed_loss.
  void move_heat(const SamplePoint& point);
  /// Moves to this point what decides of the heat that the charge takes: Parameter::moisture and
  /// dry_specific_heat. Water and oil in the charge stay as they were.
  void move_charge(const SamplePoint& point);
  /// With this charge and this nominal first fill.
  RunValues of(Mass charge, Mass first_fill) const;
  /// Oil in a charge; see oil_in_charge().
  Mass oil_in(Mass charge) const { return charge * oil_share_; }
  /// What is in the pot for each kilogram that is poured.
  double filled() const { return filled_; }

 private:
  const ModelParameters* parameters_;
  HeatFrom heat_;
  RunValues unloaded_;
  double filled_ = 1.0;
  HeatCapacity of_column_;
  Fraction moisture_;
  SpecificHeat dry_heat_;
  Fraction hold_up_;
  Fraction film_hold_up_;
  Fraction oil_share_;
  Fraction recovery_;
  Duration boil_time_;  ///< as measured; of inputs that have one
};

/// The values of a single such run.
RunValues run_values_at(const ModelParameters& parameters, const SamplePoint& point, Mass charge,
                        Mass first_fill);

/// Whether the bench's own figures tell the heat that gets into the pot.
bool measured_heat(const ModelParameters& parameters);

/// The heat that the heater can give to the pot at the recipe's setting, by its nameplate and the
/// tables: the bounds of its range, and its middle.
Range<Power> heat_by_tables(const ModelParameters& parameters);
/// The same at one quantile of the heater's range.
Power heat_by_tables_at(const ModelParameters& parameters, double quantile);

}  // namespace firstdrop
