// The questions of `firstdrop new still` to a person at the terminal.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/quantity/units.hpp"
#include "firstdrop/tables/tables.hpp"
#include "readers/starter.hpp"

namespace firstdrop::cli {

/// A figure of a still that a person can measure, in the order of the questions.
struct StillQuestion {
  std::string path;  ///< of its key: "pot.volume"
  std::string ask;   ///< "Volume of the pot, to the brim"
};
/// All of them. Options have the same paths.
const std::vector<StillQuestion>& still_questions();

/// Asks for what the draft of a still lacks. A figure that is more likely a slip than true is
/// asked again. Figures that the person leaves to their defaults have the word for it.
Starter still_interviewed(Starter draft, const Tables& tables, Units units);

}  // namespace firstdrop::cli
