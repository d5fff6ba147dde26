// Makes the planner's findings. Each has a code of the table of findings, and a text only where
// somebody will read it.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>

#include "firstdrop/model/uncertainty.hpp"
#include "firstdrop/tables/finding.hpp"
#include "tables/finding_codes.hpp"

namespace firstdrop {

/// A code of data/findings.json. A code that isn't in the table doesn't compile.
class FindingCode {
 public:
  consteval FindingCode(const char* code)  // NOLINT(google-explicit-constructor): it is a text
      : code_(code) {
    if (std::ranges::find(finding_codes, text()) == std::end(finding_codes))
      throw "data/findings.json lacks this code";
  }
  constexpr std::string_view text() const { return code_; }

 private:
  const char* code_;
};

/// Makes a finding. `words` is the text, or a function that makes it. In brief only a refusal gets
/// a text.
template <class Words>
Finding finding_with_words(Detail detail, Level level, FindingCode code, const Words& words,
                           const std::optional<Amount>& value = {},
                           const std::optional<Amount>& limit = {}) {
  Finding finding{std::string(code.text()), level, {}, value, limit};
  if (detail == Detail::brief && level != Level::refuse) return finding;
  if constexpr (std::is_invocable_v<Words>) {
    finding.text = words();
  } else {
    finding.text = words;
  }
  return finding;
}

}  // namespace firstdrop
