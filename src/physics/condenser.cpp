#include "physics/condenser.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "physics/heat_balance.hpp"
#include "physics/water.hpp"

namespace firstdrop {
namespace {

constexpr Temperature ice_point = celsius(0);
constexpr Duration forever = hours(1e6);

// Coolant is water between the ice point and a few tens of degrees. In that range its heat capacity
// is within 0.5 % of this mean (IAPWS SR1-86).
SpecificHeat coolant_heat() {
  static const SpecificHeat mean = mean_liquid_specific_heat(celsius(0.01), celsius(40));
  return mean;
}

}  // namespace

CondensingHeat condensing_heat(Temperature boiling, Temperature outlet) {
  return {latent_heat(boiling),
          saturated_liquid_enthalpy(boiling) - saturated_liquid_enthalpy(outlet)};
}

TemperatureDifference log_mean(TemperatureDifference a, TemperatureDifference b) {
  const double ratio = a / b;
  if (std::abs(ratio - 1.0) < 1e-9) return (a + b) / 2.0;
  return (a - b) / std::log(ratio);
}

Surface surface_in_bath(MassFlow steam, HeatTransfer u, Temperature boiling, Temperature outlet,
                        Temperature coolant) {
  return surface_in_bath(steam, u, condensing_heat(boiling, outlet), boiling, outlet, coolant);
}

Surface surface_in_bath(MassFlow steam, HeatTransfer u, const CondensingHeat& heat,
                        Temperature boiling, Temperature outlet, Temperature coolant) {
  return {condensing_in_bath(steam, u, heat.condensing, boiling, coolant),
          steam * heat.cooling / (u * log_mean(boiling - coolant, outlet - coolant))};
}

Area condensing_in_bath(MassFlow steam, HeatTransfer u, SpecificEnergy latent_heat,
                        Temperature boiling, Temperature coolant) {
  return steam * latent_heat / (u * (boiling - coolant));
}

Surface surface_in_counterflow(MassFlow steam, HeatTransfer u, Temperature boiling,
                               Temperature outlet, Temperature coolant_in,
                               Temperature coolant_out) {
  return surface_in_counterflow(steam, u, condensing_heat(boiling, outlet), boiling, outlet,
                                coolant_in, coolant_out);
}

Surface surface_in_counterflow(MassFlow steam, HeatTransfer u, const CondensingHeat& heat,
                               Temperature boiling, Temperature outlet, Temperature coolant_in,
                               Temperature coolant_out) {
  const double cooling_share = heat.cooling / heat.total();
  const Temperature between = coolant_in + (coolant_out - coolant_in) * cooling_share;
  return {steam * heat.condensing / (u * log_mean(boiling - between, boiling - coolant_out)),
          steam * heat.cooling / (u * log_mean(boiling - between, outlet - coolant_in))};
}

Area vessel_surface(Volume filling) {
  const Length side = metres(std::cbrt(4.0 * filling.si() / std::numbers::pi));
  return circle_area(side) * 5.0;
}

MassFlow coolant_flow(Power duty, Temperature coolant_in, Temperature coolant_out) {
  return duty / (coolant_heat() * (coolant_out - coolant_in));
}

// The ice replaces the same mass of water.
void CoolantRun::change_ice(Duration at, Mass ice, Energy before) {
  changes_.push_back({at, ice});
  const Temperature given_up = warmth(before);
  after_changes_.push_back(before -
                           ice * (ice_melting_heat + coolant_heat() * (given_up - ice_point)));
}

template <class NextIce>
void CoolantRun::follow_changes(Duration time, NextIce next_ice, IceChange planned) {
  const SpecificHeat cp = coolant_heat();
  // Heat removed when a kilogram of ice replaces a kilogram of water at the limit.
  const SpecificEnergy swap = ice_melting_heat + cp * (vessel_.limit - ice_point);
  planned.ice = std::min(planned.ice, vessel_.filling);

  Duration now = seconds(0);
  warmest_ = warmth(first_);
  while (true) {
    const Energy enthalpy = changes_.empty() ? first_ : after_changes_.back();
    const Duration left = time - now;
    const Duration lasts = time_to_limit(enthalpy);
    const Duration to_planned = planned.at - now;
    if (planned.ice >= least_ice && to_planned <= std::min(lasts, left)) {
      const Energy then = enthalpy_after(enthalpy, to_planned);
      warmest_ = std::max(warmest_, warmth(then));
      now = planned.at;
      change_ice(now, planned.ice, then);
      planned.ice = grams(0);
      continue;
    }
    if (lasts >= left) {
      end_ = follow(enthalpy, left);
      warmest_ = std::max(warmest_, end_);
      return;
    }
    now += lasts;
    warmest_ = std::max(warmest_, vessel_.limit);
    if (!limit_reached_) limit_reached_ = now;
    const Mass ice = std::min(next_ice(now, swap), vessel_.filling);
    if (ice < least_ice || changes_.size() >= most_ice_changes) {
      end_ = follow(enthalpy, left);
      warmest_ = std::max(warmest_, end_);
      return;
    }
    change_ice(now, ice, vessel_.filling * cp * (vessel_.limit - ice_point));
  }
}

CoolantRun::CoolantRun(const CoolantVessel& vessel, Power duty)
    : vessel_(vessel),
      molten_{vessel.filling * coolant_heat(), vessel.loss, vessel.room, duty},
      melting_(duty + vessel.loss * (vessel.room - ice_point)) {
  vessel_.first_ice = std::min(vessel.first_ice, vessel.filling);
  first_ = (vessel_.filling - vessel_.first_ice) * coolant_heat() * (vessel_.start - ice_point) -
           vessel_.first_ice * ice_melting_heat;
}

CoolantRun::CoolantRun(const CoolantVessel& vessel, Power duty, Duration time, Duration beyond,
                       const IceChange& planned)
    : CoolantRun(vessel, duty) {
  const auto next_ice = [&](Duration now, SpecificEnergy swap) {
    if (vessel.ice_per_change < least_ice) return grams(0);
    // The last change only has to last until `beyond` after the run. Its ice is computed with the
    // heat gain of a vessel at the ice point, the largest gain, so it is always enough.
    const Power load = duty + vessel.loss * std::max(vessel.room - ice_point, kelvins(0));
    const Mass enough = load * (time + beyond - now) / swap * (1.0 + 1e-9);
    return std::min(vessel.ice_per_change, std::max(enough, least_ice));
  };
  follow_changes(time, next_ice, planned);
}

CoolantRun::CoolantRun(const CoolantVessel& vessel, Power duty, Duration time,
                       const std::vector<Mass>& ice)
    : CoolantRun(vessel, duty) {
  follow_changes(time, [&](Duration, SpecificEnergy) {
    return changes_.size() < ice.size() ? ice[changes_.size()] : grams(0);
  });
}

Mass CoolantRun::ice() const {
  Mass sum = vessel_.first_ice;
  for (const IceChange& change : changes_) sum += change.ice;
  return sum;
}

Temperature CoolantRun::temperature_at(Duration time) const {
  std::size_t gone_in = changes_.size();
  while (gone_in > 0 && changes_[gone_in - 1].at > time) --gone_in;
  if (gone_in == 0) return follow(first_, time);
  return follow(after_changes_[gone_in - 1], time - changes_[gone_in - 1].at);
}

Temperature CoolantRun::warmth(Energy enthalpy) const {
  return ice_point + std::max(enthalpy, joules(0)) / molten_.capacity;
}

Duration CoolantRun::melts(Energy enthalpy) const {
  return enthalpy < joules(0) ? -enthalpy / melting_ : seconds(0);
}

Temperature CoolantRun::follow(Energy enthalpy, Duration time) const {
  const Duration molten = time - melts(enthalpy);
  if (molten <= seconds(0)) return warmth(enthalpy);
  return temperature_after(molten_, warmth(enthalpy), molten);
}

Energy CoolantRun::enthalpy_after(Energy enthalpy, Duration time) const {
  if (time < melts(enthalpy)) return enthalpy + melting_ * time;
  return (follow(enthalpy, time) - ice_point) * molten_.capacity;
}

Duration CoolantRun::time_to_limit(Energy enthalpy) const {
  const Duration melts = this->melts(enthalpy);
  const Temperature from = warmth(enthalpy);
  if (from >= vessel_.limit) return melts;
  const auto warms = time_to_reach(molten_, from, vessel_.limit);
  return warms ? melts + *warms : forever;
}

}  // namespace firstdrop
