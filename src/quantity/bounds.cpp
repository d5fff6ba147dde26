#include "quantity/bounds.hpp"

#include <fmt/core.h>

#include <charconv>

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

std::string plain(double number) {
  const std::string rounded = fmt::format("{:.6g}", number);
  std::from_chars(rounded.data(), rounded.data() + rounded.size(), number);
  return fmt::format("{}", number);
}

template <class Q>
std::string Bounds<Q>::text() const {
  if (least) {
    return below_high
               ? fmt::format("at least {} and less than {} {}", least->words, plain(high), unit)
               : fmt::format("from {} to {} {}", least->words, plain(high), unit);
  }
  if (above_low && low == 0.0 && !below_high)
    return fmt::format("more than 0 and at most {} {}", plain(high), unit);
  return fmt::format("{} {} {} {} {}", above_low ? "more than" : "from", plain(low),
                     below_high ? "and less than" : "to", plain(high), unit);
}

// clang-format off
template struct Bounds<Fraction>;
template struct Bounds<Mass>;
template struct Bounds<Length>;
template struct Bounds<Area>;
template struct Bounds<Volume>;
template struct Bounds<Duration>;
template struct Bounds<Rate>;
template struct Bounds<VolumeFlow>;
template struct Bounds<Power>;
template struct Bounds<Pressure>;
template struct Bounds<Density>;
template struct Bounds<SpecificVolume>;
template struct Bounds<Temperature>;
template struct Bounds<TemperatureDifference>;
template struct Bounds<SpecificHeat>;
template struct Bounds<HeatTransfer>;
template struct Bounds<MolarMass>;
template struct Bounds<Current>;
template struct Bounds<Voltage>;
// clang-format on

}  // namespace firstdrop
