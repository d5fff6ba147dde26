// The cold side of a recipe's still: the coolant it has, the heat that steam brings to it, and the
// surface that this takes.
#pragma once

#include "firstdrop/condenser.hpp"
#include "firstdrop/inputs.hpp"

namespace firstdrop {

class ColdSide {
 public:
  /// Keeps references: both must outlive it.
  ColdSide(const Inputs& inputs, const Practice& practice);

  /// Warmest coolant allowed.
  Temperature limit() const { return limit_; }
  /// The distillate should leave no warmer.
  Temperature outlet() const { return outlet_; }
  /// The distillate leaves no colder than this from coolant so warm, nor warmer than boiling.
  Temperature outlet_above(Temperature coolant) const;
  /// Heat to take from a kilogram of steam.
  SpecificEnergy heat() const { return heat_; }

  /// The ice bath or reservoir as the run finds it. Not for a tap.
  CoolantVessel vessel() const;
  /// Flow from the tap that takes away all heat of this vapour.
  VolumeFlow flow(MassFlow vapour) const;

  Surface surface_in_vessel(MassFlow vapour, HeatTransfer u, Temperature coolant) const;
  Surface surface_in_flow(MassFlow vapour, HeatTransfer u) const;

 private:
  Conductance vessel_loss(Volume filling) const;

  const Inputs& inputs_;
  const Practice& practice_;
  const Condenser& condenser_;
  Temperature limit_;
  Temperature outlet_;
  SpecificEnergy heat_;
};

}  // namespace firstdrop
