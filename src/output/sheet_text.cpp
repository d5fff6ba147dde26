#include "output/sheet_text.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"

namespace firstdrop {
namespace {

constexpr int width = 80;
constexpr int box_width = 26;
constexpr int margin = 4;

std::string blank_line(const std::string& unit) {
  return unit.empty() ? "________" : "________ " + unit;
}

class TextSheet {
 public:
  explicit TextSheet(const SheetContent& sheet) : sheet_(sheet) {}

  std::string write() {
    head();
    if (!sheet_.cautions.empty()) out_ += "\n";
    for (const std::string& words : sheet_.cautions) line("! ", words);
    section("Weigh and pour");
    for (const SheetAmount& a : sheet_.amounts) {
      line("[ ] " + padded(a.what, 9) + padded(a.amount, 12) + " ", a.how);
    }
    section("Set up");
    for (const std::string& words : sheet_.bench) line("[ ] ", words);
    section("Before the heat");
    for (const std::string& words : sheet_.before_heat) line("[ ] ", words);
    section("Run (ranges: 8 runs in 10)");
    steps();
    section("Write down");
    boxes();
    section("Afterwards");
    for (const std::string& words : sheet_.afterwards) line("[ ] ", words);
    if (!sheet_.labels.empty()) section("Labels");
    for (const SheetLabel& label : sheet_.labels) {
      line("    ", label.name);
      for (const std::string& words : label.lines) line("      ", words);
    }
    if (!sheet_.hazards.empty()) {
      section(sheet_.hazards_title);
      for (const std::string& words : sheet_.hazards) line("  - ", words);
    }
    out_ += "\n";
    line("", sheet_.footing);
    return std::move(out_);
  }

 private:
  void line(const std::string& first, const std::string& words) {
    // Cautions and titles have no control characters, so this one can stand for blanks that must
    // not break, between a figure and its unit.
    std::string lines = wrapped(first, with_glue(words, "\x1f"), width);
    std::replace(lines.begin(), lines.end(), '\x1f', ' ');
    out_ += lines;
  }
  void section(const std::string& name) {
    out_ += fmt::format("\n{} {} ", ++number_, name);
    out_ += std::string(static_cast<std::size_t>(std::max(0, width - text_width(name) - 4)), '-');
    out_ += "\n";
  }

  void head() {
    line("", sheet_.title);
    line("", sheet_.subject);
    if (!sheet_.example.empty()) line("", sheet_.example);
    const std::string lot = sheet_.lot.empty() ? "" : fmt::format(" Lot {}.", sheet_.lot);
    line("", fmt::format("{}.{} Day {}{}. By ______________", sheet_.verdict, lot,
                         sheet_.day.empty() ? "____-__-__" : sheet_.day,
                         sheet_.runs.empty() ? "" : ". Run ___, " + sheet_.runs));
  }

  void steps() {
    const bool clock = !sheet_.day.empty();
    for (const SheetStep& s : sheet_.steps) {
      std::string first = right(s.at, 10) + " ";
      if (clock) first += padded(s.clock, 10);
      const std::string box = s.timed ? "[__:__] " : "        ";
      const std::string range = s.range.empty() ? "" : " (" + s.range + ")";
      line(first + box, s.see.empty() ? s.act : s.see + range + " " + s.act);
      if (s.at.empty() && !sheet_.levels.empty()) {
        line(std::string(first.size(), ' ') + "        ", sheet_.levels);
      }
    }
    out_ += "\n";
    line("    ", "STOP AT " + sheet_.stop + ". " + sheet_.latest);
    line("    ", sheet_.forgotten);
    line("    ", sheet_.yield);
  }

  void boxes() {
    std::string row;
    const auto write_row = [&] {
      out_ += "    " + row.substr(0, row.find_last_not_of(' ') + 1) + "\n";
      row.clear();
    };
    for (const SheetBox& box : sheet_.boxes) {
      const std::string words = fmt::format("{} {}", box.what, blank_line(box.unit));
      // A long box takes up two places.
      const int places = text_width(words) < box_width ? 1 : 2;
      if (margin + text_width(row) + text_width(words) > width) write_row();
      row += padded(words, places * box_width);
    }
    write_row();
    out_ += "    Notes " + std::string(70, '_') + "\n";
    out_ += "    " + std::string(76, '_') + "\n";
  }

