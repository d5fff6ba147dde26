// A range as JSON has it, for all reports: {"p10": …, "p50": …, "p90": …}.
#pragma once

#include <nlohmann/json.hpp>

#include "firstdrop/source.hpp"

namespace firstdrop {

template <class T, class Unit>
nlohmann::ordered_json range_json(const Range<T>& range, Unit in_unit) {
  return {
      {"p10", in_unit(range.low)}, {"p50", in_unit(range.typical)}, {"p90", in_unit(range.high)}};
}

}  // namespace firstdrop
