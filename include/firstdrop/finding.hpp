// What a plan has to say beyond its numbers, and the table of all that it may say.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "firstdrop/source.hpp"

namespace firstdrop {

enum class Level {
  note,     ///< good to know
  caution,  ///< the run can be made, mind this
  refuse,   ///< the run must not or cannot be made as asked
};

std::string to_string(Level level);

/// Why a finding matters to people's safety, and whose guidance it follows.
struct Guidance {
  std::string reason;   ///< a sentence: how it does harm
  std::string follows;  ///< the body and its document
  Evidence evidence;
};

/// A row of the table of findings: all that can be said of a code without the plan's numbers.
struct FindingKind {
  std::vector<Level> levels;  ///< at which it occurs
  std::string meaning;
  std::string what_to_do;
  bool standing = false;  ///< holds for every run of its kind, whatever the numbers
  std::string brief;      ///< the same in few words, for a sheet; of the standing ones
  std::optional<Guidance> guidance;
};

/// A number with its unit, for people and scripts alike.
struct Amount {
  double number = 0.0;
  std::string unit;
};

struct Finding {
  std::string code;  ///< stable; a key of the table of findings
  Level level = Level::note;
  std::string text;  ///< a clear sentence with the numbers and, if refused, a way out
  std::optional<Amount> value = {};
  std::optional<Amount> limit = {};
  // Of safety only, from the table:
  std::string reason = {};
  std::string follows = {};
  bool standing = false;
  std::string brief = {};  ///< in few words, of the standing ones
};

}  // namespace firstdrop