  const SheetContent& sheet_;
  std::string out_;
  int number_ = 0;
};

class MarkdownSheet {
 public:
  explicit MarkdownSheet(const SheetContent& sheet) : sheet_(sheet) {}

  std::string write() {
    head();
    if (!sheet_.cautions.empty()) out_ += "\nRead first:\n\n";
    for (const std::string& words : sheet_.cautions) out_ += "- **" + as_markdown(words) + "**\n";
    section("Weigh and pour");
    out_ += "| | | |\n| --- | ---: | --- |\n";
    for (const SheetAmount& a : sheet_.amounts) {
      out_ += fmt::format("| {} | **{}** | {} |\n", as_markdown(a.what), as_markdown(a.amount),
                          as_markdown(a.how));
    }
    section("Set up");
    tasks(sheet_.bench);
    section("Before the heat");
    tasks(sheet_.before_heat);
    section("Run (ranges: 8 runs in 10)");
    steps();
    section("Write down");
    for (const SheetBox& box : sheet_.boxes) {
      out_ += fmt::format("- {}: {}\n", as_markdown(box.what), as_markdown(blank_line(box.unit)));
    }
    out_ += "- Notes:\n";
    section("Afterwards");
    tasks(sheet_.afterwards);
    if (!sheet_.labels.empty()) section("Labels");
    for (const SheetLabel& label : sheet_.labels) {
      out_ += fmt::format("> **{}**", as_markdown(label.name));
      for (const std::string& words : label.lines) out_ += "  \n> " + as_markdown(words);
      out_ += "\n\n";
    }
    if (!sheet_.labels.empty()) out_.pop_back();
    if (!sheet_.hazards.empty()) {
      section(sheet_.hazards_title);
      for (const std::string& words : sheet_.hazards) out_ += "- " + as_markdown(words) + "\n";
    }
    out_ += "\n" + as_markdown(sheet_.footing) + "\n";
    return std::move(out_);
  }

 private:
  void head() {
    out_ += fmt::format(
        "# {}\n\n{}\n\n{}**{}.** {}day {}{}, by \\_\\_\\_\\_\\_\\_\\_\\_\n",
        as_markdown(sheet_.title), as_markdown(sheet_.subject),
        sheet_.example.empty() ? "" : fmt::format("**{}**\n\n", as_markdown(sheet_.example)),
        as_markdown(sheet_.verdict),
        sheet_.lot.empty() ? "" : fmt::format("Lot {}, ", as_markdown(sheet_.lot)),
        as_markdown(sheet_.day.empty() ? "____-__-__" : sheet_.day),
        sheet_.runs.empty() ? "" : ", run \\_\\_\\_, " + as_markdown(sheet_.runs));
  }
  void section(const std::string& name) { out_ += fmt::format("\n## {} {}\n\n", ++number_, name); }
  void tasks(const std::vector<std::string>& list) {
    for (const std::string& words : list) out_ += "- [ ] " + as_markdown(words) + "\n";
  }
  void steps() {
    const bool clock = !sheet_.day.empty();
    out_ += fmt::format("| from heat on |{} see | do | really at |\n| ---: |{} --- | --- | --- |\n",
                        clock ? " clock |" : "", clock ? " --- |" : "");
    for (const SheetStep& s : sheet_.steps) {
      const std::string range = s.range.empty() ? "" : fmt::format(" ({})", s.range);
      const std::string act = s.key ? "**" + as_markdown(s.act) + "**" : as_markdown(s.act);
      out_ += fmt::format("| {}{} |{} {} | {} | {} |\n", as_markdown(s.at), as_markdown(range),
                          clock ? fmt::format(" {} |", as_markdown(s.clock)) : "",
                          as_markdown(s.see), act, s.timed ? "\\_\\_:\\_\\_" : "");
    }
    if (!sheet_.levels.empty()) out_ += "\n" + as_markdown(sheet_.levels) + "\n";
    out_ += fmt::format("\n**Stop at {}.** {}\n\n{}\n\n{}\n", as_markdown(sheet_.stop),
                        as_markdown(sheet_.latest), as_markdown(sheet_.forgotten),
                        as_markdown(sheet_.yield));
  }

  const SheetContent& sheet_;
  std::string out_;
  int number_ = 0;
};

}  // namespace

std::string sheet_as_text(const SheetContent& sheet) {
  return TextSheet(sheet).write();
}

std::string sheet_as_markdown(const SheetContent& sheet) {
  return MarkdownSheet(sheet).write();
}

}  // namespace firstdrop
