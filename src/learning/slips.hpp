/// @file
/// Entries of a log that don't fit, and the slips that would explain them.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "learning/water_run.hpp"

namespace firstdrop {

/// An entry whose residual is beyond `misfit`.
struct Misfit {
  std::size_t entry = 0;  ///< its place in WaterRunResult::entries
  std::string would_fit;  ///< the value that would fit: "3.4 fl oz"; empty if none is known
};

/// The entries that don't fit. For each, these slips are tried: another unit (a US unit for a
/// metric one, or a smaller or larger one), a tenth or ten times as much, and 10 or 60 min more or
/// less. A slip explains an entry if it is the only one that brings its residual within 2 and makes
/// no other entry a misfit.
std::vector<Misfit> misfits_of(const WaterRunModel& model, const WaterRunLog& log,
                               const WaterRunResult& result);

}  // namespace firstdrop
