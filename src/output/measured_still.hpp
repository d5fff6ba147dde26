// Writes a still's file with the figures that a run of it has shown.
#pragma once

#include <chrono>
#include <optional>
#include <string>

#include "learning/water_run.hpp"

namespace firstdrop {

/// What is known of the still's runs after this one. Of earlier runs at another setting only the
/// hottest counts.
MeasuredRuns with_this_run(const WaterRunSetup& setup, const WaterRunResult& result,
                           std::chrono::local_days day);

/// The still's file `text` with the efficiency and heat loss that are known after this run, and its
/// block `measured_runs`; with the wall hold-up if the run has told anything of it. All else stays
/// as it is. `text` must be a valid still's file, and that of the setup's still.
std::string measured_still(const std::string& text, const WaterRunSetup& setup,
                           const WaterRunResult& result, std::chrono::local_days day);

}  // namespace firstdrop
