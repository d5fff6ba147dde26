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
  std::string cas;
  MolarMass molar_mass;
  Antoine vapour_pressure;
  std::optional<Cited<Density>> density;
  std::optional<Cited<Density>> water_solubility;
  std::optional<Cited<Temperature>> boiling_point;
  std::optional<Cited<Temperature>> flash_point;
};

/// Vapour pressure of the pure liquid.
/// Range: the fit's own, see Antoine. Throws RangeError outside of it; never extrapolates.
Pressure vapour_pressure(const Liquid& liquid, Temperature temperature);

}  // namespace firstdrop
