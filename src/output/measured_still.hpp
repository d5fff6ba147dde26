// Writes a still's file with the figures that a run of it has shown.
#pragma once

#include <chrono>
#include <optional>
#include <string>

#include "learning/water_run.hpp"

namespace firstdrop {

/// The still's file `text` with the efficiency, heat loss and wall hold-up of this run, and its
/// block `measured_runs`. All else stays as it is. `text` must be a valid still's file. Of
/// `earlier` runs only the hottest still counts, if it was hotter than this one.
std::string measured_still(const std::string& text, const WaterRunResult& result,
                           std::chrono::local_days day, const std::optional<MeasuredRuns>& earlier);

}  // namespace firstdrop
