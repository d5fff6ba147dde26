#include "output/finding_outputs.hpp"

#include <algorithm>

#include "firstdrop/output/finding_words.hpp"
#include "tables/words.hpp"

namespace firstdrop {
namespace {

using Said = Output<WrittenFinding>;

Said code() {
  return Said::words(
             "code", [](const WrittenFinding& w) { return w.finding.code(); },
             "What it is about: a key that `firstdrop findings` lists. It never changes.")
      .like(code_pattern);
}

Said text(const char* help) {
  return Said::words(
      "text", [](const WrittenFinding& w) { return finding_text(w.finding, w.units); }, help);
}

FindingAmounts amounts_of(const WrittenFinding& written) {
  return finding_amounts(written.finding);
}

// From either: some findings have only a limit.
std::string unit_of(const WrittenFinding& written) {
  const auto [value, limit] = amounts_of(written);
  return value ? value->unit : limit->unit;
}

std::optional<double> number_of(const std::optional<Amount>& amount) {
  return amount ? std::optional(amount->number) : std::nullopt;
}

}  // namespace

const char* const finding_rules = R"("dependencies": {
  "value": ["unit"],
  "limit": ["unit"],
  "unit": {"anyOf": [{"required": ["value"]}, {"required": ["limit"]}]},
  "reason": ["follows"]
})";

const Outputs<WrittenFinding>& finding_outputs() {
  static const Outputs<WrittenFinding> outputs = {
      code(),
      Said::word(
          "level", [](const WrittenFinding& w) { return w.finding.level; }, "How serious it is."),
      text("For people, with the numbers."),
      Said::amount(
          "value", as_number,
          [](const WrittenFinding& w) { return number_of(amounts_of(w).value); },
          "The number that it is about.", "there is none")
          .any_sign(),
      Said::text("unit", unit_of, "The unit of value and limit; empty for a pure number.")
          .only_when(
              [](const WrittenFinding& w) { return amounts_of(w).value || amounts_of(w).limit; },
              "it has neither"),
      Said::amount(
          "limit", as_number,
          [](const WrittenFinding& w) { return number_of(amounts_of(w).limit); },
          "The most, or the least, that would do.", "there is none")
          .any_sign(),
      Said::words(
          "reason", [](const WrittenFinding& w) { return finding_reason(w.finding); },
          "How it does harm.", "it doesn't concern safety"),
      Said::words(
          "follows", [](const WrittenFinding& w) { return finding_follows(w.finding); },
          "The organization whose guidance it follows.", "it doesn't concern safety"),
  };
  return outputs;
}

const Outputs<WrittenFinding>& short_finding_outputs() {
  static const Outputs<WrittenFinding> outputs = {
      code().in_brief(),
      Said::words(
          "level", [](const WrittenFinding& w) -> std::string { return word_of(w.finding.level); },
          "How serious it is.")
          .one_of({word_of(Level::caution), word_of(Level::refuse)})
          .in_brief(),
      text("For people. In brief, only findings that refuse have it.")
          .in_brief_when([](const WrittenFinding& w) { return w.finding.level == Level::refuse; }),
  };
  return outputs;
}

std::vector<WrittenFinding> written_findings(const Plan& plan) {
  std::vector<WrittenFinding> written;
  written.reserve(plan.findings.size());
  for (const Finding& finding : plan.findings) written.push_back({finding, plan.recipe.units});
  return written;
}

bool is_more_than_a_note(const WrittenFinding& written) {
  return written.finding.level != Level::note;
}

std::vector<std::string> standing_texts(const Plan& plan) {
  std::vector<std::string> texts;
  for (const Finding& finding : plan.findings) {
    if (finding.kind->standing || finding.kind->danger)
      texts.push_back(finding_text(finding, plan.recipe.units));
  }
  return texts;
}

}  // namespace firstdrop
