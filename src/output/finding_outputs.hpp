// How findings are written, in every document that has them.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/plan/plan.hpp"
#include "output/output.hpp"

namespace firstdrop {

/// A key of the table of findings, as a regular expression.
inline constexpr const char* code_pattern = "^[a-z]+(?:-[a-z]+)*$";

/// Rules between the keys of a finding, as members of a JSON Schema.
extern const char* const finding_rules;

/// A finding, and the units of its text.
struct WrittenFinding {
  const Finding& finding;
  Units units;
};
/// The findings of a plan, which must outlive them.
std::vector<WrittenFinding> written_findings(const Plan& plan);

/// A finding in full.
const Outputs<WrittenFinding>& finding_outputs();
/// A finding that cautions or refuses, in a few keys.
const Outputs<WrittenFinding>& short_finding_outputs();

/// Whether a finding cautions or refuses.
bool is_more_than_a_note(const WrittenFinding& written);

/// The texts of standing findings and dangers. A script may want to print them unchanged.
std::vector<std::string> standing_texts(const Plan& plan);

}  // namespace firstdrop
