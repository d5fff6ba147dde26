/// @file
/// Oil constituents: what the co-distillation limit and the oil in the hydrosol need of each.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

/// Antoine's equation, ln(P / Pa) = a - b / (T/K + c), fitted between two temperatures.
struct Antoine {
  double a = 0.0;           ///< for the natural logarithm and pascals
  TemperatureDifference b;  ///< above zero
  TemperatureDifference c;  ///< usually below zero
  Temperature valid_from;   ///< lowest temperature of the fit
  Temperature valid_to;     ///< highest temperature of the fit
  Evidence evidence;        ///< sources of the coefficients
};

/// What is known about a pure liquid.
struct Liquid {
  std::string key;                                  ///< key that plants refer to it by
  std::string name;                                 ///< for people
  std::string cas;                                  ///< CAS Registry Number; empty if none was read
  Cited<MolarMass> molar_mass;                      ///< above zero
  std::optional<Antoine> vapour_pressure;           ///< none if no equation was found
  std::optional<Cited<Density>> density;            ///< at the temperature that its basis states
  std::optional<Cited<Density>> water_solubility;   ///< mass per volume of water
  std::optional<Cited<Temperature>> boiling_point;  ///< at the pressure that its basis states
  std::optional<Cited<Temperature>> flash_point;    ///< as its basis states
};

/// Vapour pressure of the pure liquid.
/// Range: that of the fit, see Antoine. Throws RangeError outside it or if there is no fit; never
/// extrapolates. Source: that of the fit.
Pressure vapour_pressure(const Liquid& liquid, Temperature temperature);

}  // namespace firstdrop
