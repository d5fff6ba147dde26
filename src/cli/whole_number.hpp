// Whole numbers given as text on the command line or in the environment.
#pragma once

#include <fmt/core.h>

#include <charconv>
#include <string>

#include "base/visible_text.hpp"
#include "firstdrop/base/error.hpp"

namespace firstdrop::cli {

/// Reads a number from `low` to `high`. It must be the whole text, without blanks or a plus sign.
/// Throws InputError with the option's name.
template <class T = int>
T whole_number(const std::string& text, const char* option, T low, T high) {
  T number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size() || number < low || number > high) {
    throw InputError(Fault{"", "", fmt::format("{} for {}", firstdrop::quoted(text), option),
                           fmt::format("a whole number from {} to {}", low, high), "", 0, 0});
  }
  return number;
}

}  // namespace firstdrop::cli
