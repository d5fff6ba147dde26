// The kinds of quantities as data, for schemas and reference pages.
#pragma once

#include <string>
#include <vector>

namespace firstdrop {

/// One kind of quantity.
struct QuantityKind {
  std::string name;                  ///< "mass"
  std::string wanted;                ///< "a mass"
  std::string with_unit;             ///< "a mass with its unit: g, kg, mg, oz, lb"
  std::vector<std::string> units;    ///< as messages list them, preferred ones first
  std::vector<std::string> aliases;  ///< accepted, but not listed
  bool in_parts = false;             ///< may have several parts: "1 h 20 min"
  bool has_ratio = true;             ///< twice as much means something; not for temperatures
};

/// The kind that Q belongs to. Q is any type that parse_quantity() takes.
template <class Q>
QuantityKind quantity_kind();

/// All kinds.
std::vector<QuantityKind> quantity_kinds();

}  // namespace firstdrop
