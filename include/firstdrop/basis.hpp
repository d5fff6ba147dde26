// What a share of oil is a share of: fresh or dry, by mass or by volume. Mixing them up is the
// commonest mistake with published yields, so every step from one to another is a function here.
//
// A basis is one of: per material as loaded (its water included) or per dry matter; and, either by
// mass (w/w, a Fraction) or by volume of oil per mass of material (v/w, a SpecificVolume; 1 mL per
// 100 g is 0.01 L/kg).
#pragma once

#include "firstdrop/quantity.hpp"

namespace firstdrop {

/// Dry matter in a charge of this moisture (kg water per kg as loaded, 0 to below 1).
Mass dry_matter(Mass charge, Fraction moisture);

/// Mass of the same dry matter at another moisture: 100 g fresh herb at 80 % is 22.2 g at 10 %.
Mass at_moisture(Mass charge, Fraction moisture, Fraction other_moisture);

/// A share of dry matter as a share of the material as loaded, and back. Moisture 0 to below 1.
Fraction per_loaded(Fraction per_dry_matter, Fraction moisture);
Fraction per_dry_matter(Fraction per_loaded, Fraction moisture);

/// Oil by volume per mass of material (v/w) as a mass share (w/w), and back. Density above zero.
Fraction oil_by_mass(SpecificVolume oil_by_volume, Density oil_density);
SpecificVolume oil_by_volume(Fraction oil_by_mass, Density oil_density);

/// Oil per dry matter before and after drying that keeps `retention` (above 0 to 1) of it.
Fraction after_drying(Fraction per_dry_matter_fresh, Fraction retention);
Fraction before_drying(Fraction per_dry_matter_dried, Fraction retention);

}  // namespace firstdrop
