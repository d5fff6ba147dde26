// Random recipes for measurements, as varied as those of many users. The reader accepts all of
// them.
#pragma once

#include <cstdint>
#include <string>

#include "firstdrop/tables/tables.hpp"

/// One recipe as a line of JSON, without the line feed. It has a shipped plant, a shipped still, a
/// common site and a common goal. The same number gives the same recipe on any machine. Some
/// recipes ask for more than the still can do, as users' recipes do.
std::string some_recipe(std::uint64_t number, const firstdrop::Tables& tables);
