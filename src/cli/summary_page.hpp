// The summary of a batch as a page for the terminal.
#pragma once

#include <string>

#include "cli/terminal.hpp"
#include "firstdrop/batch_summary.hpp"
#include "firstdrop/units.hpp"

namespace firstdrop::cli {

std::string summary_page(const BatchSummary& summary, Units units, const Look& look);

}  // namespace firstdrop::cli
