// The units that quantities may be written in, and every spelling of each. What reads a quantity,
// what explains why one can't be read, the JSON Schemas, the manual pages and the fuzzers' words
// all come from this table.
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// Units that may follow each other in one amount, as in "1 lb 4 oz" or "1 h 20 min".
enum class Ladder {
  none,
  metric_mass,
  us_mass,
  metric_volume,
  us_volume,
  metric_length,
  us_length,
  time
};

/// SI value = (number - zero) * times / over + shift. There are two factors so that a decimal
/// prefix is a single, correctly rounded operation. It then gives the same double as the named
/// maker: 260 g is 260 / 1e3.
struct Unit {
  std::string_view symbol;  ///< a space in it stands for one or more blanks
  double times = 1.0;
  double over = 1.0;
  double zero = 0.0;
  double shift = 0.0;
  /// Other spellings, with | between them. A character before ? may be left out. Spellings with
  /// three letters or more, and nothing but letters, blanks and full stops, may be in any case, and
  /// so may all of a unit whose symbol may be.
  std::string_view others = {};
  bool offered = true;    ///< messages list it
  bool any_case = false;  ///< the symbol may be in any case, because no other unit is meant then
  Ladder ladder = Ladder::none;

  constexpr double to_si(double number) const { return (number - zero) * times / over + shift; }
  constexpr double from_si(double si) const { return (si - shift) * over / times + zero; }

  constexpr Unit also(std::string_view spellings) const {
    Unit unit = *this;
    unit.others = spellings;
    return unit;
  }
  constexpr Unit in_any_case() const {
    Unit unit = *this;
    unit.any_case = true;
    return unit;
  }
  constexpr Unit on(Ladder units) const {
    Unit unit = *this;
    unit.ladder = units;
    return unit;
  }
};

/// The units of one kind of quantity.
struct UnitFamily {
  std::string_view name;    ///< "mass"
  std::string_view wanted;  ///< "a mass"
  std::span<const Unit> units;
  bool of_water = false;  ///< " of water" may follow
};

/// The units of Q, which is any type that parse_quantity() takes.
template <class Q>
const UnitFamily& family_of();
template <>
const UnitFamily& family_of<Mass>();
template <>
const UnitFamily& family_of<Volume>();
template <>
const UnitFamily& family_of<Temperature>();
template <>
const UnitFamily& family_of<TemperatureDifference>();
template <>
const UnitFamily& family_of<Power>();
template <>
const UnitFamily& family_of<Energy>();
template <>
const UnitFamily& family_of<Duration>();
template <>
const UnitFamily& family_of<Length>();
template <>
const UnitFamily& family_of<Area>();
template <>
const UnitFamily& family_of<Pressure>();
template <>
const UnitFamily& family_of<Density>();
template <>
const UnitFamily& family_of<VolumeFlow>();
template <>
const UnitFamily& family_of<Fraction>();
template <>
const UnitFamily& family_of<Rate>();
template <>
const UnitFamily& family_of<SpecificVolume>();
template <>
const UnitFamily& family_of<SpecificHeat>();
template <>
const UnitFamily& family_of<HeatTransfer>();
template <>
const UnitFamily& family_of<MolarMass>();
template <>
const UnitFamily& family_of<Current>();
template <>
const UnitFamily& family_of<Voltage>();
/// Volumes, and masses as the volume of that much water.
const UnitFamily& water_family();
/// All of them. Temperature comes before the difference, so that "K" is called a unit of
/// temperature.
std::span<const UnitFamily* const> unit_families();

/// How a unit's spelling is compared.
enum class Letters { as_listed, any_case };

/// The unit with this symbol, to the letter; null if there is none.
const Unit* find_symbol(const UnitFamily& family, std::string_view text);
/// The unit with this spelling; null if there is none.
const Unit* find_unit(const UnitFamily& family, std::string_view text,
                      Letters letters = Letters::any_case);

/// Length in bytes of the blank at the start of the text; 0 if there is none. A blank is a space, a
/// no-break space (U+00A0), a thin space (U+2009) or a narrow no-break space (U+202F).
std::size_t blank_length(std::string_view text);
std::string_view without_leading_blanks(std::string_view text);
std::string_view without_trailing_blanks(std::string_view text);

/// The spellings of a unit other than its symbol, in full: "pound", "pounds".
std::vector<std::string> other_spellings(const Unit& unit);
/// The same for people, in short: "pound(s)".
std::vector<std::string> short_spellings(const Unit& unit);
/// A regular expression (ECMAScript) for all spellings of a unit.
std::string spellings_pattern(const Unit& unit);
/// A regular expression for one blank.
inline constexpr std::string_view one_blank_pattern = "(?: |\u00a0|\u2009|\u202f)";

}  // namespace firstdrop
