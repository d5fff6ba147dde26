#include "cli/pages/summary_page.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>
#include <vector>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "cli/pages/terminal_page.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop::cli {
namespace {

constexpr int summary_label_width = 9;
constexpr std::size_t most_plants = 40;  // any others share one row, to keep the page short
constexpr std::size_t longest_told = 200;

constexpr const char* nominal_words =
    "These are nominal figures: of runs in which every figure is at its median. The medians of "
    "what comes out can differ, mostly for oil. Leave out --brief, or add --samples 1280, for "
    "those, with their ranges.";

class SummaryPage : private TerminalPage {
 public:
  SummaryPage(const BatchResult& result, const RecipeGrid& grid, Units units, const Look& look)
      : TerminalPage(look, summary_label_width),
        result_(result),
        summary_(result.summary),
        grid_(grid),
        units_(units) {}

  std::string write() {
    head();
    if (grid_.varies())
      variants();
    else if (summary_.runs > 0)
      amounts();
    refused();
    broken();
    if (summary_.runs > 0) {
      blank_line();
      line("",
           "Nothing is run from here: the plan of each run has its cautions, its stop and its "
           "reserve.");
    }
    return written();
  }

 private:
  template <class Quantity>
  std::string text(Quantity quantity) const {
    return firstdrop::text(quantity, units_);
  }
  template <class Quantity>
  std::string about(const Range<Quantity>& range) const {
    const std::string typical = text(range.typical);
    const std::string span = span_text(text(range.low), text(range.high));
    return text(range.low) == text(range.high) ? typical : fmt::format("{} ({})", typical, span);
  }

  // "0.78 mL (0.09 to 3.3)": gives the unit once, if the value and its range have the same unit.
  template <class Quantity>
  std::string in_few_words(const Range<Quantity>& range) const {
    std::string words = about(range);
    const std::string typical = text(range.typical);
    const std::string unit = typical.substr(std::min(typical.find(' '), typical.size())) + ")";
    if (words.size() > typical.size() && words.ends_with(unit)) {
      words.replace(words.size() - unit.size(), unit.size(), ")");
    }
    return words;
  }

  void head() {
    const BatchSummary& s = summary_;
    title(counted(s.planned(), "plan", "plans"));
    row("Go", fmt::format("{}", s.go));
    row("Caution", fmt::format("{}", s.caution));
    row("Refused", fmt::format("{}", s.refused));
    row("Broken", counted(s.broken, "recipe", "recipes"));
  }

  void amounts() {
    const BatchSummary& s = summary_;
    heading(fmt::format("In all, for {} that may be made{}", counted(s.runs, "run", "runs"),
                        s.nominal ? ": nominal figures" : ""));
    row("Herb", text(s.herb));
    row("Water", text(s.water) + ", first fills");
    row("Ice", s.ice.high > Mass() ? about(s.ice) : "none");
    row("Energy", about(s.energy) + ", from the socket or of gas");
    row("Heat on", about(whole_hours(s.heat_on)));
    row("Hydrosol", about(s.hydrosol));
    row("Oil", about(s.oil_volume) + ", " + about(s.oil));
    plants();
    blank_line();
    line("", s.nominal ? nominal_words
                       : "Ranges are 10 % to 90 % of each run, added as if all runs erred the same "
                         "way, as they do where they share a plant's figures: the widest that the "
                         "sums can be.");
  }

  // --- a table with a row for each point of the grid

  // Leaves out columns on the right that don't fit. The left ones matter most.
  void variants() {
    heading("What if");
    if (result_.variants.empty()) {
      line("  ", fmt::format("No table of more than {} rows: without --summary each plan is a line "
                             "of JSON.",
                             most_variants));
      return;
    }
    std::vector<Column> columns;
    for (std::size_t i = 0; i < grid_.axes().size(); ++i) columns.push_back(values(i));
    const std::size_t values_end = columns.size();
    for (const auto& [name, cell] : cells()) columns.push_back(column(name, cell));
    const Column left = column("", mind);
    int room = look().width - (left.width > 0 ? left.width + 2 : 0);
    std::vector<std::string> rows(result_.variants.size() + 1);
    for (std::size_t c = 0; c < columns.size(); ++c) {
      const Column& one = columns[c];
      room -= one.width + 2;
      if (one.width == 0 || (c > values_end && room < 0)) continue;
      for (std::size_t r = 0; r < rows.size(); ++r) {
        if (c < values_end || r == 0 || result_.variants[r - 1].runs > 0)
          rows[r] += "  " + padded(one.cells[r], one.width);
      }
    }
    for (std::size_t r = 0; r < rows.size(); ++r) {
      if (r > 0 && result_.variants[r - 1].runs == 0)
        rows[r] += "  " + why_none(result_.variants[r - 1]);
      else
        rows[r] += "  " + left.cells[r];
      add(rows[r].erase(rows[r].find_last_not_of(' ') + 1) + "\n");
    }
    const auto has_range = [](const BatchSummary& one) {
      return one.oil_volume.low < one.oil_volume.high;
    };
    if (std::any_of(result_.variants.begin(), result_.variants.end(), has_range)) {
      blank_line();
      line("", "In brackets: 10 % to 90 % of such runs.");
    }
    const auto is_nominal = [](const BatchSummary& one) { return one.nominal; };
    if (std::any_of(result_.variants.begin(), result_.variants.end(), is_nominal)) {
      blank_line();
      line("", nominal_words);
    }
  }

  struct Column {
    std::vector<std::string> cells;
    int width = 0;
    void add(const std::string& cell) {
      cells.push_back(cell);
      width = std::max(width, text_width(cell));
    }
  };

