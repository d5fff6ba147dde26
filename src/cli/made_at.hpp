// The time at which a file is made, and the day that it is.
#pragma once

#include <chrono>

#include "quantity/clock_time.hpp"

namespace firstdrop::cli {

/// The system's clock, or SOURCE_DATE_EPOCH if that is set, for builds that must give the same
/// bytes again (https://reproducible-builds.org/specs/source-date-epoch).
std::chrono::sys_seconds made_at();

/// The day of made_at() on the clock of this machine, in the zone of TZ.
LocalDay today();

}  // namespace firstdrop::cli
