#include "physics/run.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "physics/heat_balance.hpp"

namespace firstdrop {

namespace {

HeatedBody column_of(const RunValues& v) {
  const Power pot_lost = v.pot_loss * (v.boiling - v.room);
  return {v.column_capacity, v.column_loss, v.room, v.heat_boiling - pot_lost};
}

// Temperature of pot and water once mixed.
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
  release_ = at_flow(v.release, v.flow_effect, steam_per_charge());
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
    // The heat exceeds the loss at boiling, or the run would have failed, so there is a value.
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
  w.uncondensed = vapour_ * values_.uncondensed_loss * running;
  // Condensate wets charge and walls until they hold all they can. Only then does it drip back.
  const Mass condensed = condensed_until(time);
  const Mass caught = std::min(condensed, values_.hold_up);
  w.held = values_.soaked + caught;
  // The pot loses the steam it makes and gets back the condensate that drips.
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

std::optional<MassFlow> Run::codistillation_limit() const {
  if (!values_.oil_per_steam) return std::nullopt;
  return vapour_ * *values_.oil_per_steam;
}

Mass Run::oil_vaporised_at(Duration time) const {
  if (time < first_drop_) return grams(0);
  return oil_vaporised(values_.oil_recoverable, release_, codistillation_limit(),
                       time - first_drop_);
}

Fraction Run::oil_share_at(Duration time) const {
  if (time < first_drop_) return fraction(0);
  if (values_.oil_recoverable > grams(0)) return oil_vaporised_at(time) / values_.oil_recoverable;
  return released(release_, time - first_drop_);
}

Duration Run::saturated_until() const {
  const MassFlow holds = values_.hydrosol_oil * distillate_rate();
  if (values_.oil_recoverable <= grams(0)) return first_drop_;
  const auto bound = codistillation_limit();
  if (bound && *bound <= holds) return first_drop_;
  const Duration by_plant = time_of_rate(values_.oil_recoverable, release_, holds);
  const Duration held_back =
      bound ? held_back_until(values_.oil_recoverable, release_, *bound) : seconds(0);
  return first_drop_ + std::max(by_plant, held_back);
}

OilBalance Run::oil_at(Duration time) const {
  return OilCourse(*this).at(time);
}

Duration Run::time_until_left(Mass left) const {
  Mass spare = values_.first_fill - values_.soaked - left;
  if (spare <= grams(0)) return seconds(0);
  // The level changes linearly in four intervals: before and after first drop, the condensate
  // either wets the charge or drips back.
  const Mass caught_by_first_drop = std::min(steam_ * (first_drop_ - boil_), values_.hold_up);
  if (spare <= caught_by_first_drop) return boil_ + spare / steam_;
  spare -= caught_by_first_drop;
  const Mass still_to_catch = values_.hold_up - caught_by_first_drop;
  const MassFlow column_condensate = steam_ - vapour_;
  // Until charge and walls hold all they can, no condensate drips back to the pot.
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
         time_to_vaporise(values_.oil_recoverable, release_, codistillation_limit(), share);
}

std::optional<Duration> Run::codistillation_limit_until() const {
  const auto bound = codistillation_limit();
  if (!bound || values_.oil_recoverable <= grams(0)) return std::nullopt;
  const Duration until = held_back_until(values_.oil_recoverable, release_, *bound);
  if (until <= seconds(1)) return std::nullopt;
  return first_drop_ + until;
}

std::vector<Duration> fraction_bounds(const Run& run, const std::vector<Volume>& ends,
                                      Duration stop) {
  std::vector<Duration> bounds = {std::min(run.first_drop(), stop)};
  for (const Volume end : ends) bounds.push_back(std::min(run.time_of_hydrosol(end), stop));
  bounds.push_back(stop);
  return bounds;
}

OilCourse::OilCourse(const Run& run, const std::vector<Volume>& changes)
    : run_(&run),
      saturated_(run.saturated_until()),
      vaporised_by_then_(run.oil_vaporised_at(saturated_)) {
  for (const Volume caught : changes)
    if (change_count_ < most_changes) changes_[change_count_++] = run.time_of_hydrosol(caught);
}

OilBalance OilCourse::at(Duration time) const {
  OilBalance all{};
  Duration from;
  for (std::size_t i = 0; i <= change_count_ && from < time; ++i) {
    const Duration to = i < change_count_ ? std::min(changes_[i], time) : time;
    const OilBalance one = between(from, to);
    all = {all.vaporised + one.vaporised, all.dissolved + one.dissolved,
           all.separated + one.separated};
    from = to;
  }
  return all;
}

OilBalance OilCourse::between(Duration from, Duration to) const {
  const RunValues& v = run_->values();
  const Mass before = run_->oil_vaporised_at(from);
  const Mass after = run_->oil_vaporised_at(to);
  const Mass vaporised = after - before;
  const Mass as_it_comes = dissolved_by(to, after) - dissolved_by(from, before);
  // While the distillate is saturated, mixing changes nothing.
  if (to <= saturated_) return {vaporised, as_it_comes, vaporised - as_it_comes};
  const Mass mixed =
      std::min(vaporised, v.hydrosol_oil * (run_->hydrosol_at(to) - run_->hydrosol_at(from)));
  const Mass dissolved = std::min(vaporised, as_it_comes * (1.0 - v.mixing) + mixed * v.mixing);
  return {vaporised, dissolved, vaporised - dissolved};
}

Mass OilCourse::dissolved_as_it_comes(Duration from, Duration to) const {
  return dissolved_by(to, run_->oil_vaporised_at(to)) -
         dissolved_by(from, run_->oil_vaporised_at(from));
}

Mass OilCourse::dissolved_by(Duration time, Mass vaporised) const {
  const Density holds = run_->values().hydrosol_oil;
  if (time <= saturated_) return std::min(vaporised, holds * run_->hydrosol_at(time));
  // The oil that comes over no longer saturates its own water, so all of it dissolves.
  return holds * run_->hydrosol_at(saturated_) + (vaporised - vaporised_by_then_);
}

namespace equations {

std::string pot_capacity_text(const Warms& warms) {
  return std::string("M_fill / 1000 * c_w + m_pot * c_pot") +
         (warms.grid ? " + m_grid * c_pot" : "") + (warms.charge_in_water ? " + C_charge" : "");
}

std::string column_capacity_text(const Warms& warms) {
  return std::string("m_head * c_head") + (warms.column ? " + m_col * c_col" : "") +
         (warms.charge_in_water ? "" : " + C_charge");
}

std::string receiver_full_text(std::size_t number) {
  return fmt::format("{} * V_rec", number);
}

std::string receiver_full_at_text(std::size_t number) {
  return fmt::format("t_drop + V_full_{} / D", number);
}

std::string time_until_left_text(const FallsToLevel& falls) {
  const std::string caught = falls.charge_in_water ? "m_soak + min(S * t_steam, m_wall)"
                                                   : "min(S * t_steam, m_soak + m_wall)";
  const std::string spare = fmt::format("(M_fill - ({}) - {})", caught, falls.left);
  if (!falls.still_wetting) return "t_drop + " + spare + " / V";
  const std::string wetting = "(m_soak + m_wall - (" + caught + ")) / (S - V)";
  return fmt::format("t_drop + max({0} / S, {1} + ({0} - S * {1}) / V)", spare, wetting);
}

}  // namespace equations

}  // namespace firstdrop
