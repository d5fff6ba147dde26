// The unit for the marks of a volume axis: the one that text() would use for the axis's top value.
#pragma once

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/units.hpp"
#include "quantity/unit_factors.hpp"

namespace firstdrop {

struct MarkUnit {
  Volume one;
  const char* name = "";
  double of(Volume volume) const { return volume / one; }
};

/// The unit for an axis that ends near `most`.
inline MarkUnit mark_unit(Volume most, Units units) {
  const Volume gallon = millilitres(millilitre_per_gallon);
  // Up to 20 mL, the round marks in mL end below one ounce, where text() changes units.
  if (units == Units::us && most > millilitres(20)) {
    if (most >= gallon * 10.0) return {gallon, "gal"};
    if (most >= gallon) return {gallon / 4.0, "qt"};
    return {gallon / 128.0, "fl oz"};
  }
  if (most >= litres(1)) return {litres(1), "L"};
  return {millilitres(1), "mL"};
}

}  // namespace firstdrop
