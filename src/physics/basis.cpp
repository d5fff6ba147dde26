#include "physics/basis.hpp"

namespace firstdrop {

Mass dry_matter(Mass charge, Fraction moisture) {
  return charge * (1.0 - moisture);
}

Mass at_moisture(Mass charge, Fraction moisture, Fraction other_moisture) {
  return dry_matter(charge, moisture) / (1.0 - other_moisture);
}

Fraction per_as_received(Fraction per_dry, Fraction moisture) {
  return per_dry * (1.0 - moisture);
}

Fraction per_dry_matter(Fraction per_charge, Fraction moisture) {
  return per_charge / (1.0 - moisture);
}

Fraction oil_by_mass(SpecificVolume by_volume, Density oil_density) {
  return by_volume * oil_density;
}

SpecificVolume oil_by_volume(Fraction by_mass, Density oil_density) {
  return by_mass / oil_density;
}

}  // namespace firstdrop
