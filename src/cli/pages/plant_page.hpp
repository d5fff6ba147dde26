// One plant in full: the main facts, its entry, the default values for what that lacks, and the
// sources.
#pragma once

#include <string>

#include "cli/pages/entry_page.hpp"
#include "firstdrop/tables/tables.hpp"

namespace firstdrop::cli {

std::string plant_page(const std::string& key, const Json& entry, const Tables& tables,
                       Units units);

}  // namespace firstdrop::cli
