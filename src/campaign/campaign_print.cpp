#include "campaign/campaign_print.hpp"

#include <fmt/core.h>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "campaign/campaign_content.hpp"
#include "output/bench_words.hpp"
#include "output/html_page.hpp"

namespace firstdrop {
namespace {

// A day is not split over two pages.
constexpr const char* style = R"(
@page { margin: 9mm 12mm; }
body { font-size: 9.5pt; line-height: 1.25; max-width: 186mm; }
h1 { font-size: 17pt; }
h2 { font-size: 11pt; margin: 4mm 0 1mm; break-after: avoid; }
h3 { font-size: 10pt; margin: 0 0 0.8mm; overflow-wrap: anywhere; }
.head { grid-template-columns: 1fr fit-content(90mm); }
.verdict { padding: 0.3mm 1.5mm; }
.first { padding: 0.8mm 2mm 1mm; margin-top: 2mm; }
.item, .day { break-inside: avoid; }
.item { margin-bottom: 1.8mm; overflow-wrap: anywhere; }
.item dl { display: grid; grid-template-columns: 14mm 1fr; }
.item dt { font-weight: bold; }
.item dd { margin: 0; }
.marked li { padding-left: 3mm; text-indent: -3mm; overflow-wrap: anywhere; }
.warn li::before { content: "! "; font-weight: bold; }
.plain li::before { content: "- "; }
.amount { padding: 0.6mm 1.6mm 0.8mm; flex: 1 1 30mm; }
.amount dd { overflow-wrap: anywhere; }
.amount dd.figure { font-size: 14pt; }
.day { border: 0.3mm solid #000; padding: 1.2mm 2mm 1.6mm; margin-bottom: 2mm; }
.day .amount { border-width: 0.2mm; flex: 1 1 26mm; padding: 0.4mm 1.4mm; }
.day .amount dd.figure { font-size: 12pt; }
table { margin-top: 1.2mm; }
th { font-size: 8pt; }
td { padding: 0.5mm 2mm 0.5mm 0; overflow-wrap: anywhere; }
td.clock { font-size: 11pt; font-weight: bold; white-space: nowrap; width: 1%; }
td.box { width: 17mm; border: 0.2mm solid #000; }
.two { display: grid; grid-template-columns: 1fr 1fr; gap: 0 6mm; }
.two, .two li { break-inside: avoid; }
.foot { font-size: 8.5pt; margin-top: 2mm; }
)";

std::string verdict_text(const CampaignContent& content) {
  return fmt::format("{}: {}", verdict_in_words(content.verdict), content.verdict_words);
}

class HtmlPage {
 public:
  explicit HtmlPage(const CampaignContent& content) : content_(content) {}

  std::string write() {
    add(html_head("Campaign: " + marked_up(content_.title), style));
    add(fmt::format(
        "<header class=\"head\">\n<div><h1>{}</h1>\n<p>{}</p>{}</div>\n"
        "<p class=\"verdict\">{}</p>\n</header>\n<main>\n",
        marked_up(content_.title), marked_up(content_.summary),
        content_.example.empty() ? ""
                                 : fmt::format("\n<p><b>{}</b></p>", marked_up(content_.example)),
        marked_up(verdict_text(content_))));
    problems();
    add("<h2>What there is to do</h2>\n");
    for (const CampaignItem& each : content_.items) item(each);
    if (!content_.totals.empty()) {
      add("<h2>In all</h2>\n");
      amounts(content_.totals, false);
    }
    if (!content_.days.empty()) add("<h2>Day by day</h2>\n");
    for (const CampaignDayList& each : content_.days) day(each);
    add("<section class=\"two\">\n");
    list("Notes", content_.notes);
    list("Always", content_.always);
    add("</section>\n");
    add(fmt::format("<p class=\"foot\">{}</p>\n</main>\n</body>\n</html>\n",
                    marked_up(content_.footing)));
    return std::move(out_);
  }

 private:
  void add(const std::string& markup) { out_ += markup; }

  void bullets(const char* kind, const std::vector<std::string>& all) {
    if (all.empty()) return;
    add(fmt::format("<ul class=\"marked {}\">\n", kind));
    for (const std::string& words : all) add(fmt::format("<li>{}</li>\n", marked_up(words)));
    add("</ul>\n");
  }

  void problems() {
    if (content_.verdict != Verdict::refused) return;
    add("<section class=\"first\">\n<h2>Why not</h2>\n");
    for (const CampaignItem& each : content_.items) {
      if (each.problems.empty()) continue;
      add(fmt::format("<h3>{}</h3>\n", marked_up(each.title)));
      bullets("warn", each.problems);
    }
    add("</section>\n");
  }

  void item(const CampaignItem& each) {
    add(fmt::format("<section class=\"item\">\n<h3>{}: {}</h3>\n<p>{}</p>\n", marked_up(each.title),
                    marked_up(each.order), marked_up(each.subject)));
    if (each.runs.empty()) {
      add("<p><b>Not to be done as asked.</b></p>\n</section>\n");
      return;
    }
    add(
        fmt::format("<dl><dt>Runs</dt><dd><b>{}</b></dd><dt>Each</dt><dd>{}</dd>"
                    "<dt>Gives</dt><dd>{}</dd></dl>\n",
                    marked_up(each.runs), marked_up(each.each), marked_up(each.gives)));
    bullets("warn", each.cautions);
    add("</section>\n");
  }

  void amounts(const std::vector<CampaignAmount>& all, bool ticks) {
    add("<div class=\"amounts\">\n");
    for (const CampaignAmount& one : all) {
      add(fmt::format("<dl class=\"amount\"><dt>{}{}</dt><dd class=\"figure\">{}</dd>{}</dl>\n",
                      ticks && one.to_tick ? "<span class=\"tick\"></span>" : "",
                      marked_up(one.what), marked_up(one.amount),
                      one.how.empty() ? "" : fmt::format("<dd>{}</dd>", marked_up(one.how))));
    }
    add("</div>\n");
  }

  void day(const CampaignDayList& each) {
    add(fmt::format("<section class=\"day\">\n<h3>{}</h3>\n", marked_up(each.day)));
    amounts(each.ready, true);
    add("<table>\n<thead><tr><th>run</th><th>heat on</th><th>stop</th><th>bench "
        "free</th><th>what</th>"
        "<th>really on</th><th>really off</th></tr></thead>\n<tbody>\n");
    for (const CampaignRow& row : each.rows) {
      add(
          fmt::format("<tr><td>{}</td><td class=\"clock\">{}</td><td class=\"clock\">{}</td>"
                      "<td class=\"clock\">{}</td><td>{}</td><td class=\"box\"></td>"
                      "<td class=\"box\"></td></tr>\n",
                      marked_up(row.number), marked_up(row.heat_on), marked_up(row.stop),
                      marked_up(row.done_by), marked_up(row.what)));
    }
    add("</tbody>\n</table>\n</section>\n");
  }

  void list(const char* name, const std::vector<std::string>& all) {
    add("<div>\n");
    if (!all.empty()) add(fmt::format("<h2>{}</h2>\n", name));
    bullets("plain", all);
    add("</div>\n");
  }

  const CampaignContent& content_;
  std::string out_;
};

class MarkdownPage {
 public:
  explicit MarkdownPage(const CampaignContent& content) : content_(content) {}

  std::string write() {
    out_ = fmt::format(
        "# {}\n\n{}\n\n{}**{}**\n", as_markdown(content_.title), as_markdown(content_.summary),
        content_.example.empty() ? "" : fmt::format("**{}**\n\n", as_markdown(content_.example)),
        as_markdown(verdict_text(content_)));
    problems();
    heading("What there is to do");
    for (const CampaignItem& each : content_.items) item(each);
    if (!content_.totals.empty()) {
      heading("In all");
      out_ += "| | | |\n| --- | ---: | --- |\n";
      for (const CampaignAmount& one : content_.totals) {
        out_ += fmt::format("| {} | **{}** | {} |\n", as_markdown(one.what),
                            as_markdown(one.amount), as_markdown(one.how));
      }
    }
    if (!content_.days.empty()) heading("Day by day");
    for (const CampaignDayList& each : content_.days) day(each);
    list("Notes", content_.notes);
    list("Always", content_.always);
    return out_ + "\n" + as_markdown(content_.footing) + "\n";
  }

 private:
  void heading(const char* words) { out_ += fmt::format("\n## {}\n\n", words); }

  void problems() {
    if (content_.verdict != Verdict::refused) return;
    heading("Why not");
    for (const CampaignItem& each : content_.items) {
      for (const std::string& words : each.problems) {
        out_ += fmt::format("- {}: **{}**\n", as_markdown(each.title), as_markdown(words));
      }
    }
  }

  void item(const CampaignItem& each) {
    out_ += fmt::format("- **{}**: {}\n  - {}\n", as_markdown(each.title), as_markdown(each.order),
                        as_markdown(each.subject));
    if (each.runs.empty()) {
      out_ += "  - **Not to be done as asked.**\n";
      return;
    }
    out_ += fmt::format("  - **{}**\n  - Each: {}\n  - Gives: {}\n", as_markdown(each.runs),
                        as_markdown(each.each), as_markdown(each.gives));
    for (const std::string& words : each.cautions) {
      out_ += fmt::format("  - **Caution: {}**\n", as_markdown(words));
    }
  }

  void day(const CampaignDayList& each) {
    out_ += fmt::format("{}### {}\n\n", &each == &content_.days.front() ? "" : "\n",
                        as_markdown(each.day));
    for (const CampaignAmount& one : each.ready) {
      out_ +=
          fmt::format("- {}{}: **{}**{}\n", one.to_tick ? "[ ] " : "", as_markdown(one.what),
                      as_markdown(one.amount), one.how.empty() ? "" : " " + as_markdown(one.how));
    }
    out_ += "\n| run | heat on | stop | bench free | what |\n| ---: | --- | --- | --- | --- |\n";
    for (const CampaignRow& row : each.rows) {
      out_ += fmt::format("| {} | **{}** | {} | {} | {} |\n", as_markdown(row.number),
                          as_markdown(row.heat_on), as_markdown(row.stop), as_markdown(row.done_by),
                          as_markdown(row.what));
    }
  }

  void list(const char* name, const std::vector<std::string>& all) {
    if (all.empty()) return;
    heading(name);
    for (const std::string& words : all) out_ += "- " + as_markdown(words) + "\n";
  }

  const CampaignContent& content_;
  std::string out_;
};

}  // namespace

std::string campaign_html(const CampaignPlan& plan) {
  const CampaignContent content = campaign_content(plan);
  return HtmlPage(content).write();
}

std::string campaign_markdown(const CampaignPlan& plan) {
  const CampaignContent content = campaign_content(plan);
  return MarkdownPage(content).write();
}

}  // namespace firstdrop