  template <class Cell>
  Column column(const std::string& name, const Cell& cell) const {
    Column one;
    one.cells.push_back(name);
    for (const BatchSummary& variant : result_.variants)
      one.add(variant.runs > 0 ? cell(variant) : "");
    if (one.width > 0) one.width = std::max(one.width, text_width(name));
    return one;
  }

  Column values(std::size_t axis) const {
    Column one;
    one.add(visible(grid_.varied(0)[axis].key()));
    for (std::uint64_t i = 0; i < result_.variants.size(); ++i)
      one.add(visible(grid_.varied(i)[axis].words()));
    return one;
  }

  using Cell = std::function<std::string(const BatchSummary&)>;
  std::vector<std::pair<std::string, Cell>> cells() const {
    // Show the runs if a plan has more than one. The water of all runs is never in the pot at once.
    return {{"runs",
             [](const auto& s) {
               return s.runs > s.go + s.caution ? fmt::format("{}", s.runs) : std::string();
             }},
            {"herb", [this](const auto& s) { return text(s.herb); }},
            {"water", [this](const auto& s) { return text(s.water); }},
            {"hydrosol", [this](const auto& s) { return text(s.hydrosol.typical); }},
            {"oil", [this](const auto& s) { return in_few_words(s.oil_volume); }},
            {"heat on", [this](const auto& s) { return text(s.heat_on.typical); }},
            {"ice",
             [this](const auto& s) {
               return s.ice.high > Mass() ? text(s.ice.typical) : std::string();
             }},
            {"energy", [this](const auto& s) { return text(s.energy.typical); }}};
  }

  // The warning beside the amounts of a row: how many plans have cautions, are refused or broken.
  static std::string mind(const BatchSummary& s) {
    if (s.caution == 1 && s.planned() == 1 && s.broken == 0) return "caution";
    std::string words;
    for (const auto& [count, what] :
         {std::pair{s.caution, "caution"}, {s.refused, "refused"}, {s.broken, "broken"}}) {
      if (count > 0) words += fmt::format("{}{} {}", words.empty() ? "" : ", ", count, what);
    }
    return words;
  }

  static std::string why_none(const BatchSummary& s) {
    std::string words;
    for (const auto& [code, kind] : s.refusals) words += (words.empty() ? ": " : ", ") + code;
    return s.refused > 0 ? "refused" + visible(words) : "broken";
  }

  // --- totals, refused plans and broken recipes

  // Rounds times of a day or more to whole hours.
  static Range<Duration> whole_hours(Range<Duration> range) {
    if (range.high < hours(24)) return range;
    for (Duration* time : {&range.low, &range.typical, &range.high})
      *time = hours(std::round(in_hours(*time)));
    return range;
  }

  void plants() {
    heading("Herb to have");
    std::vector<std::pair<std::string, BatchSummary::OfPlant>> sorted(summary_.plants.begin(),
                                                                      summary_.plants.end());
    std::stable_sort(sorted.begin(), sorted.end(),
                     [](const auto& a, const auto& b) { return a.second.herb > b.second.herb; });
    BatchSummary::OfPlant others = summary_.other_plants;
    for (std::size_t i = most_plants; i < sorted.size(); ++i) {
      others.herb += sorted[i].second.herb;
      others.runs += sorted[i].second.runs;
    }
    sorted.resize(std::min(sorted.size(), most_plants));
    if (others.runs > 0) sorted.emplace_back("others", others);
    int amount_width = 0;
    for (const auto& [name, plant] : sorted)
      amount_width = std::max(amount_width, text_width(text(plant.herb)));
    for (const auto& [name, plant] : sorted) {
      line("  " + right(text(plant.herb), amount_width) + "  ",
           fmt::format("{}, {}", visible(name), counted(plant.runs, "run", "runs")));
    }
  }

  // Cuts a text from outside to a few lines.
  static std::string told(const std::string& text) {
    if (text.size() <= longest_told) return visible(text);
    std::size_t end = longest_told;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
    return visible(text.substr(0, end)) + "…";
  }

  void refused() {
    if (summary_.refusals.empty()) return;
    heading("Refused, and the first of each kind");
    for (const auto& [code, kind] : summary_.refusals) {
      line("  ", fmt::format("{}: {}", visible(code), counted(kind.plans, "plan", "plans")));
      for (const auto& [title, words] : kind.first)
        line("    - ", fmt::format("{}: {}", title.empty() ? "Untitled run" : told(title), words));
      if (kind.plans > static_cast<std::int64_t>(kind.first.size())) line("    ", "…");
    }
  }

  void broken() {
    if (summary_.first_broken.empty()) return;
    heading("Broken, and the first of them");
    for (const BrokenRecipe& recipe : summary_.first_broken) {
      std::string place = visible(recipe.file);
      if (recipe.line > 0) place += fmt::format(":{}", recipe.line);
      if (recipe.column > 0) place += fmt::format(":{}", recipe.column);
      line("  - ", fmt::format("{}: {}", place, told(recipe.reason)));
    }
    if (summary_.broken > static_cast<std::int64_t>(summary_.first_broken.size())) line("  ", "…");
  }

  const BatchResult& result_;
  const BatchSummary& summary_;
  const RecipeGrid& grid_;
  Units units_;
};

}  // namespace

std::string summary_page(const BatchResult& result, const RecipeGrid& grid, Units units,
                         const Look& look) {
  return SummaryPage(result, grid, units, look).write();
}

}  // namespace firstdrop::cli
