/// @file
/// Oil constituents: what the steam bound needs of each.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

/// Antoine's equation, ln(P / Pa) = a - b / (T/K + c), fitted between two temperatures.
struct Antoine {
  double a = 0.0;           ///< with the natural logarithm and pascals
  TemperatureDifference b;  ///< above zero
  TemperatureDifference c;  ///< mostly below zero
  Temperature valid_from;   ///< coolest of the fit
  Temperature valid_to;     ///< warmest of the fit
  Evidence evidence;        ///< of the coefficients
};

/// What is known of a pure liquid.
struct Liquid {
  std::string key;                         ///< by which plants name it
  std::string name;                        ///< for people
  std::string cas;                         ///< CAS Registry Number; empty where none was read
  Cited<MolarMass> molar_mass;             ///< above zero
  std::optional<Antoine> vapour_pressure;  ///< none when no equation was found
  std::optional<Cited<Density>> density;   ///< at the temperature that its basis says
  std::optional<Cited<Density>> water_solubility;   ///< mass per volume of water
  std::optional<Cited<Temperature>> boiling_point;  ///< at the pressure that its basis says
  std::optional<Cited<Temperature>> flash_point;    ///< as its basis says
};

/// Vapour pressure of the pure liquid.
/// Range: the fit's own, see Antoine. Throws RangeError outside of it or without one; never
/// extrapolates. Source: that of the fit.
Pressure vapour_pressure(const Liquid& liquid, Temperature temperature);

}  // namespace firstdrop
