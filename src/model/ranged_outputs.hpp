// The outcomes of a run that have a range, each with its key, unit and name. The plan's JSON and
// its explanation share this list.
#pragma once

#include <optional>
#include <stdexcept>
#include <tuple>
#include <type_traits>

#include "firstdrop/model/uncertainty.hpp"

namespace firstdrop {

template <class M>
struct RangeOf;
template <class Q>
struct RangeOf<Range<Q>> {
  using Quantity = Q;
};
template <class Q>
struct RangeOf<std::optional<Range<Q>>> : RangeOf<Range<Q>> {};

/// An outcome with a range. M is a range, or an optional of one.
template <class M>
struct RangedOutcome {
  M Uncertainty::*range = nullptr;
  const char* key = "";                                        ///< in JSON
  const char* symbol = "";                                     ///< in the explanation
  const char* name = "";                                       ///< in words
  double (*in_unit)(typename RangeOf<M>::Quantity) = nullptr;  ///< its number
  const char* unit = "";                                       ///< of that number
  const char* left_out = "";                                   ///< why a run may lack it
};
template <class M, class... Rest>
RangedOutcome(M Uncertainty::*, Rest...) -> RangedOutcome<M>;

/// All of them, except for those of hydrosol and oil, which have their own objects in a plan.
inline constexpr std::tuple ranged_outcomes = {
    RangedOutcome{&Uncertainty::charge_volume, "charge_volume_ml", "p_V_m",
                  "volume that the charge fills", in_millilitres, "mL",
                  "the charge lies in the water"},
    RangedOutcome{&Uncertainty::charge_fill, "charge_fill_pct", "p_fill",
                  "share of its space that the charge fills", in_percent, "%",
                  "the charge lies in the water"},
    RangedOutcome{&Uncertainty::boil, "boil_min", "p_boil", "time until the pot boils", in_minutes,
                  "min"},
    RangedOutcome{&Uncertainty::first_drop, "first_drop_min", "p_drop", "first drop", in_minutes,
                  "min"},
    RangedOutcome{&Uncertainty::stop, "stop_min", "p_stop", "stop", in_minutes, "min"},
    RangedOutcome{&Uncertainty::reserve, "reserve_min", "p_res",
                  "pot down to its reserve, if the heat stays on", in_minutes, "min"},
    RangedOutcome{&Uncertainty::dry, "dry_min", "p_dry", "pot dry, if the heat stays on",
                  in_minutes, "min"},
    RangedOutcome{&Uncertainty::left_alone_to_reserve, "left_alone_to_reserve_min", "p_alone_res",
                  "time from the stop to the reserve", in_minutes, "min"},
    RangedOutcome{&Uncertainty::left_alone_to_dry, "left_alone_to_dry_min", "p_alone_dry",
                  "time from the stop to the dry pot", in_minutes, "min"},
    RangedOutcome{&Uncertainty::held, "held_ml", "p_held", "water held by charge and walls",
                  in_millilitres, "mL"},
    RangedOutcome{&Uncertainty::uncondensed, "uncondensed_ml", "p_vent",
                  "uncondensed vapour, as water", in_millilitres, "mL"},
    RangedOutcome{&Uncertainty::left_at_stop, "left_at_stop_ml", "p_left", "water left at the stop",
                  in_millilitres, "mL"},
    RangedOutcome{&Uncertainty::distillate, "distillate_ml_per_min", "p_V", "distillate rate",
                  in_millilitres_per_minute, "mL/min"},
    RangedOutcome{&Uncertainty::steam_per_charge, "steam_kg_per_h_per_kg_charge", "p_G",
                  "steam per mass of charge", in_per_hour, "kg/(h kg)"},
    RangedOutcome{&Uncertainty::steam_velocity, "steam_velocity_cm_per_s", "p_v",
                  "steam velocity in the bed", in_centimetres_per_second, "cm/s",
                  "the charge lies in the water"},
    RangedOutcome{&Uncertainty::bed_pressure_drop, "bed_pressure_drop_pa", "p_dp",
                  "pressure drop of the bed", in_pascals, "Pa",
                  "the charge lies in the water, or leaves no room for steam"},
    RangedOutcome{&Uncertainty::heat_into_pot, "heat_into_pot_w", "p_Q", "heat into the pot",
                  in_watts, "W"},
    RangedOutcome{&Uncertainty::heat_lost, "heat_lost_w", "p_L", "heat lost to the room", in_watts,
                  "W"},
    RangedOutcome{&Uncertainty::duty, "duty_w", "p_Q_c", "heat to remove", in_watts, "W",
                  "the coolant can't cool the run at all"},
    RangedOutcome{&Uncertainty::ice, "ice_kg", "p_ice", "total ice", in_kilograms, "kg",
                  "the coolant takes no ice"},
    RangedOutcome{&Uncertainty::reservoir_end, "reservoir_end_c", "p_T_end",
                  "temperature of the coolant at the stop", in_celsius, "°C",
                  "the coolant comes from a tap"},
    RangedOutcome{&Uncertainty::flow, "flow_l_per_min", "p_F", "coolant flow", in_litres_per_minute,
                  "L/min", "no coolant comes from a tap"},
    RangedOutcome{&Uncertainty::coolant_used, "coolant_l", "p_V_cool", "total coolant", in_litres,
                  "L", "no coolant comes from a tap"},
    RangedOutcome{&Uncertainty::surface_needed, "surface_needed_m2", "p_A",
                  "condensing surface needed", in_square_metres, "m2",
                  "the coolant can't cool the run at all"},
    RangedOutcome{&Uncertainty::plug, "kwh", "p_E", "energy from the socket, or of the gas",
                  in_kilowatt_hours, "kWh"},
};

/// Calls visit(outcome) for each of them.
template <class Visit>
constexpr void for_each_ranged_outcome(const Visit& visit) {
  std::apply([&](const auto&... outcome) { (visit(outcome), ...); }, ranged_outcomes);
}

/// The outcome that is this member of Uncertainty. Throws std::out_of_range if it isn't listed.
template <class M>
constexpr RangedOutcome<M> ranged_outcome(M Uncertainty::*range) {
  const RangedOutcome<M>* found = nullptr;
  for_each_ranged_outcome([&](const auto& outcome) {
    if constexpr (std::is_same_v<decltype(outcome), const RangedOutcome<M>&>) {
      if (outcome.range == range) found = &outcome;
    }
  });
  if (found == nullptr) throw std::out_of_range("an outcome that isn't listed");
  return *found;
}

/// Calls visit(key, symbol, name, range, in_unit, unit) for each outcome that the run has.
template <class Visit>
void for_each_range(const Uncertainty& s, const Visit& visit) {
  for_each_ranged_outcome([&](const auto& outcome) {
    const auto& range = s.*outcome.range;
    const auto visit_it = [&](const auto& one) {
      visit(outcome.key, outcome.symbol, outcome.name, one, outcome.in_unit, outcome.unit);
    };
    if constexpr (requires { range.has_value(); }) {
      if (range) visit_it(*range);
    } else {
      visit_it(range);
    }
  });
}

}  // namespace firstdrop
