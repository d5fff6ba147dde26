// The outcomes of a run that have a range, each with its key, unit and name. The plan's JSON and
// its explanation share this list.
#pragma once

#include <optional>
#include <stdexcept>
#include <tuple>
#include <type_traits>

#include "firstdrop/model/uncertainty.hpp"
#include "quantity/shown_in.hpp"

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
  const char* key = "";     ///< in JSON
  const char* symbol = "";  ///< in the explanation
  const char* name = "";    ///< in words
  ShownUnit<typename RangeOf<M>::Quantity> unit;
  const char* left_out = "";  ///< why a run may lack it
};
template <class M, class... Rest>
RangedOutcome(M Uncertainty::*, Rest...) -> RangedOutcome<M>;

/// All of them, except for those of hydrosol and oil, which have their own objects in a plan.
inline constexpr std::tuple ranged_outcomes = {
    RangedOutcome{&Uncertainty::charge_volume, "charge_volume_ml", "p_V_m",
                  "volume that the charge fills", shown_in::millilitres,
                  "the charge lies in the water"},
    RangedOutcome{&Uncertainty::charge_fill, "charge_fill_pct", "p_fill",
                  "share of its space that the charge fills", shown_in::percent,
                  "the charge lies in the water"},
    RangedOutcome{&Uncertainty::boil, "boil_min", "p_boil", "time until the pot boils",
                  shown_in::minutes},
    RangedOutcome{&Uncertainty::first_drop, "first_drop_min", "p_drop", "first drop",
                  shown_in::minutes},
    RangedOutcome{&Uncertainty::stop, "stop_min", "p_stop", "stop", shown_in::minutes},
    RangedOutcome{&Uncertainty::reserve, "reserve_min", "p_res",
                  "pot down to its reserve, if the heat stays on", shown_in::minutes},
    RangedOutcome{&Uncertainty::dry, "dry_min", "p_dry", "pot dry, if the heat stays on",
                  shown_in::minutes},
    RangedOutcome{&Uncertainty::left_alone_to_reserve, "left_alone_to_reserve_min", "p_alone_res",
                  "time from the stop to the reserve", shown_in::minutes},
    RangedOutcome{&Uncertainty::left_alone_to_dry, "left_alone_to_dry_min", "p_alone_dry",
                  "time from the stop to the dry pot", shown_in::minutes},
    RangedOutcome{&Uncertainty::held, "held_ml", "p_held", "water held by charge and walls",
                  shown_in::millilitres},
    RangedOutcome{&Uncertainty::uncondensed, "uncondensed_ml", "p_vent",
                  "uncondensed vapour, as water", shown_in::millilitres},
    RangedOutcome{&Uncertainty::left_at_stop, "left_at_stop_ml", "p_left", "water left at the stop",
                  shown_in::millilitres},
    RangedOutcome{&Uncertainty::distillate, "distillate_ml_per_min", "p_V", "distillate rate",
                  shown_in::millilitres_per_minute},
    RangedOutcome{&Uncertainty::steam_per_charge, "steam_kg_per_h_per_kg_charge", "p_G",
                  "steam per mass of charge", shown_in::per_hour},
    RangedOutcome{&Uncertainty::steam_velocity, "steam_velocity_cm_per_s", "p_v",
                  "steam velocity in the bed", shown_in::centimetres_per_second,
                  "the charge lies in the water"},
    RangedOutcome{&Uncertainty::bed_pressure_drop, "bed_pressure_drop_pa", "p_dp",
                  "pressure drop of the bed", shown_in::pascals,
                  "the charge lies in the water, or leaves no room for steam"},
    RangedOutcome{&Uncertainty::heat_into_pot, "heat_into_pot_w", "p_Q", "heat into the pot",
                  shown_in::watts},
    RangedOutcome{&Uncertainty::heat_lost, "heat_lost_w", "p_L", "heat lost to the room",
                  shown_in::watts},
    RangedOutcome{&Uncertainty::duty, "duty_w", "p_Q_c", "heat to remove", shown_in::watts,
                  "the coolant can't cool the run at all"},
    RangedOutcome{&Uncertainty::ice, "ice_kg", "p_ice", "total ice", shown_in::kilograms,
                  "the coolant takes no ice"},
    RangedOutcome{&Uncertainty::reservoir_end, "reservoir_end_c", "p_T_end",
                  "temperature of the coolant at the stop", shown_in::celsius,
                  "the coolant comes from a tap"},
    RangedOutcome{&Uncertainty::flow, "flow_l_per_min", "p_F", "coolant flow",
                  shown_in::litres_per_minute, "no coolant comes from a tap"},
    RangedOutcome{&Uncertainty::coolant_used, "coolant_l", "p_V_cool", "total coolant",
                  shown_in::litres, "no coolant comes from a tap"},
    RangedOutcome{&Uncertainty::surface_needed, "surface_needed_m2", "p_A",
                  "condensing surface needed", shown_in::square_metres,
                  "the coolant can't cool the run at all"},
    RangedOutcome{&Uncertainty::plug, "kwh", "p_E", "energy from the socket, or of the gas",
                  shown_in::kilowatt_hours},
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

/// Calls visit(outcome, range) for each outcome that the run has.
template <class Visit>
void for_each_range(const Uncertainty& s, const Visit& visit) {
  for_each_ranged_outcome([&](const auto& outcome) {
    const auto& range = s.*outcome.range;
    if constexpr (requires { range.has_value(); }) {
      if (range) visit(outcome, *range);
    } else {
      visit(outcome, range);
    }
  });
}

}  // namespace firstdrop
