/// @file
/// The heat balance: heat into the pot, heat lost to the room, the steam that is made, and how a
/// body warms in between. There is one differential equation, solved in closed form:
///
///     C dT/dt = Q - UA (T - T_surroundings)
///
/// It describes a pot that warms up, a column that steam heats, and a coolant vessel. Everything
/// that uses it stays exact as UA goes to zero.
///
/// The functions don't check their arguments. Where one divides by zero, the result is infinite or
/// not a number.
#pragma once

#include <optional>

#include "firstdrop/quantity/quantity.hpp"
#include "quantity/equation.hpp"

namespace firstdrop {

/// Heat that reaches the water and the pot: efficiency x rated power x setting.
/// Range: setting and efficiency 0 to 1. Source: definition of the efficiency. Its figure comes
/// from the still, or else from the design defaults for its kind of heater.
Power heat_into_pot(Power rated, Fraction setting, Fraction efficiency);
namespace equations {
inline constexpr Equation<Power> heat_warming{"Q_warm", "heat into the pot while it warms",
                                              shown_in::watts, "P * s / 100 * eta / 100"};
inline constexpr Equation<Power> heat_boiling{"Q_boil", "heat into the pot while it boils",
                                              shown_in::watts, heat_warming.text};
/// The right-hand side of both at a measured mains voltage.
inline constexpr std::string_view heat_at_measured_mains =
    "P * s / 100 * k_mains / 100 * eta / 100";
}  // namespace equations

/// Height of a cylinder of this volume and inside diameter.
/// Range: diameter above zero. Source: geometry.
Length cylinder_height(Volume volume, Length diameter);

/// Side wall of a cylinder of this volume and inside diameter, without base and top.
/// Range: diameter above zero. Source: geometry.
Area cylinder_side(Volume volume, Length diameter);

/// Heat loss per kelvin of a vessel on a hot plate, through its side wall and top but not its base.
/// `covered` is the area of the top that a column stands on; it is capped at the area of the top.
/// Range: diameter above zero. Source: Newton's law of cooling, film coefficient times surface.
Conductance pot_loss(HeatTransfer film, Volume volume, Length diameter, Area covered);
namespace equations {
/// Of a pot whose lid covers all of its top.
inline constexpr Equation<Conductance> pot_loss{"U_pot", "heat loss of the pot per kelvin",
                                                shown_in::watts_per_kelvin,
                                                "u_pot * (4e-6 * V_pot / d_pot)"};
/// Of a pot with a column on its top.
inline constexpr Equation<Conductance> pot_loss_around_column{
    pot_loss.symbol, pot_loss.name, pot_loss.unit,
    "u_pot * (4e-6 * V_pot / d_pot + max(pi / 4 * (d_pot ^ 2 - d_col ^ 2), 0))"};
inline constexpr Equation<Power> pot_loss_at_boil{"L_pot", "heat loss of the pot at boiling",
                                                  shown_in::watts, "U_pot * (T_boil - T_room)"};
}  // namespace equations

/// Heat loss per kelvin of a column and the head on top of it, through the column's side wall and
/// the head's surface.
/// Range: diameter above zero. Source: as for pot_loss().
Conductance column_loss(HeatTransfer column_film, Volume volume, Length diameter,
                        HeatTransfer head_film, Area head_surface);
namespace equations {
/// Without a column.
inline constexpr Equation<Conductance> head_loss{"U_col", "heat loss above the pot per kelvin",
                                                 shown_in::watts_per_kelvin, "u_head * A_head"};
inline constexpr Equation<Conductance> column_loss{
    head_loss.symbol, head_loss.name, head_loss.unit,
    "u_head * A_head + u_col * 4e-6 * V_space / d_col"};
inline constexpr Equation<Power> column_loss_at_boil{"L_col", "heat loss above the pot at boiling",
                                                     shown_in::watts, "U_col * (T_boil - T_room)"};
inline constexpr Equation<Power> whole_loss{"L", "heat lost to the room", shown_in::watts,
                                            "L_pot + L_col"};
}  // namespace equations

/// Steam made by the net heat at boiling: (Q - L) / h_fg; zero when the loss exceeds the heat.
/// Range: latent heat above zero. Source: heat balance of a boiling pot.
MassFlow steam_made(Power heat, Power loss, SpecificEnergy latent_heat);
namespace equations {
inline constexpr Equation<MassFlow> steam_made{
    "S", "steam made in the pot", shown_in::grams_per_minute, "(Q_boil - L_pot) * 60 / h_fg"};
inline constexpr Equation<MassFlow> vapour{"V", "vapour to the condenser",
                                           shown_in::grams_per_minute,
                                           "(Q_boil - L_pot - L_col) * 60 / h_fg"};
}  // namespace equations

/// A body at one temperature, with a constant heat input and a loss proportional to its excess
/// temperature. Source: Incropera & DeWitt, "Fundamentals of Heat and Mass Transfer", ch. 5, lumped
/// capacitance with a constant source (from memory).
struct HeatedBody {
  HeatCapacity capacity;     ///< C, above zero
  Conductance loss;          ///< UA to the surroundings; not below zero
  Temperature surroundings;  ///< may be warmer than the body
  Power heat;                ///< heat input Q; may be negative
};

/// Time to warm or cool from `from` to `to`; zero when they are equal. None when the body never
/// gets there, because its temperature stays constant, moves away, or levels off before or at `to`.
/// Range: capacity above zero. Source: see HeatedBody.
std::optional<Duration> time_to_reach(const HeatedBody& body, Temperature from, Temperature to);
namespace equations {
inline constexpr Equation<Duration> boil{
    "t_boil", "time until the pot boils", shown_in::minutes,
    "C_pot * 1000 / U_pot / 60 * ln(Q_warm / (Q_warm - L_pot))"};
/// With water that is poured in warmer or colder than the room.
inline constexpr Equation<Duration> boil_from_start{
    boil.symbol, boil.name, boil.unit,
    "C_pot * 1000 / U_pot / 60 * ln((Q_warm - U_pot * (T_start - T_room)) / (Q_warm - L_pot))"};
inline constexpr Equation<Duration> steaming{
    "t_steam", "time from boiling to the first drop", shown_in::minutes,
    "C_col * 1000 / U_col / 60 * ln((Q_boil - L_pot) / (Q_boil - L_pot - L_col))"};
}  // namespace equations

/// Temperature after the time `after`, starting at `from`.
/// Range: capacity above zero, after >= 0. Source: see HeatedBody.
Temperature temperature_after(const HeatedBody& body, Temperature from, Duration after);
namespace equations {
/// Of a bath or reservoir without ice that stays below its limit.
inline constexpr Equation<Temperature> coolant_end{
    "T_end", "temperature of the coolant at the stop", shown_in::celsius,
    "T_room + Q_c / (u_bath * A_bath) + (T_cool - T_room - Q_c / (u_bath * A_bath)) * "
    "exp(-u_bath * A_bath * t_run * 60 / (V_bath * 1000 * rho_w * "
    "mean_specific_heat(0.01, 40)))"};
}  // namespace equations

/// Heat lost to the surroundings during the time `after`; negative if it gained heat from them.
/// Together with the heat stored in the body it equals the heat put in.
/// Range: capacity above zero, after >= 0. Source: see HeatedBody.
Energy heat_lost(const HeatedBody& body, Temperature from, Duration after);

/// The heat input that brings the body from `from` to `to` in exactly `time`; `body.heat` is
/// ignored. This turns a measured time to boil into a heating power.
/// Range: capacity and time above zero. Source: see HeatedBody; the inverse of time_to_reach().
Power heat_for_time(const HeatedBody& body, Temperature from, Temperature to, Duration time);

}  // namespace firstdrop
