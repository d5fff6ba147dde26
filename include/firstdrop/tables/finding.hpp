/// @file
/// What a plan has to say beyond its numbers, and the table of all that it may say.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

/// How much a finding weighs.
enum class Level {
  note,     ///< good to know
  caution,  ///< the run can be made, mind this
  refuse,   ///< the run must not or cannot be made as asked
};

/// As JSON has it: the names above.
std::string to_string(Level level);

/// Why a finding matters to people's safety, and whose guidance it follows.
struct Guidance {
  std::string reason;   ///< a sentence: how it does harm
  std::string follows;  ///< the body and its document
  Evidence evidence;    ///< its sources
};

/// A row of the table of findings: all that can be said of a code without the plan's numbers.
struct FindingKind {
  std::vector<Level> levels;         ///< at which it occurs
  std::string meaning;               ///< a sentence
  std::string what_to_do;            ///< a sentence
  bool standing = false;             ///< holds for every run of its kind, whatever the numbers
  bool danger = false;               ///< what still, plant or method can do to people in any run
  std::string brief;                 ///< the same in few words; of the standing ones
  std::optional<Guidance> guidance;  ///< of those that concern safety
};

/// A number with its unit, for people and scripts alike.
struct Amount {
  double number = 0.0;  ///< in `unit`
  std::string unit;     ///< symbol, as parse_quantity() takes it; empty for a pure number
};

/// One thing that a plan has to say.
struct Finding {
  std::string code;                  ///< stable; a key of the table of findings
  Level level = Level::note;         ///< one of those in the table
  std::string text;                  ///< a sentence with the numbers
  std::optional<Amount> value = {};  ///< what the plan has, if it is a number
  std::optional<Amount> limit = {};  ///< and what it should not go beyond
  std::string reason = {};           ///< how it does harm, from the table; of safety only
  std::string follows = {};          ///< whose guidance it follows; of safety only
  bool standing = false;             ///< holds for every run of its kind
  bool danger = false;               ///< what still, plant or method can do to people in any run
  std::string brief = {};            ///< in few words, of the standing ones
};

}  // namespace firstdrop
