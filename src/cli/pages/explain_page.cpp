#include "cli/pages/explain_page.hpp"

#include <fmt/core.h>

#include <set>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "cli/pages/entry_page.hpp"
#include "cli/pages/plan_page.hpp"
#include "cli/pages/terminal_page.hpp"

namespace firstdrop::cli {
namespace {

// Enough digits to check a sum by hand.
std::string digits(double number) {
  return fmt::format("{:.5g}", number);
}

class ExplainPage : private TerminalPage {
 public:
  ExplainPage(const Tables& tables, const Look& look) : TerminalPage(look), tables_(tables) {}

  std::string write(const std::vector<Chapter>& chapters) {
    line("",
         "Every figure of this plan, at the typical point of all ranges, in the order in which one "
         "rests on another; the course over time is the same equations at other times. After a "
         "value stand the 10th and 90th percentile of its range, in "
         "brackets how it is known and the keys of its sources. Units are metric, as the equations "
         "are.");
    for (const Chapter& chapter : chapters) {
      heading(chapter.title);
      for (const ExplainedFigure& figure : chapter.figures) show(figure);
    }
    functions(chapters);
    sources();
    return written();
  }

 private:
  static std::string value(const ExplainedFigure& figure) {
    const std::string unit = figure.value.unit.empty() ? "" : " " + visible(figure.value.unit);
    std::string words = digits(figure.value.number) + unit;
    if (figure.range) {
      words += fmt::format(" ({} to {})", digits(figure.range->low), digits(figure.range->high));
    }
    return words;
  }

  void show(const ExplainedFigure& figure) {
    line("  ", fmt::format("{} = {}, {}", figure.symbol, value(figure), visible(figure.name)));
    if (!figure.equation.empty()) line("      = ", figure.equation);
    if (!figure.rule.empty()) line("      ", visible(figure.rule));
    if (!figure.evidence.basis.empty()) line("      ", visible(figure.evidence.basis));
    const Evidence& evidence = figure.evidence;
    if (evidence.basis.empty() && evidence.sources.empty()) return;  // from the recipe, or a rule
    used_.insert(evidence.sources.begin(), evidence.sources.end());
    const bool equation = evidence.basis.empty() && !figure.equation.empty();
    const std::string how = equation ? "equation" : to_string(evidence.known);
    line("      ", bracket(how, visible(joined(evidence.sources, ", "))));
  }

  void functions(const std::vector<Chapter>& chapters) {
    heading("Functions of water in the equations");
    for (const PropertyFunction& function : property_functions()) {
      bool named = false;
      for (const Chapter& chapter : chapters) {
        for (const ExplainedFigure& figure : chapter.figures) {
          named = named || figure.equation.find(function.name + "(") != std::string::npos;
        }
      }
      if (named)
        line("  ", fmt::format("{}: {} [{}]", function.name, function.meaning, function.source));
    }
  }

  void sources() {
    heading("Sources");
    for (const std::string& key : used_) {
      const auto found = tables_.sources.find(key);
      if (found == tables_.sources.end()) continue;
      line("  " + visible(key) + "  ", visible(found->second.citation));
    }
  }

  const Tables& tables_;
  std::set<std::string> used_;
};

}  // namespace

std::string explain_page(const Plan& plan, const std::vector<Chapter>& chapters,
                         const Tables& tables, const Look& look) {
  std::string head = plan_head(plan, look) + "\n";
  if (plan.verdict == Verdict::refused) {
    head +=
        wrapped("",
                "Why it is refused stands above; here is the plan as far as it was made. They are "
                "no amounts to work from.",
                look) +
        "\n";
  }
  return head + ExplainPage(tables, look).write(chapters);
}

}  // namespace firstdrop::cli
