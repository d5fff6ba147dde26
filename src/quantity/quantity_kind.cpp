#include "quantity/quantity_kind.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "base/text_layout.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "quantity/typed_number.hpp"
#include "quantity/unit_faults.hpp"
#include "quantity/unit_table.hpp"

namespace firstdrop {

QuantityKind kind_of(const UnitFamily& family) {
  QuantityKind kind;
  kind.name = family.name;
  kind.wanted = family.wanted;
  kind.with_unit = wanted_text(family);
  kind.has_ratio = &family != &family_of<Temperature>();
  kind.family = &family;
  for (const Unit& unit : family.units) {
    (unit.offered ? kind.units : kind.aliases).emplace_back(unit.symbol);
    for (std::string& other : other_spellings(unit)) kind.aliases.push_back(std::move(other));
  }
  return kind;
}

namespace {

/// The units of a ladder, each at most once, the largest first. The numbers may be anything without
/// letters but an exponent; see parts_pattern().
std::string ladder_pattern(const UnitFamily& family, Ladder ladder) {
  std::vector<const Unit*> units;
  for (const Unit& unit : family.units)
    if (unit.ladder == ladder) units.push_back(&unit);
  if (units.size() < 2) return {};
  std::sort(units.begin(), units.end(),
            [](const Unit* a, const Unit* b) { return a->to_si(1) > b->to_si(1); });
  std::string pattern;
  for (const Unit* unit : units)
    pattern += fmt::format("(?:(?!{0}|\\.(?![0-9]))[^A-Za-z]+(?:[eE][+-]?[0-9]+{0}*)?(?:{1}){0}*)?",
                           one_blank_pattern, spellings_pattern(*unit));
  return pattern;
}

/// Amounts of several units, such as "1 h 20 min". Only the last number may have a fraction. What
/// looks ahead sees to the numbers, and the rest to the units. Empty for kinds without such
/// amounts.
std::string parts_pattern(const UnitFamily& family) {
  std::vector<std::string> ladders;
  for (const Ladder ladder :
       {Ladder::metric_mass, Ladder::us_mass, Ladder::metric_volume, Ladder::us_volume,
        Ladder::metric_length, Ladder::us_length, Ladder::time}) {
    std::string one = ladder_pattern(family, ladder);
    if (!one.empty()) ladders.push_back(std::move(one));
  }
  if (ladders.empty()) return {};
  const std::string word = fmt::format(
      "{0}*(?![eE][+-]?[0-9])[A-Za-z](?:[A-Za-z]|\\.(?![0-9])|{0})*", one_blank_pattern);
  return fmt::format("(?=(?:[0-9]+{0})*{1}{0}$)(?:{2})", word, unsigned_number_pattern(),
                     joined(ladders, "|"));
}

}  // namespace

std::string text_pattern(const QuantityKind& kind) {
  const UnitFamily& family = *kind.family;
  std::vector<std::string> units;
  bool digit_first = false;  // "1.5 1/h" can't do without its blank
  for (const Unit& unit : family.units) {
    units.push_back(spellings_pattern(unit));
    digit_first = digit_first || is_digit(unit.symbol.front());
  }
  std::string pattern = fmt::format("{}{}{}(?:{})", signed_number_pattern(), one_blank_pattern,
                                    digit_first ? '+' : '*', joined(units, "|"));
  const std::string parts = parts_pattern(family);
  if (!parts.empty()) pattern += '|' + parts;
  const std::string of_water =
      family.of_water ? fmt::format("(?:{0}+of{0}+water)?", one_blank_pattern) : std::string();
  return fmt::format("^{0}*(?:{1}){2}{0}*$", one_blank_pattern, pattern, of_water);
}

std::vector<std::string> spellings_by_unit(const QuantityKind& kind) {
  std::vector<std::string> all;
  for (const Unit& unit : kind.family->units) {
    const std::vector<std::string> others = short_spellings(unit);
    all.emplace_back(unit.symbol);
    if (!others.empty()) all.back() += " (" + joined(others, ", ") + ')';
  }
  return all;
}

std::vector<std::string> symbols_in_any_case() {
  std::vector<std::string> all;
  for (const UnitFamily* family : unit_families())
    for (const Unit& unit : family->units)
      if (unit.any_case && !family->of_water) all.emplace_back(unit.symbol);
  return all;
}

template <class Q>
QuantityKind quantity_kind() {
  return kind_of(family_of<Q>());
}

std::vector<QuantityKind> quantity_kinds() {
  std::vector<QuantityKind> kinds;
  for (const UnitFamily* family : unit_families()) kinds.push_back(kind_of(*family));
  return kinds;
}

template QuantityKind quantity_kind<Mass>();
template QuantityKind quantity_kind<Volume>();
template QuantityKind quantity_kind<Temperature>();
template QuantityKind quantity_kind<TemperatureDifference>();
template QuantityKind quantity_kind<Power>();
template QuantityKind quantity_kind<Energy>();
template QuantityKind quantity_kind<Duration>();
template QuantityKind quantity_kind<Length>();
template QuantityKind quantity_kind<Area>();
template QuantityKind quantity_kind<Pressure>();
template QuantityKind quantity_kind<Density>();
template QuantityKind quantity_kind<VolumeFlow>();
template QuantityKind quantity_kind<Fraction>();
template QuantityKind quantity_kind<Rate>();
template QuantityKind quantity_kind<SpecificVolume>();
template QuantityKind quantity_kind<SpecificHeat>();
template QuantityKind quantity_kind<HeatTransfer>();
template QuantityKind quantity_kind<MolarMass>();
template QuantityKind quantity_kind<Current>();
template QuantityKind quantity_kind<Voltage>();

}  // namespace firstdrop
