// A finding whose words are made only where somebody will read them.
#pragma once

#include <optional>
#include <type_traits>

#include "firstdrop/finding.hpp"
#include "firstdrop/spread.hpp"

namespace firstdrop {

/// `words` is the text, or a function that makes it. In brief only a refusal has it.
template <class Words>
Finding finding_with_words(Detail detail, Level level, const char* code, const Words& words,
                           const std::optional<Amount>& value = {},
                           const std::optional<Amount>& limit = {}) {
  Finding finding{code, level, {}, value, limit};
  if (detail == Detail::brief && level != Level::refuse) return finding;
  if constexpr (std::is_invocable_v<Words>) {
    finding.text = words();
  } else {
    finding.text = words;
  }
  return finding;
}

}  // namespace firstdrop
