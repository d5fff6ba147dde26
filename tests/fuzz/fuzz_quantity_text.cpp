// Takes any text as a quantity of each kind. A quantity that is read must be the same when it is
// written in any of its units and read again.
#include <fmt/format.h>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <type_traits>

#include "firstdrop/quantity/units.hpp"
#include "plan_checks.hpp"
#include "quantity/water_amount.hpp"

using namespace firstdrop;

namespace {

template <class Q>
double si_of(Q value) {
  if constexpr (std::is_same_v<Q, Temperature>) {
    return value.kelvin();
  } else {
    return value.si();
  }
}

void check_fault(const Fault& fault) {
  if (fault.found.empty() || fault.wanted.empty()) fuzz::broken("a fault without words", "");
  fuzz::check_message(fault.text());
}

/// The number for `si` in a unit. Every scale is linear, so two of its points are enough.
template <class Q>
double in_unit(double si, const std::string& symbol) {
  const double zero = si_of(*from_unit<Q>(0.0, symbol));
  const double one = si_of(*from_unit<Q>(1.0, symbol));
  return (si - zero) / (one - zero);
}

template <class Q>
void check(std::string_view text) {
  // The text as a unit by itself, as the tables have it.
  if (const auto one = from_unit<Q>(1.0, text); !one)
    check_fault(one.fault);
  else if (!std::isfinite(si_of(*one)))
    fuzz::broken("a unit that is not finite", text);

  const auto parsed = parse_quantity<Q>(text);
  if (!parsed) {
    check_fault(parsed.fault);
    return;
  }
  const double si = si_of(*parsed);
  if (!std::isfinite(si)) fuzz::broken("not finite", text);
  const auto padded = parse_quantity<Q>(" " + std::string(text) + "\u00a0");
  if (!padded || si_of(*padded) != si) fuzz::broken("blanks round it change it", text);
  for (const std::string& symbol : unit_symbols<Q>()) {
    const double number = in_unit<Q>(si, symbol);
    if (!std::isfinite(number) || (number != 0.0 && std::abs(number) < 1e-300)) continue;
    const std::string written = fmt::format("{} {}", number, symbol);
    const auto again = parse_quantity<Q>(written);
    // Near the largest double the unit's factor overflows, and the reader reports a fault.
    if (!again && std::abs(si) > 1e300) continue;
    if (!again) fuzz::broken("not read again", written);
    // A temperature scale has its zero elsewhere, so small numbers lose digits.
    const double scale = std::is_same_v<Q, Temperature> ? std::abs(si) + 500.0 : std::abs(si);
    if (std::abs(si_of(*again) - si) > 1e-12 * scale + 1e-300)
      fuzz::broken("another value when read again", written);
  }
}

/// A volume is the same amount as one of water.
void check_water(std::string_view text) {
  const auto water = parse_water(text);
  if (!water) check_fault(water.fault);
  const auto volume = parse_quantity<Volume>(text);
  if (volume && !(water && *water == *volume)) fuzz::broken("not the same amount of water", text);
}

template <class... Q>
void check_all(std::string_view text) {
  (check<Q>(text), ...);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  check_all<Mass, Volume, Temperature, TemperatureDifference, Power, Energy, Duration, Length, Area,
            Pressure, Density, VolumeFlow, Fraction, Rate, SpecificVolume, SpecificHeat,
            HeatTransfer, MolarMass>(text);
  check_water(text);
  return 0;
}
