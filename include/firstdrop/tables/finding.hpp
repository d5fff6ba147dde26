/// @file
/// The table of findings: everything that a plan can say beyond its numbers.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

/// How serious a finding is.
enum class Level {
  note,     ///< good to know
  caution,  ///< the run can be made, but take care
  refuse,   ///< the run must not or can't be made as asked
};

/// The name in JSON, as above.
std::string to_string(Level level);

/// Why a finding matters for people's safety, and whose guidance it follows.
struct Guidance {
  std::string reason;   ///< how it does harm, in a sentence
  std::string follows;  ///< the body and its document
  Evidence evidence;    ///< sources of the guidance
};

/// A row of the table of findings: what can be said about a code without a plan's numbers.
struct FindingKind {
  std::vector<Level> levels;  ///< levels at which it occurs
  std::string meaning;        ///< what it means, in a sentence
  std::string what_to_do;     ///< in a sentence
  bool standing = false;      ///< it holds for every run of its kind, whatever the numbers
  bool danger = false;        ///< it says how still, plant or method can harm people in any run
  std::string brief;          ///< what to do, in a few words; only if standing
  std::optional<Guidance> guidance;  ///< only if it concerns safety
};

/// A number with its unit, for people and scripts.
struct Amount {
  double number = 0.0;  ///< in `unit`
  std::string unit;     ///< symbol that parse_quantity() takes; empty for a pure number
};

}  // namespace firstdrop
