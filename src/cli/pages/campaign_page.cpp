#include "cli/pages/campaign_page.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <vector>

#include "base/text_layout.hpp"
#include "campaign/campaign_content.hpp"
#include "cli/pages/terminal_page.hpp"

namespace firstdrop::cli {
namespace {

// The words hold no control characters, so this one can mark blanks where no line may break.
void write_line(TerminalPage& page, const std::string& first, const std::string& words) {
  std::string lines = wrapped(first, with_glue(words, "\x1f"), page.look());
  std::replace(lines.begin(), lines.end(), '\x1f', ' ');
  page.add(lines);
}

void write_head(TerminalPage& page, const CampaignContent& content) {
  std::string lines = wrapped("", content.title, page.look());
  lines.pop_back();  // its line feed
  page.title(lines);
  write_line(page, "", content.summary);
  if (!content.example.empty()) write_line(page, "", content.example);
  page.blank_line();
  page.verdict(content.verdict, content.verdict_words);
  if (content.verdict != Verdict::refused) return;
  page.heading("Why");
  for (const CampaignItem& each : content.items) {
    for (const std::string& words : each.problems)
      write_line(page, "- ", each.title + ": " + words);
  }
}

void write_item(TerminalPage& page, const CampaignItem& item) {
  write_line(page, "  ", item.title + ": " + item.order);
  write_line(page, "    ", item.subject);
  if (item.runs.empty()) {
    write_line(page, "    ", "Not to be done as asked.");
    return;
  }
  write_line(page, "    ", item.runs);
  write_line(page, "    Each   ", item.each);
  write_line(page, "    Gives  ", item.gives);
  for (const std::string& words : item.cautions) write_line(page, "    ! ", words);
}

void write_amounts(TerminalPage& page, const std::vector<CampaignAmount>& all, bool ticks) {
  constexpr int what_width = 6;
  int amount_width = 0;
  for (const CampaignAmount& one : all) {
    amount_width = std::max(amount_width, text_width(one.amount));
  }
  for (const CampaignAmount& one : all) {
    const std::string indent = !ticks ? "  " : one.to_tick ? "  [ ] " : "      ";
    const std::string amount = padded(one.amount, amount_width);
    write_line(
        page,
        indent + padded(one.what, what_width) + " " + (one.how.empty() ? one.amount : amount + " "),
        one.how);
  }
}

// Each column is as wide as its widest cell.
void write_day(TerminalPage& page, const CampaignDayList& day) {
  page.heading(day.day);
  write_amounts(page, day.ready, true);
  std::vector<CampaignRow> rows = {{"run", "heat on", "stop", "bench free", ""}};
  rows.insert(rows.end(), day.rows.begin(), day.rows.end());
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
      page.add(styled(first, Style::faint, page.look()) + "\n");
    } else {
      write_line(page, first + "  ", row.what);
    }
  }
}

void write_list(TerminalPage& page, const char* name, const std::vector<std::string>& all) {
  if (all.empty()) return;
  page.heading(name);
  for (const std::string& words : all) write_line(page, "- ", words);
}

}  // namespace

std::string campaign_page(const CampaignPlan& plan, const Look& look) {
  const CampaignContent content = campaign_content(plan);
  TerminalPage page(look);
  write_head(page, content);
  page.heading("What there is to do");
  for (const CampaignItem& item : content.items) write_item(page, item);
  if (!content.totals.empty()) {
    page.heading("In all");
    write_amounts(page, content.totals, false);
  }
  if (!content.days.empty()) page.heading("Day by day");
  for (const CampaignDayList& day : content.days) write_day(page, day);
  write_list(page, "Notes", content.notes);
  write_list(page, "Always", content.always);
  page.blank_line();
  write_line(page, "", content.footing);
  return page.written();
}

std::string campaign_head(const CampaignPlan& plan, const Look& look) {
  TerminalPage page(look);
  write_head(page, campaign_content(plan));
  return page.written();
}

}  // namespace firstdrop::cli
