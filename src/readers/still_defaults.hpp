// What a still has where its owner hasn't measured it.
#pragma once

#include "firstdrop/tables/tables.hpp"

namespace firstdrop {

/// Whether a figure was given. One that was left out has no evidence and is zero.
template <class T>
bool is_given(const Cited<T>& figure) {
  return !figure.evidence.basis.empty();
}

/// The still with a default for each figure, material and name that was left out. Defaults are
/// marked by Known::default_value; see default_figures(). What decides a plan has none: the volumes
/// of pot, column and grid, the pot's material, the heater's kind and power, the condenser's kind
/// and the volume of its coolant. The condensing surface of a condenser that has neither coolant
/// nor tube nor dome is left out.
Still with_defaults(Still still, const Tables& tables);

/// Water that clings to the walls of a still whose other figures are known.
Cited<Mass> default_wall_hold_up(const Still& still, const Tables& tables);

}  // namespace firstdrop
