#include "firstdrop/quantity/units.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <span>
#include <system_error>
#include <type_traits>

#include "base/visible_text.hpp"
#include "quantity/quantity_kind.hpp"
#include "quantity/unit_factors.hpp"

namespace firstdrop {

namespace {

// ---------------------------------------------------------------------------------------------
// The units
// ---------------------------------------------------------------------------------------------

/// SI value = (number - zero) * times / over + shift. There are two factors so that a decimal
/// prefix is a single, correctly rounded operation. It then gives the same double as the named
/// maker: 260 g is 260 / 1e3.
struct Unit {
  std::string_view symbol;  ///< a space in it stands for one or more blanks
  double times = 1.0;
  double over = 1.0;
  double zero = 0.0;
  double shift = 0.0;
  bool alias = false;  ///< accepted, but not offered in messages

  constexpr double to_si(double number) const { return (number - zero) * times / over + shift; }
  constexpr double from_si(double si) const { return (si - shift) * over / times + zero; }
};

constexpr Unit listed(std::string_view symbol, double times = 1.0, double over = 1.0) {
  return {symbol, times, over};
}
constexpr Unit alias(std::string_view symbol, double times = 1.0, double over = 1.0) {
  return {symbol, times, over, 0.0, 0.0, true};
}

/// The units of one kind of quantity.
struct Family {
  std::string_view name;    ///< "mass"
  std::string_view wanted;  ///< "a mass"
  std::span<const Unit> units;
};

constexpr double zero_celsius = 273.15;  // K

constexpr std::array mass_units{
    listed("g", 1, 1e3),
    listed("kg"),
    listed("mg", 1, 1e6),
    listed("oz", kilogram_per_ounce),
    listed("lb", kilogram_per_pound),
};
constexpr std::array volume_units{
    listed("mL", 1, 1e6),
    listed("L", 1, 1e3),
    listed("cup", millilitre_per_cup, 1e6),
    listed("fl oz", millilitre_per_fluid_ounce, 1e6),
    listed("qt", millilitre_per_quart, 1e6),
    listed("gal", millilitre_per_gallon, 1e6),
    listed("cm3", 1, 1e6),
    listed("m3"),
    alias("cups", millilitre_per_cup, 1e6),
    alias("ml", 1, 1e6),
    alias("l", 1, 1e3),
    alias("cm³", 1, 1e6),
    alias("m³"),
};
constexpr std::array temperature_units{
    Unit{"°C", 1, 1, 0, zero_celsius},
    Unit{"°F", 5, 9, 32, zero_celsius},
    listed("K"),
    Unit{"degC", 1, 1, 0, zero_celsius, true},
    Unit{"degF", 5, 9, 32, zero_celsius, true},
};
constexpr std::array temperature_difference_units{listed("K")};
constexpr std::array power_units{listed("W"), listed("kW", 1e3)};
constexpr std::array energy_units{listed("J"), listed("kJ", 1e3), listed("kWh", 3.6e6)};
constexpr std::array duration_units{listed("s"), listed("min", 60), listed("h", 3600)};
constexpr std::array length_units{
    listed("mm", 1, 1e3),         listed("cm", 1, 1e2),         listed("m"),
    listed("in", metre_per_inch), listed("ft", metre_per_foot),
};
constexpr std::array area_units{
    listed("cm2", 1, 1e4),
    listed("m2"),
    listed("in2", metre_per_inch* metre_per_inch),
    listed("ft2", metre_per_foot* metre_per_foot),
    alias("cm²", 1, 1e4),
    alias("m²"),
    alias("in²", metre_per_inch* metre_per_inch),
    alias("ft²", metre_per_foot* metre_per_foot),
};
constexpr std::array pressure_units{
    listed("Pa"),
    listed("hPa", 1e2),
    listed("kPa", 1e3),
    listed("mbar", 1e2),
    listed("mmHg", pascal_per_mmhg),
    listed("inHg", pascal_per_inhg),
};
constexpr std::array density_units{
    listed("g/L"),
    listed("kg/L", 1e3),
    listed("g/mL", 1e3),
    listed("kg/m3"),
    listed("mg/L", 1, 1e3),
    listed("oz/cup", kilogram_per_ounce * 1e6, millilitre_per_cup),
    listed("oz/qt", kilogram_per_ounce * 1e6, millilitre_per_quart),
    listed("lb/gal", kilogram_per_pound * 1e6, millilitre_per_gallon),
    alias("g/l"),
    alias("kg/l", 1e3),
    alias("g/ml", 1e3),
    alias("kg/m³"),
    alias("mg/l", 1, 1e3),
};
constexpr std::array flow_units{
    listed("mL/min", 1, 60e6),
    listed("L/h", 1, 3600e3),
    listed("L/min", 1, 60e3),
    listed("fl oz/min", millilitre_per_fluid_ounce, 60e6),
    listed("gal/min", millilitre_per_gallon, 60e6),
    alias("ml/min", 1, 60e6),
    alias("l/h", 1, 3600e3),
    alias("l/min", 1, 60e3),
};
constexpr std::array share_units{listed("%", 1, 1e2), listed("kg/kg"), listed("g/g"),
                                 listed("g/100 g", 1, 1e2)};
constexpr std::array rate_units{listed("1/min", 1, 60), listed("1/s"), listed("1/h", 1, 3600)};
constexpr std::array specific_volume_units{
    listed("L/kg", 1, 1e3),     listed("mL/kg", 1, 1e6),   listed("mL/g", 1, 1e3),
    listed("mL/100 g", 1, 1e5), alias("l/kg", 1, 1e3),     alias("ml/kg", 1, 1e6),
    alias("ml/g", 1, 1e3),      alias("ml/100 g", 1, 1e5),
};
constexpr std::array specific_heat_units{listed("kJ/(kg K)", 1e3), listed("J/(g K)", 1e3)};
constexpr std::array heat_transfer_units{listed("W/(m2 K)"), alias("W/(m² K)")};
constexpr std::array molar_mass_units{listed("g/mol", 1, 1e3)};
constexpr std::array current_units{listed("A")};
constexpr std::array voltage_units{listed("V")};

constexpr Family mass_family{"mass", "a mass", mass_units};
constexpr Family volume_family{"volume", "a volume", volume_units};
constexpr Family temperature_family{"temperature", "a temperature", temperature_units};
constexpr Family temperature_difference_family{"temperature difference", "a temperature difference",
                                               temperature_difference_units};
constexpr Family power_family{"power", "a power", power_units};
constexpr Family energy_family{"energy", "an energy", energy_units};
constexpr Family duration_family{"time", "a time", duration_units};
constexpr Family length_family{"length", "a length", length_units};
constexpr Family area_family{"area", "an area", area_units};
constexpr Family pressure_family{"pressure", "a pressure", pressure_units};
constexpr Family density_family{"density", "a density", density_units};
constexpr Family flow_family{"flow", "a flow", flow_units};
constexpr Family share_family{"share", "a share", share_units};
constexpr Family rate_family{"rate", "a rate", rate_units};
constexpr Family specific_volume_family{"volume per mass", "a volume per mass",
                                        specific_volume_units};
constexpr Family specific_heat_family{"specific heat", "a specific heat", specific_heat_units};
constexpr Family heat_transfer_family{"heat transfer coefficient", "a heat transfer coefficient",
                                      heat_transfer_units};
constexpr Family molar_mass_family{"molar mass", "a molar mass", molar_mass_units};
constexpr Family current_family{"current", "a current", current_units};
constexpr Family voltage_family{"voltage", "a voltage", voltage_units};

/// Temperature comes before the difference, so that "K" is called a unit of temperature.
constexpr std::array<const Family*, 20> families{
    &mass_family,
    &volume_family,
    &temperature_family,
    &temperature_difference_family,
    &power_family,
    &energy_family,
    &duration_family,
    &length_family,
    &area_family,
    &pressure_family,
    &density_family,
    &flow_family,
    &share_family,
    &rate_family,
    &specific_volume_family,
    &specific_heat_family,
    &heat_transfer_family,
    &molar_mass_family,
    &current_family,
    &voltage_family,
};

template <class Q>
constexpr const Family* family_of = nullptr;
template <>
constexpr const Family* family_of<Mass> = &mass_family;
template <>
constexpr const Family* family_of<Volume> = &volume_family;
template <>
constexpr const Family* family_of<Temperature> = &temperature_family;
template <>
constexpr const Family* family_of<TemperatureDifference> = &temperature_difference_family;
template <>
constexpr const Family* family_of<Power> = &power_family;
template <>
constexpr const Family* family_of<Energy> = &energy_family;
template <>
constexpr const Family* family_of<Duration> = &duration_family;
template <>
constexpr const Family* family_of<Length> = &length_family;
template <>
constexpr const Family* family_of<Area> = &area_family;
template <>
constexpr const Family* family_of<Pressure> = &pressure_family;
template <>
constexpr const Family* family_of<Density> = &density_family;
template <>
constexpr const Family* family_of<VolumeFlow> = &flow_family;
template <>
constexpr const Family* family_of<Fraction> = &share_family;
template <>
constexpr const Family* family_of<Rate> = &rate_family;
template <>
constexpr const Family* family_of<SpecificVolume> = &specific_volume_family;
template <>
constexpr const Family* family_of<SpecificHeat> = &specific_heat_family;
template <>
constexpr const Family* family_of<HeatTransfer> = &heat_transfer_family;
template <>
constexpr const Family* family_of<MolarMass> = &molar_mass_family;
template <>
constexpr const Family* family_of<Current> = &current_family;
template <>
constexpr const Family* family_of<Voltage> = &voltage_family;

template <class Q>
Q quantity_from_si(double si) {
  if constexpr (std::is_same_v<Q, Temperature>) {
    return Temperature::from_kelvin(si);
  } else {
    return Q::from_si(si);
  }
}

// ---------------------------------------------------------------------------------------------
// Reading. Nothing here allocates, because every valid quantity goes this way.
// ---------------------------------------------------------------------------------------------

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// Length in bytes of the blank at the start of the text; 0 if there is none. A blank is a space, a
/// no-break space (U+00A0), a thin space (U+2009) or a narrow no-break space (U+202F).
std::size_t blank_length(std::string_view text) {
  if (text.starts_with(' ')) return 1;
  if (text.starts_with("\u00a0")) return 2;
  if (text.starts_with("\u2009") || text.starts_with("\u202f")) return 3;
  return 0;
}

std::string_view without_leading_blanks(std::string_view text) {
  while (const std::size_t length = blank_length(text)) text.remove_prefix(length);
  return text;
}

std::string_view without_trailing_blanks(std::string_view text) {
  for (;;) {
    if (text.ends_with(' ')) {
      text.remove_suffix(1);
    } else if (text.ends_with("\u00a0")) {
      text.remove_suffix(2);
    } else if (text.ends_with("\u2009") || text.ends_with("\u202f")) {
      text.remove_suffix(3);
    } else {
      return text;
    }
  }
}

bool is_symbol(std::string_view text, std::string_view symbol) {
  for (const char c : symbol) {
    if (c == ' ') {
      const std::string_view rest = without_leading_blanks(text);
      if (rest.size() == text.size()) return false;
      text = rest;
    } else {
      if (!text.starts_with(c)) return false;
      text.remove_prefix(1);
    }
  }
  return text.empty();
}

const Unit* find_unit(const Family& family, std::string_view text) {
  for (const Unit& unit : family.units) {
    if (is_symbol(text, unit.symbol)) return &unit;
  }
  return nullptr;
}

/// A number at the start of the text. A plus sign is allowed, which std::from_chars doesn't accept.
/// A digit or the decimal point must come next, which rules out "nan" and "inf".
struct Number {
  double value = 0.0;
  bool is_signed = false;
  bool whole = false;  ///< written with digits only
  bool found = false;  ///< the text starts with a valid number
  bool in_range = false;
};

Number take_number(std::string_view& text) {
  Number number;
  std::string_view rest = text;
  const bool negative = rest.starts_with('-');
  number.is_signed = negative || rest.starts_with('+');
  if (number.is_signed) rest.remove_prefix(1);
  if (rest.empty() || !(is_digit(rest.front()) || rest.front() == '.')) return number;
  const char* const begin = rest.data();
  const auto [end, error] = std::from_chars(begin, begin + rest.size(), number.value);
  if (error == std::errc::invalid_argument) return number;
  number.found = true;
  number.in_range = error == std::errc{} && std::isfinite(number.value);
  if (negative) number.value = -number.value;
  const auto length = static_cast<std::size_t>(end - begin);
  number.whole = rest.substr(0, length).find_first_not_of("0123456789") == std::string_view::npos;
  text = rest.substr(length);
  return number;
}

bool read_single(std::string_view text, const Family& family, double& si) {
  const Number number = take_number(text);
  if (!number.in_range) return false;
  const Unit* const unit = find_unit(family, without_leading_blanks(text));
  if (unit == nullptr) return false;
  si = unit->to_si(number.value);
  return std::isfinite(si);
}

/// Reads "1 h 20 min": units in descending order, each at most once, and no sign. Only the last
/// part may have a fraction, because a text such as "0.5 h 20 min" is usually a slip.
bool read_compound_duration(std::string_view text, double& si) {
  si = 0.0;
  double last_factor = 0.0;
  bool last_whole = true;
  while (!text.empty()) {
    const Number number = take_number(text);
    if (!number.in_range || number.is_signed || !last_whole) return false;
    text = without_leading_blanks(text);
    std::size_t length = 0;
    while (length < text.size() && text[length] >= 'a' && text[length] <= 'z') ++length;
    const Unit* const unit = find_unit(duration_family, text.substr(0, length));
    if (unit == nullptr || (last_factor > 0.0 && unit->times >= last_factor)) return false;
    si += unit->to_si(number.value);
    last_factor = unit->times;
    last_whole = number.whole;
    text = without_leading_blanks(text.substr(length));
  }
  return last_factor > 0.0 && std::isfinite(si);
}

bool read(std::string_view text, const Family& family, double& si) {
  text = without_leading_blanks(without_trailing_blanks(text));
  if (read_single(text, family, si)) return true;
  return &family == &duration_family && read_compound_duration(text, si);
}

// ---------------------------------------------------------------------------------------------
// Saying what is wrong
// ---------------------------------------------------------------------------------------------

/// Names and spellings that people write for a unit, in lower case. They are never accepted,
/// because such a list would never be complete. They only serve to name the right symbol in a hint.
struct Spelling {
  std::string_view word;
  std::string_view symbol;
};
constexpr std::array spellings{
    Spelling{"gr", "g"},
    Spelling{"gram", "g"},
    Spelling{"grams", "g"},
    Spelling{"gramme", "g"},
    Spelling{"grammes", "g"},
    Spelling{"gm", "g"},
    Spelling{"kilo", "kg"},
    Spelling{"kilos", "kg"},
    Spelling{"kilogram", "kg"},
    Spelling{"kilograms", "kg"},
    Spelling{"kgs", "kg"},
    Spelling{"ounce", "oz"},
    Spelling{"ounces", "oz"},
    Spelling{"lbs", "lb"},
    Spelling{"pound", "lb"},
    Spelling{"pounds", "lb"},
    Spelling{"litre", "L"},
    Spelling{"litres", "L"},
    Spelling{"liter", "L"},
    Spelling{"liters", "L"},
    Spelling{"millilitre", "mL"},
    Spelling{"millilitres", "mL"},
    Spelling{"milliliter", "mL"},
    Spelling{"milliliters", "mL"},
    Spelling{"cc", "mL"},
    Spelling{"ccm", "mL"},
    Spelling{"floz", "fl oz"},
    Spelling{"fl. oz", "fl oz"},
    Spelling{"fl. oz.", "fl oz"},
    Spelling{"quart", "qt"},
    Spelling{"quarts", "qt"},
    Spelling{"gallon", "gal"},
    Spelling{"gallons", "gal"},
    Spelling{"c", "°C"},
    Spelling{"f", "°F"},
    Spelling{"° c", "°C"},
    Spelling{"° f", "°F"},
    Spelling{"º"
             "c",
             "°C"},
    Spelling{"º"
             "f",
             "°F"},
    Spelling{"℃", "°C"},
    Spelling{"℉", "°F"},
    Spelling{"deg c", "°C"},
    Spelling{"deg f", "°F"},
    Spelling{"celsius", "°C"},
    Spelling{"fahrenheit", "°F"},

    Spelling{"°", "°C"},
    Spelling{"kelvin", "K"},
    Spelling{"watt", "W"},
    Spelling{"watts", "W"},
    Spelling{"kilowatt", "kW"},
    Spelling{"kilowatts", "kW"},
    Spelling{"sec", "s"},
    Spelling{"secs", "s"},
    Spelling{"second", "s"},
    Spelling{"seconds", "s"},
    Spelling{"mins", "min"},
    Spelling{"minute", "min"},
    Spelling{"minutes", "min"},
    Spelling{"hr", "h"},
    Spelling{"hrs", "h"},
    Spelling{"hour", "h"},
    Spelling{"hours", "h"},
    Spelling{"metre", "m"},
    Spelling{"metres", "m"},
    Spelling{"meter", "m"},
    Spelling{"meters", "m"},
    Spelling{"inch", "in"},
    Spelling{"inches", "in"},
    Spelling{"\"", "in"},
    Spelling{"foot", "ft"},
    Spelling{"feet", "ft"},
    Spelling{"'", "ft"},
    Spelling{"percent", "%"},
    Spelling{"per cent", "%"},
    Spelling{"pct", "%"},
    Spelling{"km", "m"},
    Spelling{"bar", "kPa"},
    Spelling{"cl", "mL"},
    Spelling{"dl", "mL"},
    Spelling{"hl", "L"},
};

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return lower;
}

std::string_view spelled_symbol(std::string_view text) {
  if (text.size() > 16) return {};
  const std::string lower = lower_case(text);
  for (const Spelling& spelling : spellings) {
    if (lower == spelling.word) return spelling.symbol;
  }
  return {};
}

/// Whether a spelling means the unit that spelled_symbol() gives, not only one of the same kind.
bool is_same_unit(std::string_view text) {
  static constexpr std::array others = {"km", "bar", "cl", "dl", "hl"};
  return std::find(others.begin(), others.end(), lower_case(text)) == others.end();
}

const Family* family_with(std::string_view symbol) {
  for (const Family* family : families) {
    if (find_unit(*family, symbol) != nullptr) return family;
  }
  return nullptr;
}

std::string wanted_text(const Family& family) {
  std::string text(family.wanted);
  text += " with its unit: ";
  std::vector<std::string_view> symbols;
  for (const Unit& unit : family.units) {
    if (!unit.alias) symbols.push_back(unit.symbol);
  }
  for (std::size_t i = 0; i < symbols.size(); ++i) {
    if (i > 0) text += i + 1 == symbols.size() ? " or " : ", ";
    text += symbols[i];
  }
  if (&family == &duration_family) text += ", or several, as in 1 h 20 min";
  return text;
}

std::vector<std::string> symbols_of(const Family& family) {
  std::vector<std::string> symbols;
  for (const Unit& unit : family.units) symbols.emplace_back(unit.symbol);
  return symbols;
}

/// A hint at what an unknown unit may mean; the family doesn't have it. The number before it may be
/// empty.
std::string unit_hint(std::string_view text, const Family& family, std::string_view number = {}) {
  if (text.empty()) return "the unit is missing";
  if (const Family* other = family_with(text)) {
    if (other == &temperature_family && &family == &temperature_difference_family) {
      return quoted(text) + " is for a point on the scale, and a difference is in K";
    }
    return quoted(text) + " is a unit of " + std::string(other->name);
  }
  if (const std::string_view symbol = spelled_symbol(text); !symbol.empty()) {
    if (find_unit(family, symbol) != nullptr) {
      if (!is_same_unit(text)) return "the nearest unit is " + std::string(symbol);
      std::string meant(number);
      if (!meant.empty()) meant += ' ';
      return "did you mean " + quoted(meant + std::string(symbol)) + "?";
    }
    if (const Family* other = family_with(symbol)) {
      return quoted(text) + " is a unit of " + std::string(other->name);
    }
  }
  if (text.size() > 24) return {};
  const std::string nearest = nearest_name(std::string(text), symbols_of(family));
  return nearest.empty() ? std::string{} : "the nearest unit is " + nearest;
}

/// A hint for a comma between two digits: a decimal comma or a thousands separator.
std::string comma_hint(std::string_view text, const Family& family) {
  const std::size_t comma = text.find(',');
  const std::size_t figures_end = text.find_first_not_of("0123456789", comma + 1);
  const std::size_t figures =
      (figures_end == std::string_view::npos ? text.size() : figures_end) - comma - 1;
  std::string with_point(text);
  with_point[comma] = '.';
  std::string without(text);
  without.erase(comma, 1);
  double si = 0.0;
  if (!read(with_point, family, si)) return "use a decimal point, not a comma";
  const bool from_zero = text.find_first_not_of("+-0") == comma;
  if (figures == 3 && !from_zero) {
    return "write numbers without a comma: " + visible(without) + " or " + visible(with_point) +
           ", whichever is meant";
  }
  return "use a decimal point, not a comma: " + visible(with_point);
}

std::string duration_hint(std::string_view text) {
  std::size_t parts = 0;
  bool any_sign = false;
  bool fraction_inside = false;
  bool last_whole = true;
  while (!text.empty()) {
    const Number number = take_number(text);
    if (!number.found) break;
    any_sign = any_sign || number.is_signed;
    fraction_inside = fraction_inside || !last_whole;
    last_whole = number.whole;
    text = without_leading_blanks(text);
    std::size_t length = 0;
    while (length < text.size() && blank_length(text.substr(length)) == 0 &&
           !is_digit(text[length])) {
      ++length;
    }
    const std::string_view word = text.substr(0, length);
    if (find_unit(duration_family, word) == nullptr) return unit_hint(word, duration_family);
    ++parts;
    text = without_leading_blanks(text.substr(length));
  }
  if (parts < 2) return {};
  if (any_sign) return "a time of several parts has no sign";
  if (fraction_inside) return "only the last part may have a fraction";
  return "go from hours down to seconds, each once";
}

std::string hint_for(std::string_view text, const Family& family) {
  if (text.empty()) return {};
  std::string_view rest = text;
  const Number number = take_number(rest);
  if (!number.found) {
    if (text.starts_with("\u2212") || text.starts_with("\u2013")) {
      return "write the minus sign as a plain hyphen";
    }
    std::string_view word = text;
    if (number.is_signed) word.remove_prefix(1);
    const std::string lower = [&] {
      std::string letters(word.substr(0, 3));
      for (char& c : letters) c = static_cast<char>(c | 0x20);
      return letters;
    }();
    if (lower == "nan" || lower == "inf") return "the number must be finite";
    if (find_unit(family, word) != nullptr) return "the number is missing";
    return "the number comes first";
  }
  const std::string_view as_written = text.substr(0, text.size() - rest.size());
  if (!number.in_range) return "the number is too large or too small";
  if (rest.starts_with(',') && rest.size() > 1 && is_digit(rest[1])) {
    return comma_hint(text, family);
  }
  if (rest.starts_with('.') || rest.starts_with(',') || rest.starts_with('\'')) {
    if (rest.size() > 1 && is_digit(rest[1])) return "use one decimal point and no other marks";
  }
  if (rest.starts_with('/') && rest.size() > 1 && is_digit(rest[1])) {
    return "write a decimal number, not a fraction";
  }
  if (rest.starts_with(':') && &family == &duration_family) return "write 1:20 as 1 h 20 min";

  rest = without_leading_blanks(rest);
  if (find_unit(family, rest) != nullptr) return "the number is too large";
  if (!rest.empty() && is_digit(rest.front()))
    return "write one number without blanks, then its unit";
  if (&family == &duration_family) return duration_hint(text);

  // "5 lb 3 oz": a known unit, followed by another number.
  std::size_t first_length = 0;
  while (first_length < rest.size() && blank_length(rest.substr(first_length)) == 0 &&
         !is_digit(rest[first_length])) {
    ++first_length;
  }
  const std::string_view first = rest.substr(0, first_length);
  const std::string_view more = without_leading_blanks(rest.substr(first_length));
  if (!more.empty() && is_digit(more.front())) {
    if (find_unit(family, first) != nullptr) return "write one number and one unit";
    if (family_with(first) != nullptr) return unit_hint(first, family);
  }
  return unit_hint(rest, family, as_written);
}

Fault fault_for(std::string_view text, const Family& family) {
  // A longer text isn't a quantity with a slip in it, so there is no point in guessing.
  constexpr std::size_t longest_explained = 60;
  Fault fault;
  fault.found = quoted(text);
  fault.wanted = wanted_text(family);
  const std::string_view trimmed = without_leading_blanks(without_trailing_blanks(text));
  if (trimmed.size() <= longest_explained) fault.hint = hint_for(trimmed, family);
  return fault;
}

Fault fault_for(double number, std::string_view unit, const Family& family) {
  std::array<char, 32> buffer{};
  const auto result = std::to_chars(buffer.data(), buffer.data() + buffer.size(), number);
  std::string text(buffer.data(), result.ptr);
  if (!unit.empty()) text += ' ' + std::string(unit);
  Fault fault;
  fault.found = quoted(text);
  fault.wanted = wanted_text(family);
  if (!std::isfinite(number)) {
    fault.hint = "the number must be finite";
  } else if (find_unit(family, unit) != nullptr) {
    fault.hint = "the number is too large";
  } else {
    fault.hint = unit_hint(unit, family);
  }
  return fault;
}

}  // namespace

