// A plant of which little is known, with the figures of another one or of its form.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/tables/plant.hpp"
#include "firstdrop/tables/tables.hpp"

namespace firstdrop {

/// The plant with the figures that it lacks, taken from what it is like. The oil content of another
/// plant gets the range that plants of one form have. Hazards are never taken over, nor is the time
/// when people stop. A plant with an empty `like`, or with one that isn't in the tables, is
/// returned as it is.
Plant completed_by_like(Plant plant, const Tables& tables);

/// What `like` may name: the plants of the table and the forms.
std::vector<std::string> names_to_be_like(const Tables& tables);

}  // namespace firstdrop
