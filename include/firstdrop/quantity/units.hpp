/// @file
/// In which units people at this bench weigh, pour and read.
#pragma once

#include <string>

namespace firstdrop {

/// What scale, jug and thermometer of a bench are marked in.
enum class Units {
  metric,  ///< g, kg, mL, L, °C
  us,      ///< oz, lb, fl oz, qt, gal, °F; lab glass and fine scales stay in mL and g
};

/// As files have it: "metric", "us".
std::string to_string(Units units);

}  // namespace firstdrop
