// Recipes for measurements: as varied as those of many benches, all of them read without a fault.
#pragma once

#include <cstdint>
#include <string>

#include "firstdrop/tables/tables.hpp"

/// One line of JSON, without the line feed: a shipped plant on a shipped still, in a usual site and
/// with a usual goal. The same number gives the same recipe on any machine. Some ask for what the
/// still cannot do, as people's do.
std::string some_recipe(std::uint64_t number, const firstdrop::Tables& tables);
