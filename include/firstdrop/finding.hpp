// What a plan has to say beyond its numbers.
#pragma once

#include <optional>
#include <string>

namespace firstdrop {

enum class Level {
  note,     ///< good to know
  caution,  ///< the run can be made, mind this
  refuse,   ///< the run must not or cannot be made as asked
};

std::string to_string(Level level);

/// A number with its unit, for people and scripts alike.
struct Amount {
  double number = 0.0;
  std::string unit;
};

struct Finding {
  std::string code;  ///< stable; see the table in DEVELOPERS.md
  Level level = Level::note;
  std::string text;  ///< a clear sentence with the numbers and, if refused, a way out
  std::optional<Amount> value;
  std::optional<Amount> limit;
};

}  // namespace firstdrop
