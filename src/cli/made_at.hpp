// The time at which a file is made.
#pragma once

#include <chrono>

namespace firstdrop::cli {

/// The system's clock, or SOURCE_DATE_EPOCH if that is set, for builds that must give the same
/// bytes again (https://reproducible-builds.org/specs/source-date-epoch).
std::chrono::sys_seconds made_at();

}  // namespace firstdrop::cli
