#include "quantity/unit_table.hpp"

#include <algorithm>
#include <cstddef>

#include "quantity/unit_factors.hpp"

namespace firstdrop {

namespace {

constexpr Unit listed(std::string_view symbol, double times = 1.0, double over = 1.0) {
  return {symbol, times, over};
}
/// A unit that is read, but not offered in messages.
constexpr Unit unlisted(std::string_view symbol, double times = 1.0, double over = 1.0) {
  Unit unit{symbol, times, over};
  unit.offered = false;
  return unit;
}

constexpr double zero_celsius = 273.15;  // K

constexpr std::array mass_units{
    listed("g", 1, 1e3).also("grams?|grammes?").on(Ladder::metric_mass),
    listed("kg").also("kgs|kilos?|kilograms?|kilogrammes?").in_any_case().on(Ladder::metric_mass),
    listed("mg", 1, 1e6).also("milligrams?|milligrammes?"),
    listed("oz", kilogram_per_ounce).also("oz.|ounces?").in_any_case().on(Ladder::us_mass),
    listed("lb", kilogram_per_pound).also("lbs?.?|pounds?").in_any_case().on(Ladder::us_mass),
};
constexpr std::array volume_units{
    listed("mL", 1, 1e6).also("ml|milliliters?|millilitres?").on(Ladder::metric_volume),
    listed("L", 1, 1e3).also("l|liters?|litres?").on(Ladder::metric_volume),
    listed("cup", millilitre_per_cup, 1e6).also("cups").in_any_case().on(Ladder::us_volume),
    listed("fl oz", millilitre_per_fluid_ounce, 1e6)
        .also("floz|fl. oz.?|fluid oz.?|fluid ounces?")
        .in_any_case()
        .on(Ladder::us_volume),
    listed("qt", millilitre_per_quart, 1e6)
        .also("qts?.?|quarts?")
        .in_any_case()
        .on(Ladder::us_volume),
    listed("gal", millilitre_per_gallon, 1e6)
        .also("gals?.?|gallons?")
        .in_any_case()
        .on(Ladder::us_volume),
    listed("cm3", 1, 1e6).also("cm³|cc"),
    listed("m3").also("m³"),
    unlisted("pt", millilitre_per_pint, 1e6)
        .also("pts?.?|pints?")
        .in_any_case()
        .on(Ladder::us_volume),
    unlisted("tbsp", millilitre_per_tablespoon, 1e6)
        .also("tbsps?.?|tablespoons?")
        .in_any_case()
        .on(Ladder::us_volume),
    unlisted("tsp", millilitre_per_teaspoon, 1e6)
        .also("tsps?.?|teaspoons?")
        .in_any_case()
        .on(Ladder::us_volume),
    unlisted("cL", 1, 1e5).also("cl|centiliters?|centilitres?").on(Ladder::metric_volume),
    unlisted("dL", 1, 1e4).also("dl|deciliters?|decilitres?").on(Ladder::metric_volume),
};
constexpr std::array temperature_units{
    Unit{"°C", 1, 1, 0, zero_celsius}.also(
        "degC|C|c|° C|ºC|℃|deg.? C|degrees? C|celsius|centigrade|degrees? celsius|"
        "degrees? centigrade"),
    Unit{"°F", 5, 9, 32, zero_celsius}.also(
        "degF|F|f|° F|ºF|℉|deg.? F|degrees? F|fahrenheit|degrees? fahrenheit"),
    listed("K").also("kelvins?"),
};
constexpr std::array temperature_difference_units{listed("K").also("kelvins?")};
constexpr std::array power_units{
    listed("W").also("watts?"),
    listed("kW", 1e3).also("kilowatts?").in_any_case(),
};
constexpr std::array energy_units{
    listed("J").also("joules?"),
    listed("kJ", 1e3).also("kilojoules?"),
    listed("kWh", 3.6e6).also("kilowatt hours?").in_any_case(),
};
constexpr std::array duration_units{
    listed("s").also("secs?.?|seconds?").on(Ladder::time),
    listed("min", 60).also("mins?.?|minutes?").in_any_case().on(Ladder::time),
    listed("h", 3600).also("hrs?.?|hours?").on(Ladder::time),
};
constexpr std::array length_units{
    listed("mm", 1, 1e3).also("millimeters?|millimetres?").on(Ladder::metric_length),
    listed("cm", 1, 1e2).also("centimeters?|centimetres?").in_any_case().on(Ladder::metric_length),
    listed("m").also("meters?|metres?").on(Ladder::metric_length),
    listed("in", metre_per_inch).also("in.|inch|inches").in_any_case().on(Ladder::us_length),
    listed("ft", metre_per_foot).also("ft.|foot|feet").in_any_case().on(Ladder::us_length),
};
constexpr std::array area_units{
    listed("cm2", 1, 1e4).also("cm²|sq cm"),
    listed("m2").also("m²|sq m"),
    listed("in2", metre_per_inch* metre_per_inch).also("in²|sq in|square inch|square inches"),
    listed("ft2", metre_per_foot* metre_per_foot).also("ft²|sq ft|square foot|square feet"),
};
constexpr std::array pressure_units{
    listed("Pa"),
    listed("hPa", 1e2),
    listed("kPa", 1e3),
    listed("mbar", 1e2),
    listed("mmHg", pascal_per_mmhg).also("mm Hg"),
    listed("inHg", pascal_per_inhg).also("in Hg"),
};
constexpr std::array density_units{
    listed("g/L").also("g/l"),
    listed("kg/L", 1e3).also("kg/l"),
    listed("g/mL", 1e3).also("g/ml"),
    listed("kg/m3").also("kg/m³"),
    listed("mg/L", 1, 1e3).also("mg/l"),
    listed("oz/cup", kilogram_per_ounce * 1e6, millilitre_per_cup),
    listed("oz/qt", kilogram_per_ounce * 1e6, millilitre_per_quart),
    listed("lb/gal", kilogram_per_pound * 1e6, millilitre_per_gallon),
};
constexpr std::array flow_units{
    listed("mL/min", 1, 60e6).also("ml/min"),
    listed("L/h", 1, 3600e3).also("l/h"),
    listed("L/min", 1, 60e3).also("l/min"),
    listed("fl oz/min", millilitre_per_fluid_ounce, 60e6),
    listed("gal/min", millilitre_per_gallon, 60e6),
};
constexpr std::array share_units{
    listed("%", 1, 1e2).also("percent|per cent|pct"),
    listed("kg/kg"),
    listed("g/g"),
    listed("g/100 g", 1, 1e2),
};
constexpr std::array rate_units{listed("1/min", 1, 60), listed("1/s"), listed("1/h", 1, 3600)};
constexpr std::array specific_volume_units{
    listed("L/kg", 1, 1e3).also("l/kg"),
    listed("mL/kg", 1, 1e6).also("ml/kg"),
    listed("mL/g", 1, 1e3).also("ml/g"),
    listed("mL/100 g", 1, 1e5).also("ml/100 g"),
};
constexpr std::array specific_heat_units{listed("kJ/(kg K)", 1e3), listed("J/(g K)", 1e3)};
constexpr std::array heat_transfer_units{listed("W/(m2 K)").also("W/(m² K)")};
constexpr std::array molar_mass_units{listed("g/mol", 1, 1e3)};
constexpr std::array current_units{listed("A").also("amps?|amperes?")};
constexpr std::array voltage_units{listed("V").also("volts?")};

/// A mass as the volume of that much water.
constexpr Unit as_water(Unit mass) {
  mass.over *= kilogram_per_cubic_metre_of_water;
  return mass;
}

/// An ounce is left out: people who write "8 oz of water" mean a volume as often as a weight.
constexpr std::array water_units = [] {
  std::array<Unit, volume_units.size() + mass_units.size() - 1> all{};
  auto next = std::copy(volume_units.begin(), volume_units.end(), all.begin());
  for (const Unit& mass : mass_units)
    if (mass.symbol != "oz") *next++ = as_water(mass);
  return all;
}();

constexpr UnitFamily mass_family{"mass", "a mass", mass_units};
constexpr UnitFamily volume_family{"volume", "a volume", volume_units};
constexpr UnitFamily temperature_family{"temperature", "a temperature", temperature_units};
constexpr UnitFamily temperature_difference_family{
    "temperature difference", "a temperature difference", temperature_difference_units};
constexpr UnitFamily power_family{"power", "a power", power_units};
constexpr UnitFamily energy_family{"energy", "an energy", energy_units};
constexpr UnitFamily duration_family{"time", "a time", duration_units};
constexpr UnitFamily length_family{"length", "a length", length_units};
constexpr UnitFamily area_family{"area", "an area", area_units};
constexpr UnitFamily pressure_family{"pressure", "a pressure", pressure_units};
constexpr UnitFamily density_family{"density", "a density", density_units};
constexpr UnitFamily flow_family{"flow", "a flow", flow_units};
constexpr UnitFamily share_family{"share", "a share", share_units};
constexpr UnitFamily rate_family{"rate", "a rate", rate_units};
constexpr UnitFamily specific_volume_family{"volume per mass", "a volume per mass",
                                            specific_volume_units};
constexpr UnitFamily specific_heat_family{"specific heat", "a specific heat", specific_heat_units};
constexpr UnitFamily heat_transfer_family{"heat transfer coefficient",
                                          "a heat transfer coefficient", heat_transfer_units};
constexpr UnitFamily molar_mass_family{"molar mass", "a molar mass", molar_mass_units};
constexpr UnitFamily current_family{"current", "a current", current_units};
constexpr UnitFamily voltage_family{"voltage", "a voltage", voltage_units};
constexpr UnitFamily amount_of_water_family{"amount of water", "an amount of water", water_units,
                                            true};

constexpr std::array<const UnitFamily*, 21> all_families{
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
    &amount_of_water_family,
};

}  // namespace

template <>
const UnitFamily& family_of<Mass>() {
  return mass_family;
}
template <>
const UnitFamily& family_of<Volume>() {
  return volume_family;
}
template <>
const UnitFamily& family_of<Temperature>() {
  return temperature_family;
}
template <>
const UnitFamily& family_of<TemperatureDifference>() {
  return temperature_difference_family;
}
template <>
const UnitFamily& family_of<Power>() {
  return power_family;
}
template <>
const UnitFamily& family_of<Energy>() {
  return energy_family;
}
template <>
const UnitFamily& family_of<Duration>() {
  return duration_family;
}
template <>
const UnitFamily& family_of<Length>() {
  return length_family;
}
template <>
const UnitFamily& family_of<Area>() {
  return area_family;
}
template <>
const UnitFamily& family_of<Pressure>() {
  return pressure_family;
}
template <>
const UnitFamily& family_of<Density>() {
  return density_family;
}
template <>
const UnitFamily& family_of<VolumeFlow>() {
  return flow_family;
}
template <>
const UnitFamily& family_of<Fraction>() {
  return share_family;
}
template <>
const UnitFamily& family_of<Rate>() {
  return rate_family;
}
template <>
const UnitFamily& family_of<SpecificVolume>() {
  return specific_volume_family;
}
template <>
const UnitFamily& family_of<SpecificHeat>() {
  return specific_heat_family;
}
template <>
const UnitFamily& family_of<HeatTransfer>() {
  return heat_transfer_family;
}
template <>
const UnitFamily& family_of<MolarMass>() {
  return molar_mass_family;
}
template <>
const UnitFamily& family_of<Current>() {
  return current_family;
}
template <>
const UnitFamily& family_of<Voltage>() {
  return voltage_family;
}

const UnitFamily& water_family() {
  return amount_of_water_family;
}

std::span<const UnitFamily* const> unit_families() {
  return all_families;
}

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

// ---------------------------------------------------------------------------------------------
// Spellings
// ---------------------------------------------------------------------------------------------

namespace {

constexpr bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
constexpr char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// Whether this one of Unit::others may be in any case.
bool folds(const Unit& unit, std::string_view spelling) {
  if (unit.any_case) return true;
  const auto of_words = [](char c) { return is_letter(c) || c == ' ' || c == '.' || c == '?'; };
  return std::all_of(spelling.begin(), spelling.end(), of_words) &&
         std::count_if(spelling.begin(), spelling.end(), is_letter) >= 3;
}

/// Whether the text is this symbol, to the letter.
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

/// Whether the text is this spelling, in which a character before ? may be left out.
bool matches(std::string_view text, std::string_view spelling, bool any_case) {
  if (text.empty() || lower(text.front()) != lower(spelling.front())) return false;
  for (std::size_t i = 0; i < spelling.size(); ++i) {
    const char c = spelling[i];
    const bool may_miss = i + 1 < spelling.size() && spelling[i + 1] == '?';
    if (c == ' ') {
      const std::string_view rest = without_leading_blanks(text);
      if (rest.size() == text.size()) return false;
      text = rest;
      continue;
    }
    const bool same =
        !text.empty() && (any_case ? lower(text.front()) == lower(c) : text.front() == c);
    if (same)
      text.remove_prefix(1);
    else if (!may_miss)
      return false;
    if (may_miss) ++i;
  }
  return text.empty();
}

/// Calls `see` for each spelling in Unit::others until it returns true; whether it did.
template <class See>
bool any_other(const Unit& unit, See see) {
  std::string_view rest = unit.others;
  while (!rest.empty()) {
    const std::size_t bar = rest.find('|');
    if (see(rest.substr(0, bar))) return true;
    rest = bar == std::string_view::npos ? std::string_view() : rest.substr(bar + 1);
  }
  return false;
}

/// A spelling as a regular expression.
std::string pattern_of(std::string_view spelling, bool any_case) {
  std::string pattern;
  for (const char c : spelling) {
    if (c == ' ') {
      pattern += one_blank_pattern;
      pattern += '+';
    } else if (any_case && is_letter(c)) {
      pattern += {'[', static_cast<char>(lower(c) - 'a' + 'A'), lower(c), ']'};
    } else {
      if (std::string_view("()[]{}.*+|^$\\").find(c) != std::string_view::npos) pattern += '\\';
      pattern += c;
    }
  }
  return pattern;
}

}  // namespace

const Unit* find_symbol(const UnitFamily& family, std::string_view text) {
  for (const Unit& unit : family.units)
    if (is_symbol(text, unit.symbol)) return &unit;
  return nullptr;
}

const Unit* find_unit(const UnitFamily& family, std::string_view text, Letters letters) {
  if (const Unit* const unit = find_symbol(family, text)) return unit;
  const bool any_case = letters == Letters::any_case;
  for (const Unit& unit : family.units) {
    if (any_case && unit.any_case && matches(text, unit.symbol, true)) return &unit;
    const auto is_meant = [&](std::string_view spelling) {
      return matches(text, spelling, any_case && folds(unit, spelling));
    };
    if (any_other(unit, is_meant)) return &unit;
  }
  return nullptr;
}

std::vector<std::string> other_spellings(const Unit& unit) {
  std::vector<std::string> all;
  const auto add = [&](const auto& self, std::string before, std::string_view rest) -> void {
    const std::size_t mark = rest.find('?');
    if (mark == std::string_view::npos) {
      before += rest;
      if (before != unit.symbol) all.push_back(std::move(before));
      return;
    }
    const std::string shorter = before + std::string(rest.substr(0, mark - 1));
    self(self, shorter, rest.substr(mark + 1));
    self(self, before + std::string(rest.substr(0, mark)), rest.substr(mark + 1));
  };
  any_other(unit, [&](std::string_view spelling) {
    add(add, "", spelling);
    return false;
  });
  return all;
}

std::vector<std::string> short_spellings(const Unit& unit) {
  std::vector<std::string> all;
  any_other(unit, [&](std::string_view spelling) {
    std::string text;
    for (std::size_t i = 0; i < spelling.size(); ++i) {
      const bool may_miss = i + 1 < spelling.size() && spelling[i + 1] == '?';
      text += may_miss ? std::string("(") + spelling[i++] + ')' : std::string(1, spelling[i]);
    }
    all.push_back(std::move(text));
    return false;
  });
  return all;
}

std::string spellings_pattern(const Unit& unit) {
  std::string pattern = pattern_of(unit.symbol, unit.any_case);
  any_other(unit, [&](std::string_view spelling) {
    pattern += '|' + pattern_of(spelling, folds(unit, spelling));
    return false;
  });
  return pattern;
}

}  // namespace firstdrop
