// What is written of a run with water alone, declared once: see output/output.hpp.
#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "learning/slips.hpp"
#include "learning/water_run.hpp"
#include "readers/key.hpp"

namespace firstdrop {

struct WrittenWaterRun {
  const WaterRunSetup& setup;
  const WaterRunLog& log;
  const WaterRunResult& result;
  const std::vector<Misfit>& misfits;
  std::chrono::local_days day;
};

/// What a run with water alone has shown, as JSON.
std::string water_run_json(const WrittenWaterRun& run);

Document water_run_document();

}  // namespace firstdrop
