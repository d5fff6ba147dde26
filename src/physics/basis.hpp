/// @file
/// Conversions between the bases of an oil content: fresh or dry, by mass or by volume. Mixing them
/// up is the most common mistake with published yields, so each conversion is a function here.
///
/// An oil content refers either to the as-received material (water included) or to its dry matter.
/// It is given either by mass (w/w, a Fraction) or by volume of oil per mass of material (v/w, a
/// SpecificVolume; 1 mL per 100 g is 0.01 L/kg).
///
/// The functions don't check their arguments. A moisture of 1 or a density of zero can divide by
/// zero; the result is then infinite or not a number.
#pragma once

#include "firstdrop/quantity/quantity.hpp"
#include "quantity/equation.hpp"

namespace firstdrop {

/// Dry matter in a charge of this moisture.
/// Range: moisture 0 to 1, in kg water per kg of as-received material. Source: definition of
/// moisture.
Mass dry_matter(Mass charge, Fraction moisture);
namespace equations {
inline constexpr Equation<Mass> dry_matter{"m_dry", "dry matter", shown_in::grams,
                                           "m * (1 - x / 100)"};
}  // namespace equations

/// Mass of the same charge after its moisture changes: 100 g of fresh herb at 80 % becomes 22.2 g
/// at 10 %. The dry matter stays the same.
/// Range: `moisture` 0 to 1, `other_moisture` 0 to below 1. Source: definition of moisture.
Mass at_moisture(Mass charge, Fraction moisture, Fraction other_moisture);
namespace equations {
inline constexpr Equation<Mass> as_fresh{"m_fresh", "the same herb when freshly cut",
                                         shown_in::grams, "m_dry / (1 - x_cut / 100)"};
inline constexpr Equation<Mass> already_fresh{
    "m_fresh", "the same herb when freshly cut, or as received if that isn't known",
    shown_in::grams, "m"};
}  // namespace equations

/// Converts a share of the dry matter to a share of the as-received material.
/// Range: moisture 0 to 1. Source: definition of moisture.
Fraction per_as_received(Fraction per_dry_matter, Fraction moisture);
namespace equations {
inline constexpr Equation<Mass> oil_of_dry_matter{"m_oil", "oil in the charge", shown_in::grams,
                                                  "m_dry * w / 100"};
inline constexpr Equation<Mass> oil_as_received{"m_oil", "oil in the charge", shown_in::grams,
                                                "m * w / 100"};
}  // namespace equations

/// Converts a share of the as-received material to a share of its dry matter; the inverse of
/// per_loaded().
/// Range: moisture 0 to below 1. Source: definition of moisture.
Fraction per_dry_matter(Fraction per_as_received, Fraction moisture);

/// Converts oil by volume per mass of material (v/w) to a mass share (w/w).
/// Range: any density. Source: definition of density.
Fraction oil_by_mass(SpecificVolume oil_by_volume, Density oil_density);

/// Converts oil as a mass share (w/w) to volume per mass of material (v/w); the inverse of
/// oil_by_mass().
/// Range: density above zero. Source: definition of density.
SpecificVolume oil_by_volume(Fraction oil_by_mass, Density oil_density);

}  // namespace firstdrop
