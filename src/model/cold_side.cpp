#include "model/cold_side.hpp"

#include <algorithm>

#include "physics/water.hpp"

namespace firstdrop {
namespace {

// Margin of the coolant above the oil's setting point (common practice).
constexpr TemperatureDifference above_freezing = kelvins(5);

}  // namespace

ColdSide::ColdSide(const ModelParameters& parameters, const DesignDefaults& defaults)
    : parameters_(parameters),
      defaults_(defaults),
      condenser_(parameters.recipe.still->condenser),
      limit_(condenser_.coolant_limit.typical()),
      outlet_(std::clamp(condenser_.outlet.typical(), celsius(0.01), parameters.boiling)),
      heat_(heat_to(outlet_)) {
  if (condenser_.kind == CondenserKind::run_through) return;
  outlet_at_limit_ = outlet_above(limit_);
  heat_at_limit_ = outlet_at_limit_ == outlet_ ? heat_ : heat_to(outlet_at_limit_);
  fill_vessel();
}

CondensingHeat ColdSide::heat_to(Temperature outlet) const {
  return {parameters_.latent_heat,
          parameters_.boiling_enthalpy - saturated_liquid_enthalpy(outlet)};
}

CondensingHeat ColdSide::heat_of(Temperature outlet) const {
  if (outlet == outlet_) return heat_;
  return outlet == outlet_at_limit_ ? heat_at_limit_ : heat_to(outlet);
}

Temperature ColdSide::outlet_above(Temperature coolant) const {
  return std::min(std::max(outlet_, coolant + defaults_.approach.typical()), parameters_.boiling);
}

void ColdSide::fill_vessel() {
  const Volume typical = condenser_.coolant->typical();
  const Volume least = least_of(*condenser_.coolant);
  vessel_.filling = typical * parameters_.fill_density;
  vessel_.ice_per_change =
      condenser_.ice_per_change ? condenser_.ice_per_change->typical() : grams(0);
  if (condenser_.kind == CondenserKind::ice_bath) {
    vessel_.first_ice = std::min(vessel_.ice_per_change, vessel_.filling);
  }
  if (const auto& freezes = parameters_.recipe.plant->oil_freezes) {
    // Ice could make such an oil set in the condenser, so the bath starts without ice. Each later
    // change is small enough to keep the bath above `mildest`, even with the least water it may
    // hold.
    const Temperature mildest = freezes->range.high + above_freezing;
    const SpecificHeat cp = mean_liquid_specific_heat(celsius(1), limit_);
    const Mass mild = least * parameters_.fill_density * cp *
                      std::max(limit_ - mildest, kelvins(0)) /
                      (ice_melting_heat + cp * (limit_ - celsius(0)));
    vessel_.first_ice = grams(0);
    vessel_.ice_per_change = std::min(vessel_.ice_per_change, mild);
  }
  vessel_.start = parameters_.coolant;
  vessel_.limit = limit_;
  vessel_.room = parameters_.recipe.site.room;
  const Area of_nominal = vessel_surface(typical);
  vessel_.loss = defaults_.bath_loss.typical() * of_nominal;
  small_shell_ = least == typical ? of_nominal : vessel_surface(least);
}

Temperature ColdSide::chilled(Temperature before, Temperature after) const {
  const double small = condenser_.coolant->typical() / least_of(*condenser_.coolant);
  return std::max(after - (before - after) * (small - 1.0), std::min(after, celsius(0)));
}

double ColdSide::thinned() const {
  return least_of(*condenser_.coolant) / most_of(*condenser_.coolant);
}

CoolantVessel ColdSide::small_vessel(HeatTransfer film) const {
  CoolantVessel small = vessel_;
  small.filling = least_of(*condenser_.coolant) * parameters_.fill_density;
  small.first_ice = small.first_ice * thinned();
  small.ice_per_change = small.ice_per_change * thinned();
  small.loss = film * small_shell_;
  return small;
}

CoolantVessel ColdSide::large_vessel(HeatTransfer film) const {
  CoolantVessel large = vessel_;
  large.filling = most_of(*condenser_.coolant) * parameters_.fill_density;
  large.first_ice = std::min(large.first_ice / thinned(), large.filling);
  large.loss = film * vessel_surface(most_of(*condenser_.coolant));
  return large;
}

CoolantVessel ColdSide::warmed_by_distillate(CoolantVessel vessel, MassFlow vapour) const {
  const Conductance by_distillate =
      Conductance::from_si((vapour * parameters_.distillate_heat).si());
  vessel.loss = vessel.loss + by_distillate;
  vessel.room =
      vessel.room + (parameters_.boiling - vessel.room) * double(by_distillate / vessel.loss);
  return vessel;
}

VolumeFlow ColdSide::flow(MassFlow vapour) const {
  return coolant_flow(vapour * heat(), parameters_.coolant, limit_) / parameters_.fill_density;
}

VolumeFlow ColdSide::most_flow(MassFlow vapour) const {
  const Temperature coldest = std::max(parameters_.coolant, celsius(0.01));
  return coolant_flow(vapour * heat_to(coldest).total(), parameters_.coolant, limit_) /
         parameters_.fill_density;
}

Surface ColdSide::surface_in_vessel(MassFlow vapour, HeatTransfer u, Temperature coolant) const {
  const Temperature outlet = outlet_above(coolant);
  return surface_in_bath(vapour, u, heat_of(outlet), parameters_.boiling, outlet, coolant);
}

Area ColdSide::condensing_in_vessel(MassFlow vapour, HeatTransfer u, Temperature coolant) const {
  return condensing_in_bath(vapour, u, parameters_.latent_heat, parameters_.boiling, coolant);
}

Surface ColdSide::surface_in_flow(MassFlow vapour, HeatTransfer u) const {
  const Temperature outlet = outlet_above(parameters_.coolant);
  return surface_in_counterflow(vapour, u, heat_of(outlet), parameters_.boiling, outlet,
                                parameters_.coolant, limit_);
}

Area ColdSide::most_surface_in_flow(MassFlow vapour, HeatTransfer u) const {
  // Cooling to the coolant's own temperature would take an infinite surface, so stop 0.01 K above.
  const Temperature outlet = parameters_.coolant + kelvins(0.01);
  return surface_in_counterflow(vapour, u, heat_to(outlet), parameters_.boiling, outlet,
                                parameters_.coolant, limit_)
      .condensing;
}

}  // namespace firstdrop
