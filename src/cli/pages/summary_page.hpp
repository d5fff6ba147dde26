// The summary of a batch as a page for the terminal.
#pragma once

#include <string>

#include "batch/batch.hpp"
#include "cli/terminal.hpp"
#include "firstdrop/quantity/units.hpp"

namespace firstdrop::cli {

/// Sums over all plans. A grid that varies has a row for each point instead, because its points are
/// alternatives.
std::string summary_page(const BatchResult& result, const RecipeGrid& grid, Units units,
                         const Look& look);

}  // namespace firstdrop::cli
