#include "firstdrop/quantity/quantity.hpp"

#include <fmt/core.h>

#include <array>
#include <ostream>
#include <string>

namespace firstdrop {
namespace {

struct NamedUnit {
  Dimensions dimensions;
  double si = 1.0;  // SI value of one unit
  const char* symbol = "";
};

constexpr std::array named_units = {
    NamedUnit{{0, 0, 0}, 1e-2, "%"},
    NamedUnit{{1, 0, 0}, 1e-3, "g"},
    NamedUnit{{0, 1, 0}, 1e-3, "mm"},
    NamedUnit{{0, 2, 0}, 1e-4, "cm2"},
    NamedUnit{{0, 3, 0}, 1e-6, "mL"},
    NamedUnit{{0, 0, 1}, 60.0, "min"},
    NamedUnit{{0, 0, -1}, 1.0 / 3600.0, "1/h"},
    NamedUnit{{0, 1, -2}, 1.0, "m/s2"},
    NamedUnit{{0, 1, -1}, 1e-2, "cm/s"},
    NamedUnit{{1, 0, -1}, 1.0 / 3600.0, "kg/h"},
    NamedUnit{{0, 3, -1}, 1.0 / 60e6, "mL/min"},
    NamedUnit{{1, 2, -2}, 1e3, "kJ"},
    NamedUnit{{1, 2, -3}, 1.0, "W"},
    NamedUnit{{1, -1, -2}, 1e3, "kPa"},
    NamedUnit{{1, -3, 0}, 1.0, "g/L"},
    NamedUnit{{-1, 3, 0}, 1e-3, "L/kg"},
    NamedUnit{{1, -1, -1}, 1.0, "Pa s"},
    NamedUnit{{0, 0, 0, 1}, 1.0, "K"},
    NamedUnit{{0, 2, -2}, 1e3, "kJ/kg"},
    NamedUnit{{0, 2, -2, -1}, 1e3, "kJ/(kg K)"},
    NamedUnit{{1, 2, -2, -1}, 1e3, "kJ/K"},
    NamedUnit{{1, 2, -3, -1}, 1.0, "W/K"},
    NamedUnit{{1, 0, -3, -1}, 1.0, "W/(m2 K)"},
    NamedUnit{{1, 0, 0, 0, -1}, 1e-3, "g/mol"},
    NamedUnit{{0, 0, 0, 0, 0, 1}, 1.0, "A"},
    NamedUnit{{1, 2, -3, 0, 0, -1}, 1.0, "V"},
};

std::string base_units(const Dimensions& dimensions) {
  std::string text;
  const auto add = [&](const char* symbol, int exponent) {
    if (exponent == 0) return;
    text += fmt::format(" {}", symbol);
    if (exponent != 1) text += std::to_string(exponent);
  };
  add("kg", dimensions.kg);
  add("m", dimensions.m);
  add("s", dimensions.s);
  add("K", dimensions.k);
  add("mol", dimensions.mol);
  add("A", dimensions.a);
  return text;
}

}  // namespace

std::ostream& write_quantity(std::ostream& out, double si, const Dimensions& dimensions) {
  for (const NamedUnit& unit : named_units) {
    if (unit.dimensions == dimensions)
      return out << fmt::format("{:.6g} {}", si / unit.si, unit.symbol);
  }
  return out << fmt::format("{:.6g}{}", si, base_units(dimensions));
}

std::ostream& operator<<(std::ostream& out, Temperature t) {
  return out << fmt::format("{:.6g} °C", in_celsius(t));
}

}  // namespace firstdrop
