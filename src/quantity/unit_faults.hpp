// Says why a text isn't read as a quantity, and what to write instead.
#pragma once

#include <string>
#include <string_view>

#include "firstdrop/base/error.hpp"

namespace firstdrop {

struct UnitFamily;

/// What a quantity must look like: "a mass with its unit: g, kg, mg, oz or lb".
std::string wanted_text(const UnitFamily& family);

/// The fault of a text that read_quantity() doesn't read.
Fault unit_fault(std::string_view text, const UnitFamily& family);
/// The fault of a number and unit that don't make a quantity.
Fault unit_fault(double number, std::string_view unit, const UnitFamily& family);

/// Reads a quantity of this kind; whether there is one.
bool read_quantity(std::string_view text, const UnitFamily& family, double& si);
/// The text up to the next number.
std::string_view unit_word(std::string_view text);
/// The text without " of water" at its end, where that may follow.
std::string_view without_water(std::string_view text, const UnitFamily& family);

}  // namespace firstdrop
