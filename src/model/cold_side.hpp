// The cold side of a recipe's still: the coolant it has, the heat that steam brings to it, and the
// surface that this takes.
#pragma once

#include "model/model_parameters.hpp"
#include "physics/condenser.hpp"

namespace firstdrop {

class ColdSide {
 public:
  /// Keeps references: both must outlive it.
  ColdSide(const ModelParameters& parameters, const DesignDefaults& defaults);

  /// Warmest coolant allowed.
  Temperature limit() const { return limit_; }
  /// The distillate should leave no warmer.
  Temperature outlet() const { return outlet_; }
  /// The distillate leaves no colder than this from coolant so warm, nor warmer than boiling.
  Temperature outlet_above(Temperature coolant) const;
  /// Heat to take from a kilogram of steam.
  SpecificEnergy heat() const { return heat_.total(); }

  /// The ice bath or reservoir as the run finds it. Not for a tap.
  const CoolantVessel& vessel() const { return vessel_; }
  /// The same where it warms soonest, with as little water as it may hold, and where it warms
  /// latest, with as much; `film` is what it loses to the room. The small one has its ice only in
  /// the share that the large one would have of it: `thinned()` is how much less.
  CoolantVessel small_vessel(HeatTransfer film) const;
  CoolantVessel large_vessel(HeatTransfer film) const;
  double thinned() const;
  /// How cold ice may leave the coolant that it would bring from `before` to `after` in vessel():
  /// with as little water as there may be it is chilled by as much more; never below the ice point.
  Temperature chilled(Temperature before, Temperature after) const;
  /// A vessel to which this vapour's distillate brings all of its heat, latent heat apart, because
  /// it leaves as cold as the coolant. That heat falls in proportion to the coolant's warmth, as
  /// the loss to the room does, and so is put into it.
  CoolantVessel warmed_by_distillate(CoolantVessel vessel, MassFlow vapour) const;
  /// Flow from the tap that takes away all heat of this vapour.
  VolumeFlow flow(MassFlow vapour) const;
  /// The same when the tap cools the distillate as far as it can.
  VolumeFlow most_flow(MassFlow vapour) const;

  Surface surface_in_vessel(MassFlow vapour, HeatTransfer u, Temperature coolant) const;
  /// To condense only.
  Area condensing_in_vessel(MassFlow vapour, HeatTransfer u, Temperature coolant) const;
  Surface surface_in_flow(MassFlow vapour, HeatTransfer u) const;
  /// To condense only, with the coolant that most_flow() leaves for it.
  Area most_surface_in_flow(MassFlow vapour, HeatTransfer u) const;

 private:
  CondensingHeat heat_to(Temperature outlet) const;
  /// The same, looked up where it is known.
  CondensingHeat heat_of(Temperature outlet) const;
  void fill_vessel();

  const ModelParameters& parameters_;
  const DesignDefaults& defaults_;
  const Condenser& condenser_;
  Temperature limit_;
  Temperature outlet_;
  CondensingHeat heat_;
  // Not for a tap. Above coolant at its limit, where it is in most runs with ice.
  Temperature outlet_at_limit_;
  CondensingHeat heat_at_limit_;
  CoolantVessel vessel_;
  Area small_shell_;  // of the small one, to the room
};

}  // namespace firstdrop
