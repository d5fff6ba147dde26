/// @file
/// Equations of figures that planner.cpp works out itself, and of those that add up outcomes of the
/// samples.
#pragma once

#include "quantity/equation.hpp"

namespace firstdrop::equations {

// Times and water of RunPlan.
inline constexpr Equation<Duration> from_stop_to_reserve{
    "t_alone", "time from the stop to the reserve, if the heat stays on", shown_in::minutes,
    "t_res - t_stop"};
inline constexpr Equation<Duration> from_stop_to_dry{
    "t_alone_dry", "time from the stop to the dry pot, if the heat stays on", shown_in::minutes,
    "t_dry - t_stop"};
inline constexpr Equation<Duration> latest{
    "t_late", "time by which to turn the heat off if nobody has seen the level", shown_in::minutes,
    "max(min(t_res_w - t_store_w, t_stop_w + late), 0)"};
inline constexpr Equation<Volume> absence{
    "V_absence", "part of the fill that covers a late stop and stored heat", shown_in::millilitres,
    "V_w * (late + t_store_w) / rho_w"};
inline constexpr Equation<Volume> after_heat_off{"V_after",
                                                 "hydrosol that still comes after the heat is off",
                                                 shown_in::millilitres, "D * t_store"};

// EnergyPlan.
inline constexpr Equation<Energy> energy{"E", "energy from the socket", shown_in::kilowatt_hours,
                                         "P / 1000 * s / 100 * t_stop / 60"};
inline constexpr Equation<Energy> energy_of_gas{energy.symbol, "energy of the gas", energy.unit,
                                                energy.text};
/// The right-hand side of both at a measured mains voltage.
inline constexpr std::string_view energy_at_measured_mains =
    "P / 1000 * s / 100 * k_mains / 100 * t_stop / 60";
// In the recipe's currency.
inline constexpr Equation<double> energy_cost{"cost_e", "cost of energy", shown_in::plain(""),
                                              "E * price_e"};
inline constexpr Equation<double> plant_cost{"cost_m", "cost of the charge", shown_in::plain(""),
                                             "m / 1000 * price_m"};

// Of all runs together, or per charge.
inline constexpr Equation<double> hydrosol_per_charge{"p_h_per_kg", "hydrosol per mass of charge",
                                                      shown_in::plain("L/kg"), "p_h / m"};
inline constexpr Equation<double> hydrosol_per_fresh{"p_h_fresh", "hydrosol per mass of fresh herb",
                                                     shown_in::plain("L/kg"), "p_h / m_fresh"};
inline constexpr Equation<double> hydrosol_of_all_runs{"p_h_all", "hydrosol of all runs",
                                                       shown_in::plain("mL"), "p_h * n"};
inline constexpr Equation<double> time_of_all_runs{"t_all", "heating time of all runs",
                                                   shown_in::plain("min"), "t_stop * n"};

}  // namespace firstdrop::equations
