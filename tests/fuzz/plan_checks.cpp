#include "plan_checks.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <string>

#include "campaign/campaign_calendar.hpp"
#include "campaign/campaign_print.hpp"
#include "campaign/campaign_report.hpp"
#include "cli/pages/campaign_page.hpp"
#include "cli/pages/explain_page.hpp"
#include "cli/pages/plan_chart.hpp"
#include "cli/pages/plan_page.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "output/explain.hpp"
#include "quantity/clock_time.hpp"

namespace firstdrop::fuzz {
namespace {

using Json = nlohmann::json;

// Few samples keep the search fast. What the checks look for doesn't need many.
constexpr int few_samples = 4;

unsigned byte(std::string_view text, std::size_t i) {
  return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
}

/// Rejects C0 and C1 control characters and DEL, except the line feed. Also rejects Unicode line
/// and paragraph separators, and marks that change the direction of text.
void check_inert(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const unsigned a = byte(text, i);
    const unsigned b = byte(text, i + 1);
    const unsigned c = byte(text, i + 2);
    const bool control = (a < 0x20 && a != '\n') || a == 0x7F || (a == 0xC2 && b < 0xA0);
    const bool bidi = (a == 0xD8 && b == 0x9C) ||
                      (a == 0xE2 && b == 0x80 && (c == 0x8E || c == 0x8F)) ||
                      (a == 0xE2 && b == 0x80 && c >= 0xA8 && c <= 0xAE) ||
                      (a == 0xE2 && b == 0x81 && c >= 0xA6 && c <= 0xA9);
    if (control || bidi) broken("a character that acts on the terminal", text.substr(i, 40));
  }
}

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
         (static_cast<unsigned char>(c) & 0x80U);
}

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

/// Rejects "nan" and "inf" as words, unless the input contains them.
void check_no_wild_numbers(std::string_view page, std::string_view input) {
  const std::string given = lower(input);
  for (const std::string_view wild : {"nan", "inf"}) {
    if (given.find(wild) != std::string::npos) continue;
    for (std::size_t at = page.find(wild); at != std::string_view::npos;
         at = page.find(wild, at + 1)) {
      const bool begins = at == 0 || !is_letter(page[at - 1]);
      const std::size_t end = at + wild.size();
      if (begins && (end == page.size() || !is_letter(page[end])))
        broken("a number that is not finite", page.substr(at > 40 ? at - 40 : 0, 80));
    }
  }
}

/// Rejects null and infinite numbers. A number that isn't finite is written as null, and a plan has
/// no other use for null.
void check_numbers(const Json& node, const std::string& pointer) {
  if (node.is_null()) broken("null, which is a number that is not finite", pointer);
  if (node.is_number() && !std::isfinite(node.get<double>())) broken("not finite", pointer);
  if (!node.is_structured()) return;
  for (const auto& [key, value] : node.items()) check_numbers(value, pointer + "/" + key);
}

void check_json(const std::string& text) {
  check_inert(text);
  if (const auto markup = text.find_first_of("<>&"); markup != std::string::npos)
    broken("markup", std::string_view(text).substr(markup, 40));
  check_numbers(Json::parse(text), "");
}

/// Checks lines as RFC 5545 requires them: they end in CR LF, have at most 75 bytes, and have no
/// other control characters. Every component that begins must also end.
void check_calendar(std::string_view calendar) {
  int begun = 0;
  while (!calendar.empty()) {
    const std::size_t end = calendar.find("\r\n");
    if (end == std::string_view::npos || end > 75) broken("a line of the calendar", calendar);
    const std::string_view line = calendar.substr(0, end);
    check_inert(line);
    if (line.find('\n') != std::string_view::npos) broken("a line feed alone", line);
    if (line.starts_with("BEGIN:")) ++begun;
    if (line.starts_with("END:")) --begun;
    calendar.remove_prefix(end + 2);
  }
  if (begun != 0) broken("a component that is open", "");
}

/// The calendar without the line breaks of folding, which may be in the middle of a word.
std::string unfolded(std::string calendar) {
  for (std::size_t at = 0; (at = calendar.find("\r\n ", at)) != std::string::npos;)
    calendar.erase(at, 3);
  return calendar;
}

/// Checks that each row has 11 cells, none of which a spreadsheet could take for a formula.
void check_csv(std::string_view csv) {
  while (!csv.empty()) {
    const std::size_t end = csv.find("\r\n");
    if (end == std::string_view::npos) broken("a row without its end", csv);
    const std::string_view row = csv.substr(0, end);
    check_inert(row);
    if (std::count(row.begin(), row.end(), ',') != 10) broken("a row of other columns", row);
    if (row.find_first_of("=+@\"") != std::string_view::npos) broken("a formula", row);
    csv.remove_prefix(end + 2);
  }
}

