// Shared by all JSON output: ranges as JSON, and JSON documents as text.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "base/visible_text.hpp"
#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

/// A range as {"p10": …, "p50": …, "p90": …}.
template <class T, class Unit>
nlohmann::ordered_json range_json(const Range<T>& range, Unit in_unit) {
  return {
      {"p10", in_unit(range.low)}, {"p50", in_unit(range.typical)}, {"p90", in_unit(range.high)}};
}

/// A JSON document as text: on one line, or with `indent` blanks for each level. A recipe that a
/// program built may hold any bytes in its texts. Bytes that aren't UTF-8 become U+FFFD.
inline std::string json_document(const nlohmann::ordered_json& json, int indent = -1) {
  constexpr auto replace = nlohmann::ordered_json::error_handler_t::replace;
  return without_markup(json.dump(indent, ' ', false, replace));
}

}  // namespace firstdrop
