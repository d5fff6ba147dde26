// The names by which people know the entries of the tables, for looking them up.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/suggestion.hpp"
#include "firstdrop/tables/tables.hpp"

namespace firstdrop {

/// @{
/// Each key with the other names of its entry: common and botanical names of a plant, the title of
/// a still, name and CAS number of a liquid.
std::vector<KnownName> known_names(const std::map<std::string, Shared<Plant>>& plants);
std::vector<KnownName> known_names(const std::map<std::string, Shared<Still>>& stills);
std::vector<KnownName> known_names(const std::map<std::string, Liquid>& liquids);
/// @}

}  // namespace firstdrop
