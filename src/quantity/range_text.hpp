// Writes ranges for a person at the bench, as numbers_text.hpp writes single quantities.
#pragma once

#include <string>

#include "firstdrop/quantity/source.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {

/// "58 to 91 min".
template <class Quantity>
std::string span_text(const Range<Quantity>& range, Units units) {
  return span_text(text(range.low, units), text(range.high, units));
}

/// Whether both ends have the same text, so that there is no span to show.
template <class Quantity>
bool is_one_text(const Range<Quantity>& range, Units units) {
  return text(range.low, units) == text(range.high, units);
}

/// " (58 to 91 min)", to follow the median. Empty if both ends have the same text.
template <class Quantity>
std::string span_in_brackets(const Range<Quantity>& range, Units units) {
  return is_one_text(range, units) ? "" : " (" + span_text(range, units) + ")";
}

/// "62 min (58 to 91 min)": the median and its span, if there is one to show.
template <class Quantity>
std::string with_span(const Range<Quantity>& range, Units units) {
  return text(range.typical, units) + span_in_brackets(range, units);
}

/// The same within a sentence: "about 62 min (58 to 91 min)".
template <class Quantity>
std::string about(const Range<Quantity>& range, Units units) {
  return (is_one_text(range, units) ? "" : "about ") + with_span(range, units);
}

}  // namespace firstdrop
