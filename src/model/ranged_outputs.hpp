// The outcomes of a run that have a range. The plan's JSON and its explanation share this list.
#pragma once

#include "firstdrop/model/uncertainty.hpp"

namespace firstdrop {

/// Calls visit(key, symbol, name, range, in_unit, unit) for each outcome that the run has. `key` is
/// its key in the JSON object "uncertainty", and `symbol` is its symbol in the explanation.
/// Hydrosol and oil are left out, because they are written elsewhere.
template <class Visit>
void for_each_range(const Uncertainty& s, const Visit& visit) {
  const auto visit_any = [&](const char* key, const char* symbol, const char* name,
                             const auto& range, auto in_unit, const char* unit) {
    if constexpr (requires { range.has_value(); }) {
      if (range) visit(key, symbol, name, *range, in_unit, unit);
    } else {
      visit(key, symbol, name, range, in_unit, unit);
    }
  };
  visit_any("charge_volume_ml", "p_V_m", "volume that the charge fills", s.charge_volume,
            in_millilitres, "mL");
  visit_any("charge_fill_pct", "p_fill", "share of its space that the charge fills", s.charge_fill,
            in_percent, "%");
  visit_any("boil_min", "p_boil", "time until the pot boils", s.boil, in_minutes, "min");
  visit_any("first_drop_min", "p_drop", "first drop", s.first_drop, in_minutes, "min");
  visit_any("stop_min", "p_stop", "stop", s.stop, in_minutes, "min");
  visit_any("reserve_min", "p_res", "pot down to its reserve, if the heat stays on", s.reserve,
            in_minutes, "min");
  visit_any("dry_min", "p_dry", "pot dry, if the heat stays on", s.dry, in_minutes, "min");
  visit_any("left_alone_to_reserve_min", "p_alone_res", "time from the stop to the reserve",
            s.left_alone_to_reserve, in_minutes, "min");
  visit_any("left_alone_to_dry_min", "p_alone_dry", "time from the stop to the dry pot",
            s.left_alone_to_dry, in_minutes, "min");
  visit_any("held_ml", "p_held", "water held by charge and walls", s.held, in_millilitres, "mL");
  visit_any("uncondensed_ml", "p_vent", "uncondensed vapour, as water", s.uncondensed,
            in_millilitres, "mL");
  visit_any("left_at_stop_ml", "p_left", "water left at the stop", s.left_at_stop, in_millilitres,
            "mL");
  visit_any("distillate_ml_per_min", "p_V", "distillate rate", s.distillate,
            in_millilitres_per_minute, "mL/min");
  visit_any("steam_kg_per_h_per_kg_charge", "p_G", "steam per mass of charge", s.steam_per_charge,
            in_per_hour, "kg/(h kg)");
  visit_any("steam_velocity_cm_per_s", "p_v", "steam velocity in the bed", s.steam_velocity,
            in_centimetres_per_second, "cm/s");
  visit_any("bed_pressure_drop_pa", "p_dp", "pressure drop of the bed", s.bed_pressure_drop,
            in_pascals, "Pa");
  visit_any("heat_into_pot_w", "p_Q", "heat into the pot", s.heat_into_pot, in_watts, "W");
  visit_any("heat_lost_w", "p_L", "heat lost to the room", s.heat_lost, in_watts, "W");
  visit_any("duty_w", "p_Q_c", "heat to remove", s.duty, in_watts, "W");
  visit_any("ice_kg", "p_ice", "total ice", s.ice, in_kilograms, "kg");
  visit_any("reservoir_end_c", "p_T_end", "temperature of the coolant at the stop", s.reservoir_end,
            in_celsius, "°C");
  visit_any("flow_l_per_min", "p_F", "coolant flow", s.flow, in_litres_per_minute, "L/min");
  visit_any("coolant_l", "p_V_cool", "total coolant", s.coolant_used, in_litres, "L");
  visit_any("surface_needed_m2", "p_A", "condensing surface needed", s.surface_needed,
            in_square_metres, "m2");
  visit_any("kwh", "p_E", "energy from the socket, or of the gas", s.plug, in_kilowatt_hours,
            "kWh");
}

}  // namespace firstdrop
