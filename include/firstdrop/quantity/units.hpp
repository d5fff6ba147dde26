/// @file
/// Quantities as people write them: a number and its unit in one string, "1.7 L".
///
/// Only listed units are accepted, each with a list of spellings, and the text must hold nothing
/// else. Anything else is a fault that says what was found and what to write. The decimal mark is a
/// point or a comma; a comma that could be one between thousands is a fault. Numbers may have a
/// fraction. NaN, infinity and numbers too large or too small for a double are faults.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "firstdrop/base/error.hpp"
#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// The units on the bench's scale, jug and thermometer.
enum class Units {
  metric,  ///< g, kg, mL, L, °C
  us,      ///< oz, lb, fl oz, qt, gal, °F; lab glass and fine scales stay in mL and g
};

/// The name in files: "metric", "us".
std::string to_string(Units units);

/// Reads a quantity from text. Q is any of: Mass, Volume, Temperature, TemperatureDifference,
/// Power, Energy, Duration, Length, Area, Pressure, Density, VolumeFlow, Fraction, and the kinds
/// that the tables need: Rate, SpecificVolume, SpecificHeat, HeatTransfer, MolarMass; also Current
/// and Voltage. Other types don't link.
///
/// Masses, volumes, lengths and durations may have several parts ("1 lb 4 oz", "1 h 20 min"). The
/// space before the unit may be left out, and no-break, thin and narrow no-break spaces count as
/// spaces. Cups, spoons, fluid ounces, pints, quarts and gallons are US units. Negative values are
/// accepted; the caller checks the sign. On failure the fault has `found` (safe to print) and
/// `wanted`, and `hint` if a known slip is recognised. The caller fills in `file` and `pointer`.
/// Throws nothing but std::bad_alloc.
template <class Q>
Parsed<Q> parse_quantity(std::string_view text);

/// Makes a quantity from a plain number and a unit, as in the tables:
/// `from_unit<Density>(160, "g/L")`. Q and the units are those of parse_quantity(); the unit must
/// have no spaces around it. An unknown unit is a fault. So is a number that isn't finite, before
/// or after conversion to SI.
template <class Q>
Parsed<Q> from_unit(double number, std::string_view unit);

/// Converts a number to another unit of the same kind: `converted(98.2, "°C", "°F")`. None if
/// either unit is unknown or if they are of different kinds. K counts as a point on the temperature
/// scale.
std::optional<double> converted(double number, std::string_view from, std::string_view to);

/// The unit symbols that Q may be written in, preferred ones first. Q is any type that
/// parse_quantity() takes.
template <class Q>
std::vector<std::string> unit_symbols();

}  // namespace firstdrop
