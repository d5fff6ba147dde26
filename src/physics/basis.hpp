/// @file
/// What a share of oil is a share of: fresh or dry, by mass or by volume. Mixing them up is the
/// commonest mistake with published yields, so every step from one to another is a function here.
///
/// A basis is one of: per material as loaded (its water included) or per dry matter; and, either by
/// mass (w/w, a Fraction) or by volume of oil per mass of material (v/w, a SpecificVolume; 1 mL per
/// 100 g is 0.01 L/kg).
///
/// Nothing is checked here. A moisture of 1 or a density of zero divides by zero:
/// the result is infinite or not a number.
#pragma once

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// Dry matter in a charge of this moisture.
/// Range: moisture 0 to 1, in kg water per kg as loaded. Source: definition of moisture.
Mass dry_matter(Mass charge, Fraction moisture);

/// Mass of the same dry matter at another moisture: 100 g fresh herb at 80 % is 22.2 g at 10 %.
/// Range: moisture 0 to 1, the other 0 to below 1. Source: definition of moisture.
Mass at_moisture(Mass charge, Fraction moisture, Fraction other_moisture);

/// A share of dry matter as a share of the material as loaded.
/// Range: moisture 0 to 1. Source: definition of moisture.
Fraction per_loaded(Fraction per_dry_matter, Fraction moisture);

/// A share of the material as loaded as a share of its dry matter; undoes per_loaded().
/// Range: moisture 0 to below 1. Source: definition of moisture.
Fraction per_dry_matter(Fraction per_loaded, Fraction moisture);

/// Oil by volume per mass of material (v/w) as a mass share (w/w).
/// Range: any density. Source: definition of density.
Fraction oil_by_mass(SpecificVolume oil_by_volume, Density oil_density);

/// Oil as a mass share (w/w) by volume per mass of material (v/w); undoes oil_by_mass().
/// Range: density above zero. Source: definition of density.
SpecificVolume oil_by_volume(Fraction oil_by_mass, Density oil_density);

}  // namespace firstdrop
