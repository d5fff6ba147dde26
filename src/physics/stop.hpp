/// @file
/// When a run ends, and by which rule.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/physics/course.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "physics/run.hpp"

namespace firstdrop {

/// The step in which a person asks whether to go on.
inline constexpr Duration quarter_hour = minutes(15);

/// When a run ends by that, from heat on. Needs a run without failure and a stop with one of the
/// two set.
Duration stop_time(const Run& run, const Stop& stop);

/// From when on a quarter hour brings less than `gain` of the recoverable oil: first drop at the
/// earliest. Without recoverable oil, when all but a ten-thousandth would be over.
/// Range: a gain above 0; needs a run without failure. Source: the oil over time is concave, so the
/// gain only falls.
Duration time_of_low_gain(const Run& run, Fraction gain);

/// When the share of the recoverable oil that is still in the charge has fallen to the share that
/// may stay there, which starts at zero at first drop and grows by `allowance` per unit time. The
/// one only falls and the other only rises, so they cross once, and the crossing moves continuously
/// with every input. Range: allowance above 0; needs a run without failure.
Duration time_of_balance(const Run& run, Rate allowance);

/// When this much oil has first parted in the receiver; none when it never does, because there is
/// less or the hydrosol dissolves more than the steam brings. Needs a run without failure.
std::optional<Duration> time_of_oil(const Run& run, Mass oil);

/// When the receiver holds the most oil that it ever will; at the latest when all but a
/// ten-thousandth of it is over. Needs a run without failure.
Duration time_of_most_oil(const Run& run);

}  // namespace firstdrop
