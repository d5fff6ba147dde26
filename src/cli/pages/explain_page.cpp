#include "cli/pages/explain_page.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <set>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "cli/pages/entry_page.hpp"
#include "cli/pages/plan_page.hpp"
#include "cli/terminal.hpp"

namespace firstdrop::cli {
namespace {

// Enough digits to check a sum by hand.
std::string digits(double number) {
  return fmt::format("{:.5g}", number);
}

std::string value_and_range(const ExplainedFigure& figure) {
  const std::string unit = figure.value.unit.empty() ? "" : " " + visible(figure.value.unit);
  std::string words = digits(figure.value.number) + unit;
  if (figure.range) {
    words += fmt::format(" ({} to {})", digits(figure.range->low), digits(figure.range->high));
  }
  return words;
}

std::string chapter_title(const std::string& title, const Look& look) {
  return "\n" + styled(title, Style::strong, look) + "\n";
}

// How a figure is known, and the keys of its sources; empty for one from the recipe or from a rule.
std::string how_known(const ExplainedFigure& figure) {
  const Evidence& evidence = figure.evidence;
  if (evidence.basis.empty() && evidence.sources.empty()) return "";
  const bool equation = evidence.basis.empty() && !figure.equation.empty();
  return bracket(equation ? "equation" : to_string(evidence.known),
                 visible(joined(evidence.sources, ", ")));
}

std::string figure_lines(const ExplainedFigure& figure, const Look& look) {
  const std::string margin = "      ";
  std::string lines = wrapped(
      "  ",
      fmt::format("{} = {}, {}", figure.symbol, value_and_range(figure), visible(figure.name)),
      look);
  if (!figure.equation.empty()) lines += wrapped(margin + "= ", figure.equation, look);
  for (const std::string& words :
       {visible(figure.rule), visible(figure.evidence.basis), how_known(figure)}) {
    if (!words.empty()) lines += wrapped(margin, words, look);
  }
  return lines;
}

bool any_equation_has(const std::vector<Chapter>& chapters, const std::string& part) {
  return std::any_of(chapters.begin(), chapters.end(), [&](const Chapter& chapter) {
    return std::any_of(chapter.figures.begin(), chapter.figures.end(),
                       [&](const ExplainedFigure& figure) {
                         return figure.equation.find(part) != std::string::npos;
                       });
  });
}

std::string functions_used(const std::vector<Chapter>& chapters, const Look& look) {
  std::string lines = chapter_title("Functions of water in the equations", look);
  for (const PropertyFunction& function : property_functions()) {
    if (!any_equation_has(chapters, std::string(function.name) + "(")) continue;
    lines += wrapped(
        "  ", fmt::format("{}: {} [{}]", function.name, function.meaning, function.source.key),
        look);
  }
  return lines;
}

std::string sources_used(const std::vector<Chapter>& chapters, const Tables& tables,
                         const Look& look) {
  std::set<std::string> used;
  for (const Chapter& chapter : chapters) {
    for (const ExplainedFigure& figure : chapter.figures) {
      used.insert(figure.evidence.sources.begin(), figure.evidence.sources.end());
    }
  }
  std::string lines = chapter_title("Sources", look);
  for (const std::string& key : used) {
    const auto found = tables.sources.find(key);
    if (found == tables.sources.end()) continue;
    lines += wrapped("  " + visible(key) + "  ", visible(found->second.citation), look);
  }
  return lines;
}

std::string how_to_read(const Look& look) {
  return wrapped("",
                 "This page explains every figure of the plan, for the nominal run. Each figure "
                 "comes after those that its equation uses. The same equations give the course "
                 "over time. After a value come the 10th and 90th percentiles of its range, in "
                 "parentheses. Square brackets say how the figure is known and list the keys of "
                 "its sources. Units are metric, as in the equations.",
                 look);
}

}  // namespace

std::string explain_page(const Plan& plan, const std::vector<Chapter>& chapters,
                         const Tables& tables, const Look& look) {
  std::string head = plan_head(plan, look) + "\n";
  if (plan.verdict == Verdict::refused) {
    head += wrapped("",
                    "The findings above say why the plan is refused. Below is the plan as far as "
                    "it was made. Don't work from its amounts.",
                    look) +
            "\n";
  }
  std::string page = head + how_to_read(look);
  for (const Chapter& chapter : chapters) {
    page += chapter_title(chapter.title, look);
    for (const ExplainedFigure& figure : chapter.figures) page += figure_lines(figure, look);
  }
  return page + functions_used(chapters, look) + sources_used(chapters, tables, look);
}

}  // namespace firstdrop::cli
