// Everything that people write for firstdrop, key by key.
#pragma once

#include <vector>

#include "readers/key.hpp"

namespace firstdrop {

/// The documents of people's own: recipe, still, plant and campaign.
std::vector<Document> documents();

}  // namespace firstdrop
