#include "cli/pages/summary_page.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "cli/pages/terminal_page.hpp"
#include "quantity/range_text.hpp"

namespace firstdrop::cli {
namespace {

constexpr int summary_label_width = 9;
constexpr std::size_t most_plants = 40;  // any others share one row, to keep the page short
constexpr std::size_t longest_told = 200;

constexpr const char* nominal_words =
    "These are nominal figures: of runs in which every figure is at its median. The medians of "
    "what comes out can differ, mostly for oil. Leave out --brief, or add --samples 1280, for "
    "those, with their ranges.";

// "0.78 mL (0.09 to 3.3)": gives the unit once, if the value and its range have the same unit.
template <class Quantity>
std::string in_few_words(const Range<Quantity>& range, Units units) {
  std::string words = with_span(range, units);
  const std::string typical = text(range.typical, units);
  const std::string unit = typical.substr(std::min(typical.find(' '), typical.size())) + ")";
  if (words.size() > typical.size() && words.ends_with(unit)) {
    words.replace(words.size() - unit.size(), unit.size(), ")");
  }
  return words;
}

void write_counts(TerminalPage& page, const BatchSummary& s) {
  page.title(counted(s.planned(), "plan", "plans"));
  page.row("Go", fmt::format("{}", s.go));
  page.row("Caution", fmt::format("{}", s.caution));
  page.row("Refused", fmt::format("{}", s.refused));
  page.row("Broken", counted(s.broken, "recipe", "recipes"));
}

// ---- totals

// Rounds times of a day or more to whole hours.
Range<Duration> whole_hours(Range<Duration> range) {
  if (range.high < hours(24)) return range;
  for (Duration* time : {&range.low, &range.typical, &range.high})
    *time = hours(std::round(in_hours(*time)));
  return range;
}

using NamedPlant = std::pair<std::string, BatchSummary::OfPlant>;

// Those with most herb come first; the ones that have no row of their own are the last row.
std::vector<NamedPlant> plants_by_mass(const BatchSummary& s) {
  std::vector<NamedPlant> sorted(s.plants.begin(), s.plants.end());
  std::stable_sort(sorted.begin(), sorted.end(), [](const NamedPlant& a, const NamedPlant& b) {
    return a.second.herb > b.second.herb;
  });
  BatchSummary::OfPlant others = s.other_plants;
  for (std::size_t i = most_plants; i < sorted.size(); ++i) {
    others.herb += sorted[i].second.herb;
    others.runs += sorted[i].second.runs;
  }
  sorted.resize(std::min(sorted.size(), most_plants));
  if (others.runs > 0) sorted.emplace_back("others", others);
  return sorted;
}

void write_plants(TerminalPage& page, const BatchSummary& s, Units units) {
  page.heading("Herb to have");
  const std::vector<NamedPlant> plants = plants_by_mass(s);
  int amount_width = 0;
  for (const auto& [name, plant] : plants)
    amount_width = std::max(amount_width, text_width(text(plant.herb, units)));
  for (const auto& [name, plant] : plants) {
    page.line("  " + right(text(plant.herb, units), amount_width) + "  ",
              fmt::format("{}, {}", visible(name), counted(plant.runs, "run", "runs")));
  }
}

void write_totals(TerminalPage& page, const BatchSummary& s, Units units) {
  page.heading(fmt::format("In all, for {} that may be made{}", counted(s.runs, "run", "runs"),
                           s.nominal ? ": nominal figures" : ""));
  page.row("Herb", text(s.herb, units));
  page.row("Water", text(s.water, units) + ", first fills");
  page.row("Ice", s.ice.high > Mass() ? with_span(s.ice, units) : "none");
  page.row("Energy", with_span(s.energy, units) + ", from the socket or of gas");
  page.row("Heat on", with_span(whole_hours(s.heat_on), units));
  page.row("Hydrosol", with_span(s.hydrosol, units));
  page.row("Oil", with_span(s.oil_volume, units) + ", " + with_span(s.oil, units));
  write_plants(page, s, units);
  page.blank_line();
  page.line("", s.nominal
                    ? nominal_words
                    : "Ranges are 10 % to 90 % of each run, added as if all runs erred the same "
                      "way, as they do where they share a plant's figures: the widest that the "
                      "sums can be.");
}

// ---- a table with a row for each point of the grid

/// A column of the table; its first cell is its name. Its width is zero if there is nothing to
/// show.
struct Column {
  std::vector<std::string> cells;
  int width = 0;
  void add(const std::string& cell) {
    cells.push_back(cell);
    width = std::max(width, text_width(cell));
  }
};

template <class Cell>
Column column_of(const std::vector<BatchSummary>& variants, const std::string& name,
                 const Cell& cell) {
  Column one;
  one.cells.push_back(name);
  for (const BatchSummary& variant : variants) one.add(variant.runs > 0 ? cell(variant) : "");
  if (one.width > 0) one.width = std::max(one.width, text_width(name));
  return one;
}

Column values_of(const RecipeGrid& grid, std::size_t axis, std::size_t count) {
  Column one;
  one.add(visible(grid.varied(0)[axis].key()));
  for (std::uint64_t i = 0; i < count; ++i) one.add(visible(grid.varied(i)[axis].words()));
  return one;
}

// From left to right; the first ones matter most.
std::vector<Column> result_columns(const std::vector<BatchSummary>& variants, Units units) {
  const auto column = [&](const char* name, const auto& cell) {
    return column_of(variants, name, cell);
  };
  // Show the runs if a plan has more than one. The water of all runs is never in the pot at once.
  return {column("runs",
                 [](const auto& s) {
                   return s.runs > s.go + s.caution ? fmt::format("{}", s.runs) : std::string();
                 }),
          column("herb", [&](const auto& s) { return text(s.herb, units); }),
          column("water", [&](const auto& s) { return text(s.water, units); }),
          column("hydrosol", [&](const auto& s) { return text(s.hydrosol.typical, units); }),
          column("oil", [&](const auto& s) { return in_few_words(s.oil_volume, units); }),
          column("heat on", [&](const auto& s) { return text(s.heat_on.typical, units); }),
          column("ice",
                 [&](const auto& s) {
                   return s.ice.high > Mass() ? text(s.ice.typical, units) : std::string();
                 }),
          column("energy", [&](const auto& s) { return text(s.energy.typical, units); })};
}

// The warning beside the amounts of a row: how many plans have cautions, are refused or broken.
std::string mind(const BatchSummary& s) {
  if (s.caution == 1 && s.planned() == 1 && s.broken == 0) return "caution";
  std::string words;
  for (const auto& [count, what] :
       {std::pair{s.caution, "caution"}, {s.refused, "refused"}, {s.broken, "broken"}}) {
    if (count > 0) words += fmt::format("{}{} {}", words.empty() ? "" : ", ", count, what);
  }
  return words;
}

std::string why_none(const BatchSummary& s) {
  std::string words;
  for (const auto& [code, kind] : s.refusals) words += (words.empty() ? ": " : ", ") + code;
  return s.refused > 0 ? "refused" + visible(words) : "broken";
}

/// Lines of `width` characters. Leaves out results on the right that don't fit.
std::vector<std::string> variant_lines(const std::vector<BatchSummary>& variants,
                                       const RecipeGrid& grid, Units units, int width) {
  std::vector<Column> columns;
  for (std::size_t i = 0; i < grid.axes().size(); ++i) {
    columns.push_back(values_of(grid, i, variants.size()));
  }
  const std::size_t values_end = columns.size();
  for (Column& column : result_columns(variants, units)) columns.push_back(std::move(column));
  const Column warnings = column_of(variants, "", mind);
  int room = width - (warnings.width > 0 ? warnings.width + 2 : 0);
  std::vector<std::string> lines(variants.size() + 1);
  for (std::size_t c = 0; c < columns.size(); ++c) {
    const Column& one = columns[c];
    room -= one.width + 2;
    if (one.width == 0 || (c > values_end && room < 0)) continue;
    for (std::size_t r = 0; r < lines.size(); ++r) {
      if (c < values_end || r == 0 || variants[r - 1].runs > 0)
        lines[r] += "  " + padded(one.cells[r], one.width);
    }
  }
  for (std::size_t r = 0; r < lines.size(); ++r) {
    const bool none = r > 0 && variants[r - 1].runs == 0;
    lines[r] += "  " + (none ? why_none(variants[r - 1]) : warnings.cells[r]);
    lines[r].erase(lines[r].find_last_not_of(' ') + 1);
  }
  return lines;
}

void write_variants(TerminalPage& page, const std::vector<BatchSummary>& variants,
                    const RecipeGrid& grid, Units units) {
  page.heading("What if");
  if (variants.empty()) {
    page.line("  ", fmt::format("No table of more than {} rows: without --summary each plan is a "
                                "line of JSON.",
                                most_variants));
    return;
  }
  for (const std::string& line : variant_lines(variants, grid, units, page.look().width)) {
    page.add(line + "\n");
  }
  const auto note_if = [&](const auto& applies, const char* words) {
    if (std::none_of(variants.begin(), variants.end(), applies)) return;
    page.blank_line();
    page.line("", words);
  };
  note_if([](const BatchSummary& one) { return one.oil_volume.low < one.oil_volume.high; },
          "In brackets: 10 % to 90 % of such runs.");
  note_if([](const BatchSummary& one) { return one.nominal; }, nominal_words);
}

// ---- refused plans and broken recipes

// Cuts a text from outside to a few lines.
std::string told(const std::string& text) {
  if (text.size() <= longest_told) return visible(text);
  std::size_t end = longest_told;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
  return visible(text.substr(0, end)) + "…";
}

void write_refused(TerminalPage& page, const BatchSummary& s) {
  if (s.refusals.empty()) return;
  page.heading("Refused, and the first of each kind");
  for (const auto& [code, kind] : s.refusals) {
    page.line("  ", fmt::format("{}: {}", visible(code), counted(kind.plans, "plan", "plans")));
    for (const auto& [title, words] : kind.first)
      page.line("    - ",
                fmt::format("{}: {}", title.empty() ? "Untitled run" : told(title), words));
    if (kind.plans > static_cast<std::int64_t>(kind.first.size())) page.line("    ", "…");
  }
}

void write_broken(TerminalPage& page, const BatchSummary& s) {
  if (s.first_broken.empty()) return;
  page.heading("Broken, and the first of them");
  for (const BrokenRecipe& recipe : s.first_broken) {
    std::string place = visible(recipe.file);
    if (recipe.line > 0) place += fmt::format(":{}", recipe.line);
    if (recipe.column > 0) place += fmt::format(":{}", recipe.column);
    page.line("  - ", fmt::format("{}: {}", place, told(recipe.reason)));
  }
  if (s.broken > static_cast<std::int64_t>(s.first_broken.size())) page.line("  ", "…");
}

}  // namespace

std::string summary_page(const BatchResult& result, const RecipeGrid& grid, Units units,
                         const Look& look) {
  const BatchSummary& summary = result.summary;
  TerminalPage page(look, summary_label_width);
  write_counts(page, summary);
  if (grid.varies())
    write_variants(page, result.variants, grid, units);
  else if (summary.runs > 0)
    write_totals(page, summary, units);
  write_refused(page, summary);
  write_broken(page, summary);
  if (summary.runs > 0) {
    page.blank_line();
    page.line("",
              "Nothing is run from here: the plan of each run has its cautions, its stop and its "
              "reserve.");
  }
  return page.written();
}

}  // namespace firstdrop::cli
