// Oil constituents: what the steam bound needs of each.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/quantity.hpp"
#include "firstdrop/source.hpp"

namespace firstdrop {

/// ln(P / Pa) = a - b / (T/K + c), fitted between two temperatures.
struct Antoine {
  double a = 0.0;
  TemperatureDifference b;
  TemperatureDifference c;
  Temperature valid_from;
  Temperature valid_to;
  Evidence evidence;
};

struct Liquid {
  std::string key;
  std::string name;
  std::string cas;  ///< CAS Registry Number; empty where none was read
  Cited<MolarMass> molar_mass;
  std::optional<Antoine> vapour_pressure;  ///< none when no equation was found
  std::optional<Cited<Density>> density;
  std::optional<Cited<Density>> water_solubility;
  std::optional<Cited<Temperature>> boiling_point;
  std::optional<Cited<Temperature>> flash_point;
};

/// Vapour pressure of the pure liquid.
/// Range: the fit's own, see Antoine. Throws RangeError outside of it or without one; never
/// extrapolates.
Pressure vapour_pressure(const Liquid& liquid, Temperature temperature);

}  // namespace firstdrop
