// The unit in which an axis of volumes is marked: the one that text() would name its top in.
#pragma once

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/quantity_text.hpp"
#include "quantity/unit_factors.hpp"

namespace firstdrop {

struct MarkUnit {
  Volume one;
  const char* name = "";
  double of(Volume volume) const { return volume / one; }
};

/// For an axis that ends near `most`.
inline MarkUnit mark_unit(Volume most, Units units) {
  const Volume gallon = millilitres(millilitre_per_gallon);
  // Up to here round marks in mL end below an ounce, where text() changes over.
  if (units == Units::us && most > millilitres(20)) {
    if (most >= gallon * 10.0) return {gallon, "gal"};
    if (most >= gallon) return {gallon / 4.0, "qt"};
    return {gallon / 128.0, "fl oz"};
  }
  if (most >= litres(1)) return {litres(1), "L"};
  return {millilitres(1), "mL"};
}

}  // namespace firstdrop
