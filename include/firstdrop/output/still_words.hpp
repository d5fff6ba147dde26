/// @file
/// What is said of a still that somebody has described.
#pragma once

#include <string>

#include "firstdrop/model/still_doubt.hpp"
#include "firstdrop/quantity/units.hpp"
#include "firstdrop/tables/still.hpp"

namespace firstdrop {

/// What a doubtful figure would mean, as a sentence: "A column of 120 mL holds about 14 g of fresh
/// herb."
std::string doubt_text(const StillDoubt& doubt, Units units);
/// "fill limit of the pot 80 %".
std::string default_text(const DefaultFigure& figure, Units units);

}  // namespace firstdrop
