// Amounts of water: a volume, or the mass of that much water, which a scale gives more exactly than
// a jug. "2950 g", "2950 g of water" and "2.96 L" are read.
#pragma once

#include <string_view>
#include <type_traits>

#include "firstdrop/base/error.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/units.hpp"
#include "quantity/bounds.hpp"
#include "quantity/quantity_kind.hpp"
#include "quantity/unit_factors.hpp"

namespace firstdrop {

/// As parse_quantity<Volume>(). A mass is that of water at 20 °C.
Parsed<Volume> parse_water(std::string_view text);
/// As from_unit<Volume>(). A mass is that of water at 20 °C.
Parsed<Volume> water_from_unit(double number, std::string_view unit);
/// Whether a text that parse_water() reads is a mass.
bool is_weighed(std::string_view text);
/// The density that a mass is converted with.
inline constexpr Density weighed_water_density =
    kilograms_per_cubic_metre(kilogram_per_cubic_metre_of_water);
/// The kind of these amounts.
QuantityKind water_kind();

/// Reads a text as a quantity with these bounds: as parse_water() or parse_quantity().
template <class Q>
Parsed<Q> parse_within(std::string_view text, const Bounds<Q>& bounds) {
  if constexpr (std::is_same_v<Q, Volume>)
    if (bounds.of_water) return parse_water(text);
  return parse_quantity<Q>(text);
}
/// As water_from_unit() or from_unit().
template <class Q>
Parsed<Q> from_unit_within(double number, std::string_view unit, const Bounds<Q>& bounds) {
  if constexpr (std::is_same_v<Q, Volume>)
    if (bounds.of_water) return water_from_unit(number, unit);
  return from_unit<Q>(number, unit);
}
/// The kind of quantities with these bounds.
template <class Q>
QuantityKind kind_within(const Bounds<Q>& bounds) {
  return bounds.of_water ? water_kind() : quantity_kind<Q>();
}

}  // namespace firstdrop
