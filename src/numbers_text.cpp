#include "numbers_text.hpp"

#include <fmt/format.h>

#include <cmath>

namespace firstdrop {
namespace {

// Three significant figures at most, and no more decimals than the size deserves.
std::string rounded(double x) {
  const double size = std::abs(x);
  if (size >= 99.95) return fmt::format("{:.0f}", x);
  if (size >= 9.995) return fmt::format("{:.1f}", x);
  if (size >= 0.0995) return fmt::format("{:.2f}", x);
  return fmt::format("{:.3f}", x);
}

std::string with_unit(double x, const char* unit) {
  std::string number = rounded(x);
  if (number.find('.') != std::string::npos) {
    number.erase(number.find_last_not_of('0') + 1);
    if (number.back() == '.') number.pop_back();
  }
  if (number == "-0") number = "0";
  return number + " " + unit;
}

double to_nearest(double x, double step) {
  return std::round(x / step) * step;
}

// A number that already is on a mark, but for rounding, stays there.
double down_to(double x, double step) {
  return std::floor(x / step + 1e-9) * step;
}
double up_to(double x, double step) {
  return std::ceil(x / step - 1e-9) * step;
}

double scale_mark_g(double g) {
  return g < 100 ? 1 : g < 1e3 ? 5 : g < 1e4 ? 10 : 100;
}
double jug_mark_ml(double ml) {
  return ml < 5e3 ? 10 : ml < 1e4 ? 50 : ml < 1e5 ? 100 : 1000;
}

}  // namespace

std::string text(Mass mass) {
  const double g = in_grams(mass);
  if (std::abs(g) < 0.005) return "0 g";
  if (std::abs(g) >= 999.5) return with_unit(g / 1e3, "kg");
  if (std::abs(g) >= 9.95) return fmt::format("{:.0f} g", g);
  return fmt::format("{:.{}f} g", g, std::abs(g) >= 0.995 ? 1 : 2);
}

std::string text(Volume volume) {
  const double ml = in_millilitres(volume);
  if (std::abs(ml) < 0.005) return "0 mL";
  if (std::abs(ml) >= 999.5) return with_unit(ml / 1e3, "L");
  if (std::abs(ml) >= 99.5) return fmt::format("{:.0f} mL", to_nearest(ml, 5));
  if (std::abs(ml) >= 9.95) return fmt::format("{:.0f} mL", ml);
  return fmt::format("{:.{}f} mL", ml, std::abs(ml) >= 0.995 ? 1 : 2);
}

std::string text(Duration duration) {
  const auto total = std::llround(in_minutes(duration));
  if (total < 100) return fmt::format("{} min", total);
  const auto hours_part = total / 60;
  const auto minutes_part = total % 60;
  if (minutes_part == 0) return fmt::format("{} h", hours_part);
  return fmt::format("{} h {} min", hours_part, minutes_part);
}

std::string text(Power power) {
  const double w = in_watts(power);
  return w >= 1999.5 ? with_unit(w / 1e3, "kW") : fmt::format("{:.0f} W", w);
}

std::string text(Temperature temperature) {
  const std::string tenths = fmt::format("{:.1f}", in_celsius(temperature));
  return (tenths.ends_with(".0") ? tenths.substr(0, tenths.size() - 2) : tenths) + " °C";
}

std::string text(VolumeFlow flow) {
  const double ml = in_millilitres_per_minute(flow);
  if (ml >= 999.5) return with_unit(ml / 1e3, "L/min");
  return with_unit(ml, "mL/min");
}

std::string text(Area area) {
  return fmt::format("{:.3f} m²", in_square_metres(area));
}

std::string text(Pressure pressure) {
  const double pa = in_pascals(pressure);
  return pa >= 1e4 ? fmt::format("{:.1f} kPa", pa / 1e3) : with_unit(pa, "Pa");
}

std::string text(Density density) {
  return with_unit(in_grams_per_litre(density), "g/L");
}

std::string text(Fraction share) {
  return fmt::format("{:.0f} %", in_percent(share));
}

Mass neat_down(Mass mass) {
  return grams(down_to(in_grams(mass), scale_mark_g(in_grams(mass))));
}

Mass neat_up(Mass mass) {
  return grams(up_to(in_grams(mass), scale_mark_g(in_grams(mass))));
}

Volume neat_down(Volume volume) {
  return millilitres(down_to(in_millilitres(volume), jug_mark_ml(in_millilitres(volume))));
}

Volume neat_up(Volume volume) {
  return millilitres(up_to(in_millilitres(volume), jug_mark_ml(in_millilitres(volume))));
}

std::string text(Energy energy) {
  return with_unit(in_kilowatt_hours(energy), "kWh");
}

}  // namespace firstdrop
