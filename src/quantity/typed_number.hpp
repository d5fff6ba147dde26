// Numbers as people type them: "1.5", "1,5", "1/2", "1 1/2", "1½".
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace firstdrop {

/// A number at the start of a text.
struct TypedNumber {
  double value = 0.0;
  bool is_signed = false;
  bool whole = false;  ///< written with digits only
  bool found = false;  ///< the text starts with a valid number
  bool in_range = false;
};

bool is_digit(char c);

/// Takes a number with a decimal point, or none, from the start of the text. A plus sign is
/// allowed, which std::from_chars doesn't accept. A digit or the decimal point must come next,
/// which rules out "nan" and "inf". Allocates nothing.
TypedNumber take_decimal(std::string_view& text);

/// Takes a number in any of these forms:
///
/// - as take_decimal()
/// - with a decimal comma: "1,5". Not with three digits after the comma and anything but zeros
///   before it, as in "1,500", which may be 1500.
/// - a proper fraction: "1/2", "½"; see fraction_denominators
/// - a whole number from 1 up and a fraction: "1 1/2", "1-1/2", "1½". Neither has a sign.
TypedNumber take_typed_number(std::string_view& text);

/// A sign that is a fraction by itself.
struct FractionSign {
  std::string_view sign;
  int over = 0;
  int under = 1;
};
/// The fraction sign at the start of the text; null if there is none.
const FractionSign* fraction_sign(std::string_view text);

/// Whether the text starts with a digit, or with a fraction sign.
bool starts_with_figure(std::string_view text);

/// The number at the start of the text with a decimal point; empty if there is none. "1½ L" gives
/// "1.5".
std::string plain_number(std::string_view text);

// Regular expressions (ECMAScript) for the same texts, except for numbers that are too large.

/// A number with or without a sign.
std::string signed_number_pattern();
/// A number without a sign.
std::string unsigned_number_pattern();

}  // namespace firstdrop
