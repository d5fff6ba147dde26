// What a run with water alone has shown, for people.
#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "cli/terminal.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "learning/slips.hpp"
#include "learning/water_run.hpp"

namespace firstdrop::cli {

struct WaterRunReport {
  const Recipe& recipe;  ///< its still and site
  const WaterRunSetup& setup;
  const WaterRunLog& log;
  const WaterRunResult& result;
  const std::vector<Misfit>& misfits;
  std::chrono::local_days day;
  std::string written;  ///< the still's file that is written; empty for none
};
std::string water_run_page(const WaterRunReport& report, const Look& look);

}  // namespace firstdrop::cli