template <class Q>
Parsed<Q> parse_quantity(std::string_view text) {
  Parsed<Q> parsed;
  double si = 0.0;
  if (read(text, *family_of<Q>, si)) {
    parsed.value = quantity_from_si<Q>(si);
  } else {
    parsed.fault = fault_for(text, *family_of<Q>);
  }
  return parsed;
}

template <class Q>
Parsed<Q> from_unit(double number, std::string_view symbol) {
  Parsed<Q> parsed;
  const Unit* const unit = find_unit(*family_of<Q>, symbol);
  const double si = unit == nullptr ? 0.0 : unit->to_si(number);
  if (unit != nullptr && std::isfinite(si)) {
    parsed.value = quantity_from_si<Q>(si);
  } else {
    parsed.fault = fault_for(number, symbol, *family_of<Q>);
  }
  return parsed;
}

std::optional<double> converted(double number, std::string_view from, std::string_view to) {
  for (const Family* family : families) {
    const Unit* const old_unit = find_unit(*family, from);
    const Unit* const new_unit = find_unit(*family, to);
    if (old_unit != nullptr && new_unit != nullptr) {
      return new_unit->from_si(old_unit->to_si(number));
    }
  }
  return std::nullopt;
}

template <class Q>
std::vector<std::string> unit_symbols() {
  return symbols_of(*family_of<Q>);
}

namespace {

QuantityKind kind_of(const Family& family) {
  QuantityKind kind;
  kind.name = family.name;
  kind.wanted = family.wanted;
  kind.with_unit = wanted_text(family);
  kind.in_parts = &family == &duration_family;
  kind.has_ratio = &family != &temperature_family;
  for (const Unit& unit : family.units)
    (unit.alias ? kind.aliases : kind.units).emplace_back(unit.symbol);
  return kind;
}

}  // namespace

template <class Q>
QuantityKind quantity_kind() {
  return kind_of(*family_of<Q>);
}

std::vector<QuantityKind> quantity_kinds() {
  std::vector<QuantityKind> kinds;
  for (const Family* family : families) kinds.push_back(kind_of(*family));
  return kinds;
}

#define FIRSTDROP_QUANTITY_TEXT(Q)                                       \
  template Parsed<Q> parse_quantity<Q>(std::string_view text);           \
  template Parsed<Q> from_unit<Q>(double number, std::string_view unit); \
  template std::vector<std::string> unit_symbols<Q>();                   \
  template QuantityKind quantity_kind<Q>();

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
