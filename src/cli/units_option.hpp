// The system of units that an option names.
#pragma once

#include <string>

#include "firstdrop/quantity/units.hpp"

namespace firstdrop::cli {

/// "us" or "metric"; the command line accepts no other.
inline Units units_named(const std::string& name) {
  return name == "us" ? Units::us : Units::metric;
}

}  // namespace firstdrop::cli
