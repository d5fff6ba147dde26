// The cold side of a recipe's still: its coolant, the heat that the steam brings to it, and the
// condensing surface that this needs.
#pragma once

#include "model/model_parameters.hpp"
#include "physics/condenser.hpp"

namespace firstdrop {

class ColdSide {
 public:
  /// Keeps references to both, which must outlive this object.
  ColdSide(const ModelParameters& parameters, const DesignDefaults& defaults);

  /// Warmest coolant allowed.
  Temperature limit() const { return limit_; }
  /// Warmest temperature at which the distillate should leave.
  Temperature outlet() const { return outlet_; }
  /// Temperature at which the distillate leaves when the coolant is at `coolant`. That is outlet(),
  /// or the coolant plus DesignDefaults::approach if that is warmer, but never above boiling.
  Temperature outlet_above(Temperature coolant) const;
  /// Heat to remove per kilogram of steam when the distillate leaves at outlet().
  SpecificEnergy heat() const { return heat_.total(); }

  /// The ice bath or reservoir at the start of the run, with its median volume. Not for a tap.
  const CoolantVessel& vessel() const { return vessel_; }
  /// vessel() with the lower bound of its volume, which warms soonest. `film` is its heat transfer
  /// to the room. Its ice is scaled by thinned(), so that it makes up the same share of the filling
  /// as the planned ice in the largest vessel.
  CoolantVessel small_vessel(HeatTransfer film) const;
  /// vessel() with the upper bound of its volume, which warms latest. Its first ice is divided by
  /// thinned(), up to the whole filling.
  CoolantVessel large_vessel(HeatTransfer film) const;
  /// Lower bound of the vessel's volume, divided by the upper bound.
  double thinned() const;
  /// Coldest that the coolant can be after ice that would take vessel() from `before` to `after`.
  /// With the least water, ice cools it further in proportion, but never below the ice point.
  Temperature chilled(Temperature before, Temperature after) const;
  /// Adds to `vessel` the heat that this vapour's distillate gives up beyond its latent heat, when
  /// it leaves as cold as the coolant. That heat falls linearly as the coolant warms, like the heat
  /// exchange with the room. It is therefore added to the vessel's loss and room temperature.
  CoolantVessel warmed_by_distillate(CoolantVessel vessel, MassFlow vapour) const;
  /// Tap flow that removes the heat of this vapour when the distillate leaves at outlet().
  VolumeFlow flow(MassFlow vapour) const;
  /// Tap flow that cools the distillate of this vapour to the coolant's own temperature.
  VolumeFlow most_flow(MassFlow vapour) const;

  Surface surface_in_vessel(MassFlow vapour, HeatTransfer u, Temperature coolant) const;
  /// Surface for condensing only.
  Area condensing_in_vessel(MassFlow vapour, HeatTransfer u, Temperature coolant) const;
  Surface surface_in_flow(MassFlow vapour, HeatTransfer u) const;
  /// Surface for condensing only, with the coolant flow of most_flow().
  Area most_surface_in_flow(MassFlow vapour, HeatTransfer u) const;

 private:
  CondensingHeat heat_to(Temperature outlet) const;
  /// As heat_to(), but reuses the heats of `outlet_` and `outlet_at_limit_`.
  CondensingHeat heat_of(Temperature outlet) const;
  void fill_vessel();

  const ModelParameters& parameters_;
  const DesignDefaults& defaults_;
  const Condenser& condenser_;
  Temperature limit_;
  Temperature outlet_;
  CondensingHeat heat_;
  // Not set for a tap. They hold for coolant at its limit, where it is in most runs with ice.
  Temperature outlet_at_limit_;
  CondensingHeat heat_at_limit_;
  CoolantVessel vessel_;
  Area small_shell_;  // of the smallest vessel, towards the room
};

}  // namespace firstdrop
