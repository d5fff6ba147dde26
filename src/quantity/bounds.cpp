#include "quantity/bounds.hpp"

#include <fmt/core.h>

#include <charconv>

namespace firstdrop {

std::string plain(double number) {
  const std::string rounded = fmt::format("{:.6g}", number);
  std::from_chars(rounded.data(), rounded.data() + rounded.size(), number);
  return fmt::format("{}", number);
}

std::string bounds_text(double low, double high, const char* unit, bool above_low, bool below_high,
                        const char* least) {
  if (least != nullptr) {
    return below_high ? fmt::format("from {} to less than {} {}", least, plain(high), unit)
                      : fmt::format("from {} to {} {}", least, plain(high), unit);
  }
  if (above_low && low == 0.0 && !below_high)
    return fmt::format("above 0 and at most {} {}", plain(high), unit);
  return fmt::format("{} {} {} {} {}", above_low ? "above" : "from", plain(low),
                     !below_high ? (above_low ? "and at most" : "to")
                     : above_low ? "and below"
                                 : "to less than",
                     plain(high), unit);
}

}  // namespace firstdrop
