/// @file
/// A finished plan as text for other programs. Pure: values in, a string out.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/output/explain.hpp"
#include "firstdrop/plan/plan.hpp"

namespace firstdrop {

/// The plan as JSON, format version 1: plain numbers in keys that end in their unit, ranges as
/// p10/p50/p90, times in minutes from heat on; keys that don't apply are left out. In texts that
/// are no UTF-8 the bytes at fault become U+FFFD.
std::string plan_json(const Plan& plan);
/// The same on one line, for many of them in one file.
std::string plan_json_line(const Plan& plan);
/// The same with the explanation of every figure under the key "explain".
std::string plan_json(const Plan& plan, const std::vector<Chapter>& explained);

/// The plan's timeline as CSV (RFC 4180), under the names that it has in JSON, and "clock", the
/// local date and time when the recipe has a start. Numbers are in full; the columns always are the
/// same, and a cell is empty where its column does not apply. A refused plan has no rows.
std::string timeline_csv(const Plan& plan);

}  // namespace firstdrop
