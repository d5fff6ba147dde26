// A quantity as a number with its unit.
#pragma once

#include <string>
#include <type_traits>

#include "firstdrop/tables/finding.hpp"
#include "quantity/shown_in.hpp"

namespace firstdrop {

/// A value in a unit, with the unit's symbol.
template <class T>
Amount amount_in(const ShownUnit<T>& unit, std::type_identity_t<T> value) {
  return {unit.number(value), std::string(unit.symbol)};
}

}  // namespace firstdrop
