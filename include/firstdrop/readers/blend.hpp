/// @file
/// Blends: several plants loaded together in one charge.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/tables/plant.hpp"
#include "firstdrop/tables/tables.hpp"

namespace firstdrop {

/// What keeps plants from being a blend.
struct BlendFault {
  std::string found;
  std::string wanted;
};
/// The fault of these parts; none if they make a blend. A blend has 2 to 8 plants that aren't
/// blends themselves, no plant twice, shares of 100 % together, and a state that all plants have.
std::optional<BlendFault> blend_fault(const std::vector<BlendPart>& parts);

/// The blend as one plant. It has the states that all of its plants have, and the hazards of each.
/// Figures are mixed by mass as loaded, and those of the oil by each plant's share of it. Volumes
/// add up: nothing small is assumed to fill gaps. Oil contents count as independent of each other;
/// all other figures have their low and high ends together. A plan releases the oil of each plant
/// at that plant's own pace.
/// Throws InputError if there is a blend_fault(), or if a plant lacks a figure.
Plant blended(std::vector<BlendPart> parts, const Tables& tables);

}  // namespace firstdrop
