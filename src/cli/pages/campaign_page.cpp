#include "cli/pages/campaign_page.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <vector>

#include "base/text_layout.hpp"
#include "campaign/campaign_content.hpp"
#include "cli/pages/terminal_page.hpp"

namespace firstdrop::cli {
namespace {

class CampaignPage : private TerminalPage {
 public:
  CampaignPage(const CampaignPlan& plan, const Look& look)
      : TerminalPage(look), content_(campaign_content(plan)) {}

  std::string write_head() {
    head();
    problems();
    return written();
  }

  std::string write() {
    write_head();
    heading("What there is to do");
    for (const CampaignItem& each : content_.items) item(each);
    if (!content_.totals.empty()) {
      heading("In all");
      amounts(content_.totals, false);
    }
    if (!content_.days.empty()) heading("Day by day");
    for (const CampaignDayList& each : content_.days) day(each);
    list("Notes", content_.notes);
    list("Always", content_.always);
    blank_line();
    line("", content_.footing);
    return written();
  }

 private:
  void line(const std::string& first, const std::string& words) {
    // The words hold no control characters, so this one can mark blanks where no line may break.
    std::string lines = wrapped(first, with_glue(words, "\x1f"), look());
    std::replace(lines.begin(), lines.end(), '\x1f', ' ');
    add(lines);
  }

  void head() {
    std::string lines = wrapped("", content_.title, look());
    lines.pop_back();  // its line feed
    title(lines);
    line("", content_.summary);
    if (!content_.example.empty()) line("", content_.example);
    blank_line();
    verdict(content_.verdict, content_.verdict_words);
  }

  void problems() {
    if (content_.verdict != Verdict::refused) return;
    heading("Why");
    for (const CampaignItem& each : content_.items) {
      for (const std::string& words : each.problems) line("- ", each.title + ": " + words);
    }
  }

  void item(const CampaignItem& each) {
    line("  ", each.title + ": " + each.order);
    line("    ", each.subject);
    if (each.runs.empty()) {
      line("    ", "Not to be done as asked.");
      return;
    }
    line("    ", each.runs);
    line("    Each   ", each.each);
    line("    Gives  ", each.gives);
    for (const std::string& words : each.cautions) line("    ! ", words);
  }

  void amounts(const std::vector<CampaignAmount>& all, bool ticks) {
    constexpr int what_width = 6;
    int amount_width = 0;
    for (const CampaignAmount& one : all) {
      amount_width = std::max(amount_width, text_width(one.amount));
    }
    for (const CampaignAmount& one : all) {
      const std::string indent = !ticks ? "  " : one.to_tick ? "  [ ] " : "      ";
      const std::string amount = padded(one.amount, amount_width);
      line(indent + padded(one.what, what_width) + " " +
               (one.how.empty() ? one.amount : amount + " "),
           one.how);
    }
  }

  // Each column is as wide as its widest cell.
  void day(const CampaignDayList& each) {
    heading(each.day);
    amounts(each.ready, true);
    std::vector<CampaignRow> rows = {{"run", "heat on", "stop", "bench free", ""}};
    rows.insert(rows.end(), each.rows.begin(), each.rows.end());
    const auto width = [&](std::string CampaignRow::*cell) {
      int widest = 0;
      for (const CampaignRow& row : rows) widest = std::max(widest, text_width(row.*cell));
      return widest;
    };
    const int number = width(&CampaignRow::number);
    const int heat_on = width(&CampaignRow::heat_on);
    const int stop = width(&CampaignRow::stop);
    const int done_by = width(&CampaignRow::done_by);
    for (const CampaignRow& row : rows) {
      const std::string first =
          fmt::format("  {}  {}  {}  {}", right(row.number, number), padded(row.heat_on, heat_on),
                      padded(row.stop, stop), padded(row.done_by, done_by));
      if (row.what.empty()) {
        add(styled(first, Style::faint, look()) + "\n");
      } else {
        line(first + "  ", row.what);
      }
    }
  }

  void list(const char* name, const std::vector<std::string>& all) {
    if (all.empty()) return;
    heading(name);
    for (const std::string& words : all) line("- ", words);
  }

  const CampaignContent content_;
};

}  // namespace

std::string campaign_page(const CampaignPlan& plan, const Look& look) {
  return CampaignPage(plan, look).write();
}

std::string campaign_head(const CampaignPlan& plan, const Look& look) {
  return CampaignPage(plan, look).write_head();
}

}  // namespace firstdrop::cli
