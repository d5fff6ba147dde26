/// @file
/// The model parameters of a recipe at one sample point, and the values of a run made from them.
///
/// The nominal run, the worst credible case and every sample go through ParametersAt. A sample
/// point gives each parameter a quantile, and ParametersAt turns the quantiles into numbers.
#pragma once

#include "firstdrop/quantity/quantity.hpp"
#include "model/model_parameters.hpp"
#include "model/sample_point.hpp"
#include "physics/run.hpp"
#include "quantity/equation.hpp"

namespace firstdrop {

/// Space for the charge: the median volume of the column, of the space on the grid, or of the pot
/// (hydro). The still must have that part.
Volume charge_space(const Still& still, Method method);
/// Cross-section of the bed that steam passes through: column (steam) or pot (water-and-steam).
Area bed_area(const Still& still, Method method);
namespace equations {
inline constexpr Equation<Area> area_of_column{"A_bed", "cross-section of the bed",
                                               shown_in::square_metres, "pi / 4 * d_col ^ 2"};
inline constexpr Equation<Area> area_of_pot{area_of_column.symbol, area_of_column.name,
                                            area_of_column.unit, "pi / 4 * d_pot ^ 2"};
}  // namespace equations

/// Bulk density of the charge at this point; above zero.
Density bulk_density_at(const ModelParameters& parameters, const SamplePoint& point);
/// Overall heat transfer of the condensing wall at this point; above zero.
HeatTransfer condensing_at(const ModelParameters& parameters, const SamplePoint& point);

/// The largest charge that fits at this point, in a still whose volume is at its lower bound.
Mass charge_capacity(const ModelParameters& parameters, const DesignDefaults& defaults,
                     const SamplePoint& point);

/// Oil in a charge at this point; never more than half of the charge.
Mass oil_in_charge(const ModelParameters& parameters, const SamplePoint& point, Mass charge);
/// The part of that oil that this still can get.
Mass oil_recoverable(const ModelParameters& parameters, const SamplePoint& point, Mass charge);
namespace equations {
inline constexpr Equation<Mass> oil_recoverable{"m_rec", "recoverable oil", shown_in::grams,
                                                "m_oil * r / 100"};
}  // namespace equations

/// Which figures give the heat into the pot.
enum class HeatFrom {
  bench,  ///< the bench's own figures if it has any, otherwise the tables
  /// Power and efficiency of the heater, even if the bench has measured the heat. At the ends of
  /// the ranges, a still's measured figures and the defaults that they replaced both count.
  tables,
};

/// The values of a run at one sample point, for any charge and first fill. What doesn't depend on
/// these two is computed once. Where a wide range would give an impossible value (a share above
/// one, a film below zero), it is clamped to a possible one. Keeps a reference to the model
/// parameters. Throws nothing.
class ParametersAt {
 public:
  /// Takes every parameter at this point.
  ParametersAt(const ModelParameters& parameters, const SamplePoint& point,
               HeatFrom heat = HeatFrom::bench);
  /// Moves the parameters that set the heater's heat and the losses to this point:
  /// Parameter::heater, heat_loss and uncondensed_loss.
  void move_heat(const SamplePoint& point);
  /// Moves the parameters that set the heat capacities to this point: Parameter::moisture and
  /// dry_specific_heat, which the masses of the still follow. The water that the charge holds
  /// follows its moisture. The oil in the charge stays as it was.
  void move_capacities(const SamplePoint& point);
  /// The values with this charge and this nominal first fill.
  RunValues of(Mass charge, Mass first_fill) const;
  /// Oil in a charge; see oil_in_charge().
  Mass oil_in(Mass charge) const { return charge * oil_share_; }
  /// Kilograms of water in the pot per kilogram of nominal first fill.
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
  Duration boil_time_;  ///< as measured, if it was
};

/// The values of a single run.
RunValues run_values_at(const ModelParameters& parameters, const SamplePoint& point, Mass charge,
                        Mass first_fill);

/// Whether the bench's own figures give the heat into the pot.
bool measured_heat(const ModelParameters& parameters);

/// Heat into the pot at the recipe's setting, from the nameplate and the tables: the median and the
/// two bounds of its range. So low and high are the quantiles 0 and 1, not P10 and P90.
Range<Power> heat_by_tables(const ModelParameters& parameters);
/// Heat into the pot with this efficiency, at one quantile of it and of the heater's power.
Power heat_at(const ModelParameters& parameters, const Cited<Fraction>& efficiency,
              double quantile);
/// Heat into the pot by the tables at one quantile of the heater's range.
Power heat_by_tables_at(const ModelParameters& parameters, double quantile);

}  // namespace firstdrop
