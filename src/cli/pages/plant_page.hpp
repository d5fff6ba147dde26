// One plant whole: in short, its entry, what serves where that is silent, and the sources.
#pragma once

#include <string>

#include "cli/pages/entry_page.hpp"
#include "firstdrop/tables/library.hpp"

namespace firstdrop::cli {

std::string plant_page(const std::string& key, const Json& entry, const Library& library,
                       Units units);

}  // namespace firstdrop::cli
