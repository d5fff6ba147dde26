#include "quantity/numbers_text.hpp"

#include <fmt/core.h>

#include <cmath>
#include <utility>

#include "quantity/unit_factors.hpp"

namespace firstdrop {
namespace {

constexpr double gram_per_ounce = kilogram_per_ounce * 1e3;
constexpr double ounce_per_pound = 16.0;
constexpr double fluid_ounce_per_quart = 32.0;
constexpr double fluid_ounce_per_gallon = 128.0;

// Below one ounce, US benches use grams and millilitres too.
constexpr Mass fine_mass = grams((1 - 1e-9) * gram_per_ounce);
// From 29.5 mL on, "1 fl oz" is as close as the rounded 30 mL.
constexpr Volume fine_volume = millilitres(29.5);

double in_ounces(Mass mass) {
  return in_grams(mass) / gram_per_ounce;
}
double in_fluid_ounces(Volume volume) {
  return in_millilitres(volume) / millilitre_per_fluid_ounce;
}
Mass ounces(double x) {
  return grams(x * gram_per_ounce);
}
Volume fluid_ounces(double x) {
  return millilitres(x * millilitre_per_fluid_ounce);
}

bool in_us(Mass mass, Units units) {
  return units == Units::us && std::abs(mass.si()) >= fine_mass.si();
}
bool in_us(Volume volume, Units units) {
  return units == Units::us && std::abs(volume.si()) >= fine_volume.si();
}

// Removes trailing zeros after the decimal point.
std::string trimmed(std::string number) {
  if (number.find('.') != std::string::npos) {
    number.erase(number.find_last_not_of('0') + 1);
    if (number.back() == '.') number.pop_back();
  }
  return number == "-0" ? "0" : number;
}

// Three significant digits from 1 to 1000. Larger numbers have no decimals. Smaller ones have two,
// or three below 0.1.
std::string rounded(double x) {
  const double size = std::abs(x);
  const int decimals = size >= 99.95 ? 0 : size >= 9.995 ? 1 : size >= 0.0995 ? 2 : 3;
  return trimmed(fmt::format("{:.{}f}", x, decimals));
}

std::string with_unit(double x, const char* unit) {
  return rounded(x) + " " + unit;
}

double to_nearest(double x, double step) {
  return std::round(x / step) * step;
}

// A number that is on a mark, apart from rounding errors, stays there.
double step_down(double x, double step) {
  return std::floor(x / step + 1e-9) * step;
}
double step_up(double x, double step) {
  return std::ceil(x / step - 1e-9) * step;
}

double scale_mark_g(double g) {
  return g < 100 ? 1 : g < 1e3 ? 5 : g < 1e4 ? 10 : g < 1e5 ? 100 : 1000;
}
double scale_mark_oz(double oz) {
  const double lb = oz / ounce_per_pound;
  if (lb < 1) return 0.1;
  if (lb < 2) return 0.5;
  return (lb < 9.9 ? 0.05 : lb < 99 ? 0.1 : 1) * ounce_per_pound;
}
double jug_mark_ml(double ml) {
  return ml < 5e3 ? 10 : ml < 1e4 ? 50 : ml < 1e5 ? 100 : 1000;
}
double jug_mark_floz(double floz) {
  if (floz < 8) return 0.5;
  if (floz < fluid_ounce_per_gallon) return 1;
  const double gallons = floz / fluid_ounce_per_gallon;
  if (gallons < 10) return (gallons < 2.4 ? 0.25 : 0.5) * fluid_ounce_per_quart;
  return (gallons < 99 ? 0.1 : 1) * fluid_ounce_per_gallon;
}

template <class Step>
Mass to_mark(Mass mass, Units units, Step step) {
  if (in_us(mass, units)) return ounces(step(in_ounces(mass), scale_mark_oz(in_ounces(mass))));
  const Mass mark = grams(step(in_grams(mass), scale_mark_g(in_grams(mass))));
  return in_us(mark, units) ? ounces(1) : mark;
}

template <class Step>
Volume to_mark(Volume volume, Units units, Step step) {
  if (in_us(volume, units)) {
    const double floz = in_fluid_ounces(volume);
    return fluid_ounces(step(floz, jug_mark_floz(floz)));
  }
  const double ml = in_millilitres(volume);
  // In US units, small volumes are measured with a pipette, to 1 mL.
  const Volume mark = millilitres(step(ml, units == Units::us ? 1 : jug_mark_ml(ml)));
  return in_us(mark, units) ? fluid_ounces(1) : mark;
}

}  // namespace

std::string text(Mass mass, Units units) {
  if (in_us(mass, units)) {
    const double oz = in_ounces(mass);
    if (std::abs(oz) >= 2 * ounce_per_pound - 0.05) return with_unit(oz / ounce_per_pound, "lb");
    return trimmed(fmt::format("{:.1f}", oz)) + " oz";
  }
  const double g = in_grams(mass);
  if (std::abs(g) < 0.005) return "0 g";
  if (std::abs(g) >= 999.5) return with_unit(g / 1e3, "kg");
  if (std::abs(g) >= 9.95) return fmt::format("{:.0f} g", g);
  return fmt::format("{:.{}f} g", g, std::abs(g) >= 0.995 ? 1 : 2);
}

std::string other_unit(Mass written, Mass room, Units units) {
  const double factor = units == Units::us ? ounce_per_pound : 1000.0;
  for (const bool smaller : {true, false}) {
    const Mass meant = smaller ? written / factor : written * factor;
    if (meant < room * 0.2 || meant > room) continue;  // common practice, no source
    return fmt::format("Did you mean {}? That is one run. ", text(meant, units));
  }
  return "";
}

std::string text(Volume volume, Units units) {
  if (in_us(volume, units)) {
    const double floz = in_fluid_ounces(volume);
    const double size = std::abs(floz);
    if (size >= 10 * fluid_ounce_per_gallon - 0.05) {
      return with_unit(floz / fluid_ounce_per_gallon, "gal");
    }
    if (size >= fluid_ounce_per_gallon - 0.5) return with_unit(floz / fluid_ounce_per_quart, "qt");
    return trimmed(fmt::format("{:.{}f}", floz, size >= 9.95 ? 0 : 1)) + " fl oz";
  }
  const double ml = in_millilitres(volume);
  if (std::abs(ml) < 0.005) return "0 mL";
  if (std::abs(ml) >= 999.5) return with_unit(ml / 1e3, "L");
  if (std::abs(ml) >= 99.5) return fmt::format("{:.0f} mL", to_nearest(ml, 5));
  if (std::abs(ml) >= 9.95) return fmt::format("{:.0f} mL", ml);
  return fmt::format("{:.{}f} mL", ml, std::abs(ml) >= 0.995 ? 1 : 2);
}

std::string text(Temperature temperature, Units units) {
  const double celsius = in_celsius(temperature);
  if (units == Units::us) return trimmed(fmt::format("{:.0f}", celsius * 1.8 + 32.0)) + " °F";
  return trimmed(fmt::format("{:.1f}", celsius)) + " °C";
}

std::string text(VolumeFlow flow, Units units) {
  const double ml = in_millilitres_per_minute(flow);
  if (units == Units::us) {
    const double floz = ml / millilitre_per_fluid_ounce;
    return floz >= fluid_ounce_per_quart ? with_unit(floz / fluid_ounce_per_gallon, "gal/min")
                                         : with_unit(floz, "fl oz/min");
  }
  return ml >= 999.5 ? with_unit(ml / 1e3, "L/min") : with_unit(ml, "mL/min");
}

std::string text(Area area, Units units) {
  return text_beside(area, area, units);
}

std::string text_beside(Area area, Area other, Units units) {
  const double m2 = in_square_metres(area);
  const double other_m2 = in_square_metres(other);
  if (units == Units::us) {
    constexpr double m2_per_ft2 = metre_per_foot * metre_per_foot;
    const double ft2 = m2 / m2_per_ft2;
    return other_m2 / m2_per_ft2 < 0.9995 ? with_unit(ft2 * 144.0, "in²")
                                          : fmt::format("{:.2f} ft²", ft2);
  }
  return other_m2 < 0.09995 ? with_unit(m2 * 1e4, "cm²") : fmt::format("{:.3f} m²", m2);
}

std::string text(Pressure pressure, Units units) {
  const double pa = in_pascals(pressure);
  if (pa < 1e4) return with_unit(pa, "Pa");
  return units == Units::us ? fmt::format("{:.1f} inHg", pa / pascal_per_inhg)
                            : fmt::format("{:.1f} kPa", pa / 1e3);
}

std::string text(Density density, Units units) {
  const double g_per_l = in_grams_per_litre(density);
  if (units == Units::metric) return with_unit(g_per_l, "g/L");
  return with_unit(g_per_l * millilitre_per_quart / 1e3 / gram_per_ounce, "oz/qt");
}

std::string text(SpecificVolume volume, Units units) {
  const double l_per_kg = in_litres_per_kilogram(volume);
  if (units == Units::metric) return fmt::format("{:.1f} L/kg", l_per_kg);
  return fmt::format("{:.1f} qt/lb", l_per_kg * 1e3 / millilitre_per_quart * kilogram_per_pound);
}

std::string text(Length length, Units units) {
  const double m = in_metres(length);
  if (units == Units::metric) return with_unit(m, "m");
  const double feet = m / metre_per_foot;
  return trimmed(fmt::format("{:.{}f}", feet, std::abs(feet) < 9.95 ? 1 : 0)) + " ft";
}

std::string text(Velocity velocity, Units units) {
  const double cm_per_s = in_centimetres_per_second(velocity);
  return units == Units::us ? fmt::format("{:.1f} ft/min", cm_per_s * 0.6 / metre_per_foot)
                            : fmt::format("{:.1f} cm/s", cm_per_s);
}

std::string text(Duration duration, Units /*units*/) {
  const auto total = std::llround(in_minutes(duration));
  if (total < 100) return fmt::format("{} min", total);
  const auto hours_part = total / 60;
  const auto minutes_part = total % 60;
  if (minutes_part == 0) return fmt::format("{} h", hours_part);
  return fmt::format("{} h {} min", hours_part, minutes_part);
}

std::string text(Power power, Units /*units*/) {
  const double w = in_watts(power);
  return w >= 1999.5 ? with_unit(w / 1e3, "kW") : fmt::format("{:.0f} W", w);
}

std::string text(Fraction share, Units /*units*/) {
  return fmt::format("{:.0f} %", in_percent(share));
}

std::string text(Energy energy, Units /*units*/) {
  return with_unit(in_kilowatt_hours(energy), "kWh");
}

std::string span_text(const std::string& low, const std::string& high) {
  if (low == high) return low;
  // The unit is everything after the first space, as "fl oz" has a space in it. "1 h 20 min" has
  // two numbers, so it keeps all of its units.
  const auto number_ends = [](const std::string& text) { return text.find(' '); };
  const auto one_number = [&](const std::string& text) {
    return text.find_first_of("0123456789", number_ends(text)) == std::string::npos;
  };
  const bool same_unit = one_number(low) && one_number(high) &&
                         low.substr(number_ends(low)) == high.substr(number_ends(high));
  return (same_unit ? low.substr(0, number_ends(low)) : low) + " to " + high;
}

Mass neat_down(Mass mass, Units units) {
  return to_mark(mass, units, step_down);
}
Mass neat_up(Mass mass, Units units) {
  return to_mark(mass, units, step_up);
}
Volume neat_down(Volume volume, Units units) {
  return to_mark(volume, units, step_down);
}
Volume neat_up(Volume volume, Units units) {
  return to_mark(volume, units, step_up);
}

Mass ice_up(Mass ice, Units units) {
  if (units == Units::metric) return kilograms(step_up(in_kilograms(ice), 0.1));
  const double oz = in_ounces(ice);
  return ounces(step_up(oz, oz < 2 * ounce_per_pound ? 2 : 0.1 * ounce_per_pound));
}

VolumeFlow tap_up(VolumeFlow flow, Units units) {
  const double step = units == Units::metric ? 0.1 : 0.05 * millilitre_per_gallon / 1e3;
  return millilitres_per_minute(step_up(in_litres_per_minute(flow), step) * 1e3);
}

}  // namespace firstdrop
