/// @file
/// When a run ends, and by which stop criterion.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/physics/course.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "physics/run.hpp"
#include "quantity/equation.hpp"

namespace firstdrop {

/// The interval over which the oil gain is judged, to decide whether to go on.
inline constexpr Duration quarter_hour = minutes(15);

/// When `stop` ends the run, counted from the start of heating. Needs a run without failure and a
/// stop with at least one member set.
Duration stop_time(const Run& run, const Stop& stop);
namespace equations {
inline constexpr Equation<Duration> stop_by_level{
    "t_stop", "planned stop, from the start of heating", shown_in::minutes, "t_drop + V_stop / D"};
inline constexpr Equation<Duration> stop_by_clock{stop_by_level.symbol, stop_by_level.name,
                                                  stop_by_level.unit, "t_clock"};
inline constexpr Equation<Duration> stop_by_either{stop_by_level.symbol, stop_by_level.name,
                                                   stop_by_level.unit,
                                                   "min(t_clock, t_drop + V_stop / D)"};
}  // namespace equations

/// The time after which a quarter hour brings less than `gain` of the recoverable oil; first drop
/// at the earliest. Without recoverable oil, the time at which all but a ten-thousandth would have
/// come over.
/// Range: a gain above 0; needs a run without failure. Source: the oil over time is concave, so the
/// gain only falls.
Duration time_of_low_gain(const Run& run, Fraction gain);

/// When the share of the recoverable oil still in the charge has fallen to the share that may stay
/// there. The share that may stay is zero at first drop and grows by `allowance` per unit time. The
/// first share only falls and the second only rises, so they cross once. The crossing moves
/// continuously with every parameter.
/// Range: allowance above 0; needs a run without failure.
Duration time_of_balance(const Run& run, Rate allowance);

/// When the receiver first holds this much separated oil. None if it never does, because there is
/// less oil or because the hydrosol dissolves too much of it. Needs a run without failure.
std::optional<Duration> time_of_oil(const Run& run, Mass oil);

/// When the receiver holds the most separated oil; at the latest when all but a ten-thousandth of
/// the recoverable oil has come over. Needs a run without failure.
Duration time_of_most_oil(const Run& run);

}  // namespace firstdrop
