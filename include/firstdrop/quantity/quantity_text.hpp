/// @file
/// Quantities as people write them: a number and its unit in one string, "1.7 L".
///
/// The list of units is closed and the whole text must be used up: anything else is a fault that
/// says what was found and what would do. Decimal point only; no nan, no inf, no overflow.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "firstdrop/base/error.hpp"
#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// What scale, jug and thermometer of a bench are marked in.
enum class Units {
  metric,  ///< g, kg, mL, L, °C
  us,      ///< oz, lb, fl oz, qt, gal, °F; lab glass and fine scales stay in mL and g
};

/// As files have it: "metric", "us".
std::string to_string(Units units);

/// Text to quantity. Q is any of: Mass, Volume, Temperature, TemperatureDifference, Power, Energy,
/// Duration, Length, Area, Pressure, Density, VolumeFlow, Fraction, and the kinds the tables need:
/// Rate, SpecificVolume, SpecificHeat, HeatTransfer, MolarMass; and Current and Voltage. Others do
/// not link.
///
/// Durations may be compound ("1 h 20 min"). The blank before the unit may be left out, or be a
/// no-break or thin space. Cups, fluid ounces, quarts and gallons are the US ones. The sign is the
/// reader's matter. On failure the fault's `found` (quoted, safe to print) and `wanted` are set,
/// and `hint` where a slip is recognised; `file` and `pointer` are left to the caller. Throws
/// nothing but std::bad_alloc.
template <class Q>
Parsed<Q> parse_quantity(std::string_view text);

/// A plain number in a named unit, as the tables hold it: `from_unit<Density>(160, "g/L")`. The
/// same Q and the same units as parse_quantity(), no blanks around. An unknown unit and a number
/// that is not finite, or not in SI, are faults.
template <class Q>
Parsed<Q> from_unit(double number, std::string_view unit);

/// A number in another unit of the same kind: `converted(98.2, "°C", "°F")`. None when one of the
/// two is unknown or they are of different kinds. K counts as a point on the scale.
std::optional<double> converted(double number, std::string_view from, std::string_view to);

/// The unit symbols that Q may be written in, the preferred ones first. The same Q as
/// parse_quantity().
template <class Q>
std::vector<std::string> unit_symbols();

}  // namespace firstdrop
