#include "firstdrop/run.hpp"

#include <algorithm>

#include "firstdrop/heat.hpp"
#include "turning_point.hpp"

namespace firstdrop {

namespace {

HeatedBody column_of(const RunValues& v) {
  const Power pot_lost = v.pot_loss * (v.boiling - v.room);
  return {v.column_capacity, v.column_loss, v.room, v.heat_boiling - pot_lost};
}

// Of pot and water, mixed.
Temperature start_of(const RunValues& v) {
  const HeatCapacity water = v.first_fill * v.water_heat;
  const double share = water / (water + v.pot_capacity);
  return v.room + v.pot_excess + (v.fill_excess - v.pot_excess) * share;
}

}  // namespace

Boiling boiling_of(const RunValues& v) {
  const Power pot_lost = v.pot_loss * (v.boiling - v.room);
  if (v.heat_warming <= pot_lost || v.heat_boiling <= pot_lost) return {RunFailure::never_boils};
  const HeatedBody column = column_of(v);
  const auto heats = time_to_reach(column, v.room, v.boiling);
  if (!heats) return {RunFailure::never_at_the_top};
  return {std::nullopt, steam_made(v.heat_boiling, pot_lost, v.latent_heat),
          steam_made(column.heat, v.column_loss * (v.boiling - v.room), v.latent_heat), *heats};
}

Run::Run(const RunValues& v) : values_(v), start_(start_of(v)), column_(column_of(v)) {
  pot_ = {v.first_fill * v.water_heat + v.pot_capacity, v.pot_loss, v.room, v.heat_warming};
  const Boiling boiling = boiling_of(v);
  const auto boils = time_to_reach(pot_, start_, v.boiling);
  failure_ = boiling.failure;
  if (!boils) failure_ = RunFailure::never_boils;
  if (failure_) return;
  boil_ = *boils;
  first_drop_ = boil_ + boiling.steaming;
  steam_ = boiling.steam;
  vapour_ = boiling.vapour;
}

void Run::refill(Mass first_fill) {
  const HeatCapacity before = pot_.capacity;
  values_.first_fill = first_fill;
  pot_.capacity = first_fill * values_.water_heat + values_.pot_capacity;
  if (failure_) return;
  const Duration steaming = first_drop_ - boil_;
  if (values_.fill_excess == values_.pot_excess) {
    boil_ = boil_ * double(pot_.capacity / before);
  } else {
    start_ = start_of(values_);
    // It has more heat than it loses at boiling, or it would have failed before.
    boil_ = time_to_reach(pot_, start_, values_.boiling).value_or(boil_);
  }
  first_drop_ = boil_ + steaming;
}

void Run::soak_at_once(Mass water) {
  values_.soaked += water;
  values_.hold_up = grams(0);
}

Phase Run::phase_at(Duration time) const {
  if (time < boil_) return Phase::warming;
  return time < first_drop_ ? Phase::steaming : Phase::running;
}

Temperature Run::pot_temperature(Duration time) const {
  return time < boil_ ? temperature_after(pot_, start_, time) : values_.boiling;
}

Mass Run::condensed_until(Duration time) const {
  const Duration steaming = std::clamp(time, boil_, first_drop_) - boil_;
  const Duration running = std::max(time - first_drop_, seconds(0));
  return steam_ * steaming + (steam_ - vapour_) * running;
}

WaterBalance Run::water_at(Duration time) const {
  const Duration running = std::max(time - first_drop_, seconds(0));
  WaterBalance w;
  w.distilled = distillate() * running;
  w.vented = vapour_ * values_.vent_share * running;
  // Condensate wets charge and walls until they hold their fill; only then does it drip back.
  const Mass condensed = condensed_until(time);
  const Mass caught = std::min(condensed, values_.hold_up);
  w.held = values_.soaked + caught;
  // What the pot gives off, less what comes back to it.
  const Mass steam = steam_ * std::max(time - boil_, seconds(0));
  w.left = values_.first_fill - values_.soaked - steam + (condensed - caught);
  return w;
}

EnergyBalance Run::energy_at(Duration time) const {
  const Duration warming = std::min(time, boil_);
  const Duration steaming = std::clamp(time, boil_, first_drop_) - boil_;
  const Duration running = std::max(time - first_drop_, seconds(0));
  const TemperatureDifference excess = values_.boiling - values_.room;
  EnergyBalance e;
  e.put_in = values_.heat_warming * warming + values_.heat_boiling * (steaming + running);
  e.water_and_pot = pot_.capacity * (pot_temperature(time) - start_);
  const Temperature column_now = temperature_after(column_, values_.room, steaming);
  e.column_and_charge = column_.capacity * (column_now - values_.room);
  e.pot_lost = heat_lost(pot_, start_, warming) + values_.pot_loss * excess * (steaming + running);
  e.column_lost =
      heat_lost(column_, values_.room, steaming) + values_.column_loss * excess * running;
  e.left_with_vapour = vapour_ * running * values_.latent_heat;
  return e;
}

Volume Run::hydrosol_at(Duration time) const {
  return distillate_rate() * std::max(time - first_drop_, seconds(0));
}

std::optional<MassFlow> Run::oil_bound() const {
  if (!values_.oil_per_steam) return std::nullopt;
  return vapour_ * *values_.oil_per_steam;
}

Mass Run::oil_vaporised_at(Duration time) const {
  if (time < first_drop_) return grams(0);
  return oil_vaporised(values_.oil_recoverable, values_.release, oil_bound(), time - first_drop_);
}

OilBalance Run::oil_at(Duration time) const {
  const Mass vaporised = oil_vaporised_at(time);
  const Mass dissolved = oil_dissolved(vaporised, values_.hydrosol_oil, hydrosol_at(time));
  return {vaporised, dissolved, vaporised - dissolved};
}

Duration Run::time_until_left(Mass left) const {
  Mass spare = values_.first_fill - values_.soaked - left;
  if (spare <= grams(0)) return seconds(0);
  // Four straight stretches: steam wets the charge, or drips back, before and after first drop.
  const Mass caught_by_first_drop = std::min(steam_ * (first_drop_ - boil_), values_.hold_up);
  if (spare <= caught_by_first_drop) return boil_ + spare / steam_;
  spare -= caught_by_first_drop;
  const Mass still_to_catch = values_.hold_up - caught_by_first_drop;
  const MassFlow column_condensate = steam_ - vapour_;
  // Until charge and walls hold their fill, all steam that is made is lost to the pot.
  if (still_to_catch > grams(0) && column_condensate > MassFlow()) {
    const Duration fills = still_to_catch / column_condensate;
    if (spare <= steam_ * fills) return first_drop_ + spare / steam_;
    return first_drop_ + fills + (spare - steam_ * fills) / vapour_;
  }
  return first_drop_ + spare / vapour_;
}

Duration Run::time_of_hydrosol(Volume volume) const {
  return first_drop_ + volume / distillate_rate();
}

Duration Run::time_of_oil_share(Fraction share) const {
  return first_drop_ +
         time_to_vaporise(values_.oil_recoverable, values_.release, oil_bound(), share);
}

std::optional<Duration> Run::steam_bound_until() const {
  const auto bound = oil_bound();
  if (!bound) return std::nullopt;
  const auto held_back = [&](Duration t) {
    return (values_.oil_recoverable * released(values_.release, t) - *bound * t).si();
  };
  // Released oil is concave in time and starts at or above the bound's line, or never crosses it.
  if (held_back(seconds(1)) <= 0.0) return std::nullopt;
  const Duration end = values_.oil_recoverable / *bound;
  return first_drop_ + turning_point(seconds(1), end, held_back).first_no;
}

}  // namespace firstdrop
