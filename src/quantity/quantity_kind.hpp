// The kinds of quantities as data, for schemas and reference pages.
#pragma once

#include <string>
#include <vector>

namespace firstdrop {

struct UnitFamily;

/// One kind of quantity.
struct QuantityKind {
  std::string name;                  ///< "mass"
  std::string wanted;                ///< "a mass"
  std::string with_unit;             ///< "a mass with its unit: g, kg, mg, oz, lb"
  std::vector<std::string> units;    ///< as messages list them, preferred ones first
  std::vector<std::string> aliases;  ///< accepted, but not listed
  bool has_ratio = true;             ///< twice as much means something; not for temperatures
  const UnitFamily* family = nullptr;
};

/// The kind that Q belongs to. Q is any type that parse_quantity() takes.
template <class Q>
QuantityKind quantity_kind();

/// The kind of these units.
QuantityKind kind_of(const UnitFamily& family);
/// All kinds.
std::vector<QuantityKind> quantity_kinds();

/// A regular expression (ECMAScript) for the texts that are read as this kind, except for numbers
/// that are too large.
std::string text_pattern(const QuantityKind& kind);

/// Each unit with its other spellings, for people: "lb (lb(s)(.), pound(s))".
std::vector<std::string> spellings_by_unit(const QuantityKind& kind);

/// The symbols that may have capitals anywhere.
std::vector<std::string> symbols_in_any_case();

}  // namespace firstdrop
