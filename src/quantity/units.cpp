#include "firstdrop/quantity/units.hpp"

#include <cmath>
#include <type_traits>
#include <utility>

#include "quantity/quantity_kind.hpp"
#include "quantity/typed_number.hpp"
#include "quantity/unit_faults.hpp"
#include "quantity/unit_table.hpp"

namespace firstdrop {

namespace {

template <class Q>
Q quantity_from_si(double si) {
  if constexpr (std::is_same_v<Q, Temperature>) {
    return Temperature::from_kelvin(si);
  } else {
    return Q::from_si(si);
  }
}

/// Reads "260 g", the form of nearly all quantities. Allocates nothing.
bool read_plain(std::string_view text, const UnitFamily& family, double& si) {
  const TypedNumber number = take_decimal(text);
  if (!number.in_range) return false;
  const Unit* const unit = find_symbol(family, without_leading_blanks(text));
  if (unit == nullptr) return false;
  si = unit->to_si(number.value);
  return std::isfinite(si);
}

/// Reads a number in any form with any spelling of its unit.
bool read_typed(std::string_view text, const UnitFamily& family, double& si) {
  const TypedNumber number = take_typed_number(text);
  if (!number.in_range) return false;
  const Unit* const unit = find_unit(family, without_leading_blanks(text));
  if (unit == nullptr) return false;
  si = unit->to_si(number.value);
  return std::isfinite(si);
}

/// Reads "1 h 20 min" or "1 lb 4 oz": units of one ladder in descending order, each at most once,
/// and no sign. Only the last part may have a fraction, because a text such as "0.5 h 20 min" is
/// usually a slip.
bool read_parts(std::string_view text, const UnitFamily& family, double& si) {
  si = 0.0;
  const Unit* last = nullptr;
  bool last_whole = true;
  while (!text.empty()) {
    const TypedNumber number = take_typed_number(text);
    if (!number.in_range || number.is_signed || !last_whole) return false;
    text = without_leading_blanks(text);
    const std::string_view word = unit_word(text);
    text.remove_prefix(word.size());
    const Unit* const unit = find_unit(family, without_trailing_blanks(word));
    if (unit == nullptr || unit->ladder == Ladder::none) return false;
    if (last != nullptr && (unit->ladder != last->ladder || unit->to_si(1) >= last->to_si(1)))
      return false;
    si += unit->to_si(number.value);
    last = unit;
    last_whole = number.whole;
  }
  return last != nullptr && std::isfinite(si);
}

}  // namespace

std::string_view unit_word(std::string_view text) {
  std::size_t length = 0;
  while (length < text.size()) {
    const std::string_view rest = text.substr(length);
    const bool point = rest.size() > 1 && rest.front() == '.' && is_digit(rest[1]);
    if (point || starts_with_figure(rest)) break;
    ++length;
  }
  return text.substr(0, length);
}

std::string_view without_water(std::string_view text, const UnitFamily& family) {
  if (!family.of_water || !text.ends_with("water")) return text;
  const std::string_view before = text.substr(0, text.size() - 5);
  const std::string_view of = without_trailing_blanks(before);
  if (of.size() == before.size() || !of.ends_with("of")) return text;
  const std::string_view amount = of.substr(0, of.size() - 2);
  const std::string_view trimmed = without_trailing_blanks(amount);
  return trimmed.size() == amount.size() ? text : trimmed;
}

bool read_quantity(std::string_view text, const UnitFamily& family, double& si) {
  text = without_leading_blanks(without_trailing_blanks(text));
  if (read_plain(text, family, si)) return true;
  text = without_water(text, family);
  return read_parts(text, family, si) || read_typed(text, family, si);
}

namespace {

template <class Q>
Parsed<Q> parsed_in(const UnitFamily& family, std::string_view text) {
  Parsed<Q> parsed;
  double si = 0.0;
  if (read_quantity(text, family, si)) {
    parsed.value = quantity_from_si<Q>(si);
  } else {
    parsed.fault = unit_fault(text, family);
  }
  return parsed;
}

template <class Q>
Parsed<Q> from_unit_in(const UnitFamily& family, double number, std::string_view symbol) {
  Parsed<Q> parsed;
  const Unit* const unit = find_unit(family, symbol, Letters::as_listed);
  const double si = unit == nullptr ? 0.0 : unit->to_si(number);
  if (unit != nullptr && std::isfinite(si)) {
    parsed.value = quantity_from_si<Q>(si);
  } else {
    parsed.fault = unit_fault(number, symbol, family);
  }
  return parsed;
}

}  // namespace

template <class Q>
Parsed<Q> parse_quantity(std::string_view text) {
  return parsed_in<Q>(family_of<Q>(), text);
}

template <class Q>
Parsed<Q> from_unit(double number, std::string_view unit) {
  return from_unit_in<Q>(family_of<Q>(), number, unit);
}

std::optional<double> converted(double number, std::string_view from, std::string_view to) {
  for (const UnitFamily* family : unit_families()) {
    const Unit* const old_unit = find_unit(*family, from);
    const Unit* const new_unit = find_unit(*family, to);
    if (old_unit != nullptr && new_unit != nullptr && !family->of_water) {
      return new_unit->from_si(old_unit->to_si(number));
    }
  }
  return std::nullopt;
}

template <class Q>
std::vector<std::string> unit_symbols() {
  QuantityKind kind = quantity_kind<Q>();
  std::vector<std::string> all = std::move(kind.units);
  all.insert(all.end(), kind.aliases.begin(), kind.aliases.end());
  return all;
}

#define FIRSTDROP_QUANTITY_TEXT(Q)                                       \
  template Parsed<Q> parse_quantity<Q>(std::string_view text);           \
  template Parsed<Q> from_unit<Q>(double number, std::string_view unit); \
  template std::vector<std::string> unit_symbols<Q>();

FIRSTDROP_QUANTITY_TEXT(Mass)
FIRSTDROP_QUANTITY_TEXT(Volume)
FIRSTDROP_QUANTITY_TEXT(Temperature)
FIRSTDROP_QUANTITY_TEXT(TemperatureDifference)
FIRSTDROP_QUANTITY_TEXT(Power)
FIRSTDROP_QUANTITY_TEXT(Energy)
FIRSTDROP_QUANTITY_TEXT(Duration)
FIRSTDROP_QUANTITY_TEXT(Length)
FIRSTDROP_QUANTITY_TEXT(Area)
FIRSTDROP_QUANTITY_TEXT(Pressure)
FIRSTDROP_QUANTITY_TEXT(Density)
FIRSTDROP_QUANTITY_TEXT(VolumeFlow)
FIRSTDROP_QUANTITY_TEXT(Fraction)
FIRSTDROP_QUANTITY_TEXT(Rate)
FIRSTDROP_QUANTITY_TEXT(SpecificVolume)
FIRSTDROP_QUANTITY_TEXT(SpecificHeat)
FIRSTDROP_QUANTITY_TEXT(HeatTransfer)
FIRSTDROP_QUANTITY_TEXT(MolarMass)
FIRSTDROP_QUANTITY_TEXT(Current)
FIRSTDROP_QUANTITY_TEXT(Voltage)

#undef FIRSTDROP_QUANTITY_TEXT

}  // namespace firstdrop
