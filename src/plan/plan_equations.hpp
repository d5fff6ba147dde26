/// @file
/// Equations of figures that are differences, sums or ratios of a plan's own.
#pragma once

#include "quantity/equation.hpp"

namespace firstdrop::equations {

// Times of RunPlan.
inline constexpr Equation<Duration> from_stop_to_reserve{
    "t_alone", "time from the stop to the reserve, if the heat stays on", shown_in::minutes,
    "t_res - t_stop"};
inline constexpr Equation<Duration> from_stop_to_dry{
    "t_alone_dry", "time from the stop to the dry pot, if the heat stays on", shown_in::minutes,
    "t_dry - t_stop"};

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