void check_days(const CampaignPlan& plan) {
  const Bench& bench = plan.campaign.bench;
  std::optional<LocalMinute> free;
  for (const CampaignDay& day : plan.days) {
    if (!bench.is_open(day.day)) broken("a run on a day off", day_text(day.day));
    if (bench.last_day && day.day > *bench.last_day) broken("a run too late", day_text(day.day));
    if (day.needs.ice && bench.ice_per_day && *day.needs.ice > *bench.ice_per_day)
      broken("more ice than there is", day_text(day.day));
    for (const CampaignRun& run : day.runs) {
      if (run.heat_on < bench.opens(day.day) || run.done_by > bench.closes(day.day))
        broken("a run outside of hours", date_and_time(run.heat_on));
      if (free && in_minutes(bench.between_runs) >
                      static_cast<double>((run.heat_on - *free).count()) + 1e-6)
        broken("a run before the last is cleared", date_and_time(run.heat_on));
      if (run.stop > run.done_by)
        broken("a planned stop after its done_by", date_and_time(run.stop));
      if (!plan.work.at(run.work).plan.may_be_run()) broken("a run that is refused", "");
      free = run.done_by;
    }
  }
}

}  // namespace

void broken(std::string_view what, std::string_view seen) {
  std::fprintf(stderr, "BROKEN: %.*s: %.*s\n", static_cast<int>(what.size()), what.data(),
               static_cast<int>(seen.size()), seen.data());
  std::abort();
}

void check_message(std::string_view text) {
  if (text.empty()) broken("nothing said", "");
  check_inert(text);
}

const Tables& shipped_tables() {
  static const Tables tables = read_tables(embedded_table_texts());
  return tables;
}

void check_plan(const Recipe& recipe, std::string_view input) {
  const Tables& tables = shipped_tables();
  const auto plan = [&]() -> std::optional<Plan> {
    try {
      return make_plan(recipe, tables, few_samples);
    } catch (const InputError&) {
      return std::nullopt;
    } catch (const RangeError&) {
      return std::nullopt;
    }
  }();
  if (!plan) return;
  if (plan->verdict != Verdict::refused && !plan->run) broken("accepted without a run", "");

  const std::vector<Chapter> chapters = explain(*plan, tables);
  check_json(plan_json(*plan, chapters));
  const std::string page =
      cli::plan_page(*plan, cli::Look{}) + cli::explain_page(*plan, chapters, tables, cli::Look{});
  check_inert(page);
  check_no_wild_numbers(page, input);

  if (plan->verdict == Verdict::refused) {
    try {
      timeline_csv(*plan);
    } catch (const RefusedError&) {
      return;
    }
    broken("a refused plan that has amounts to work from", "");
  }
  // Text from the recipe must stay harmless text in the drawing, or be left out of it.
  const std::string drawn = run_picture(*plan) + cli::plan_chart(*plan, cli::Look{});
  check_inert(drawn);
  check_no_wild_numbers(drawn, input);

  const std::string csv = timeline_csv(*plan);
  check_csv(csv);
  check_no_wild_numbers(csv, input);
  for (const SheetFormat format : {SheetFormat::text, SheetFormat::markdown, SheetFormat::html}) {
    const std::string sheet = run_sheet(*plan, format);
    check_inert(sheet);
    check_no_wild_numbers(sheet, input);
  }
  try {
    const std::string calendar =
        run_calendar(*plan, parse_local_minute("2026-12-31T23:30").value(), {});
    check_calendar(calendar);
    check_no_wild_numbers(unfolded(calendar), input);
  } catch (const RangeError&) {  // a run past the year 9999
  }
}

void check_campaign(const Campaign& campaign, std::string_view input) {
  const auto plan = [&]() -> std::optional<CampaignPlan> {
    try {
      return plan_campaign(campaign, shipped_tables(), few_samples);
    } catch (const InputError&) {
      return std::nullopt;
    } catch (const RangeError&) {
      return std::nullopt;
    }
  }();
  if (!plan) return;
  check_days(*plan);
  check_json(campaign_json(*plan));
  for (const std::string& page :
       {cli::campaign_page(*plan, cli::Look{}), campaign_html(*plan), campaign_markdown(*plan)}) {
    check_inert(page);
    check_no_wild_numbers(page, input);
  }
  if (!plan->may_be_run()) return;
  const std::string calendar = campaign_calendar(*plan, {});
  check_calendar(calendar);
  check_no_wild_numbers(unfolded(calendar), input);
}

}  // namespace firstdrop::fuzz
