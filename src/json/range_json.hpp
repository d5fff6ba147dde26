// What all reports have in JSON: ranges, and how a document becomes text.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "base/visible_text.hpp"
#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

/// {"p10": …, "p50": …, "p90": …}.
template <class T, class Unit>
nlohmann::ordered_json range_json(const Range<T>& range, Unit in_unit) {
  return {
      {"p10", in_unit(range.low)}, {"p50", in_unit(range.typical)}, {"p90", in_unit(range.high)}};
}

/// On one line, or with so many blanks for each level. Texts of a recipe that a program made may be
/// anything: what is no UTF-8 becomes U+FFFD.
inline std::string json_document(const nlohmann::ordered_json& json, int indent = -1) {
  constexpr auto replace = nlohmann::ordered_json::error_handler_t::replace;
  return without_markup(json.dump(indent, ' ', false, replace));
}

}  // namespace firstdrop
