// When a file is made.
#pragma once

#include <chrono>

namespace firstdrop::cli {

/// By the system's clock, or what SOURCE_DATE_EPOCH says, for builds that shall give the same bytes
/// again (https://reproducible-builds.org/specs/source-date-epoch).
std::chrono::sys_seconds made_at();

}  // namespace firstdrop::cli
