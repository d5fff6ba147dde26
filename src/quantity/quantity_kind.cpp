#include "quantity/quantity_kind.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "base/text_layout.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "quantity/typed_number.hpp"
#include "quantity/unit_faults.hpp"
#include "quantity/unit_table.hpp"
#include "quantity/water_amount.hpp"

namespace firstdrop {

namespace {

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

std::string blanks(char how_many) {
  return std::string(one_blank_pattern) + how_many;
}

/// Amounts of one or more units of a ladder, such as "1 h 20 min". Only the last number may have a
/// fraction.
std::string parts_pattern(const UnitFamily& family, Ladder ladder) {
  std::vector<const Unit*> units;
  for (const Unit& unit : family.units)
    if (unit.ladder == ladder) units.push_back(&unit);
  if (units.size() < 2) return {};
  std::sort(units.begin(), units.end(),
            [](const Unit* a, const Unit* b) { return a->to_si(1) > b->to_si(1); });
  const std::string number =
      fmt::format("(?:[0-9]+|{}{})", unsigned_number_pattern(), no_more_figures_pattern());
  std::string pattern = figure_next_pattern();
  for (const Unit* unit : units)
    pattern += fmt::format("(?:{}{}(?:{}){})?", number, blanks('*'), spellings_pattern(*unit),
                           blanks('*'));
  return pattern;
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
  std::string pattern = fmt::format("{}{}(?:{})", signed_number_pattern(),
                                    blanks(digit_first ? '+' : '*'), joined(units, "|"));
  for (const Ladder ladder :
       {Ladder::metric_mass, Ladder::us_mass, Ladder::metric_volume, Ladder::us_volume,
        Ladder::metric_length, Ladder::us_length, Ladder::time}) {
    const std::string parts = parts_pattern(family, ladder);
    if (!parts.empty()) pattern += '|' + parts;
  }
  const std::string of_water =
      family.of_water ? fmt::format("(?:{0}of{0}water)?", blanks('+')) : std::string();
  return fmt::format("^{0}(?:{1}){2}{0}$", blanks('*'), pattern, of_water);
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

QuantityKind water_kind() {
  return kind_of(water_family());
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
