#include "output/sheet_html.hpp"

#include <fmt/core.h>

#include "output/html_page.hpp"

namespace firstdrop {
namespace {

constexpr const char* style = R"(
@page { margin: 6.5mm 10mm; }
body { font-size: 8.8pt; line-height: 1.19; max-width: 190mm; }
h1 { font-size: 16pt; }
h2 { font-size: 9.5pt; margin: 0 0 0.8mm; }
h2 b { display: inline-block; min-width: 3.5mm; }
section, figure { break-inside: avoid; }
section, main > figure { margin-top: 0.7mm; }
.head { grid-template-columns: 1fr fit-content(80mm); }
.subject { overflow-wrap: anywhere; }
.lot { text-align: right; }
.lot strong { font-size: 12pt; overflow-wrap: anywhere; }
.verdict { padding: 0 1.5mm; }
.rule { display: inline-block; border-bottom: 0.25mm solid #000; min-width: 24mm; height: 3.4mm; }
.amount { padding: 0.7mm 1.6mm 0.8mm; flex: 1 1 26mm; }
.amount dd.figure { font-size: 18pt; }
.work { display: grid; grid-template-columns: 56mm 1fr; gap: 0 4mm;
  grid-template-areas: "setup run" "checks run"; grid-template-rows: auto 1fr; }
.setup { grid-area: setup; }
.checks { grid-area: checks; margin-top: 1.2mm; }
.run { grid-area: run; }
.ticks li { padding-left: 4.8mm; text-indent: -4.8mm; margin-bottom: 0.3mm; }
.tick { text-indent: 0; }
th { font-size: 7.5pt; }
td { padding: 0.4mm 2mm 0.4mm 0; }
td.at { width: 19mm; font-size: 7.5pt; }
td.at strong { white-space: nowrap; }
td.at strong, td.clock { font-size: 11.5pt; line-height: 1.1; }
td.clock { width: 14mm; }
td.really { width: 18mm; border: 0.2mm solid #000; }
tr.key td { border-top-width: 0.8mm; }
tr.key b { font-size: 12pt; }
.limits { border: 0.9mm solid #000; padding: 0.6mm 2mm; margin-top: 1.2mm; }
.limits strong { font-size: 12pt; }
svg { display: block; width: 100%; height: auto; font-family: inherit; }
.boxes { display: flex; flex-wrap: wrap; gap: 1mm; }
.box { flex: 1 1 19mm; border: 0.2mm solid #000; padding: 0.2mm 0.8mm; height: 7.8mm;
  font-size: 7.5pt; line-height: 1.1; position: relative; }
.box span { position: absolute; right: 1mm; bottom: 0.3mm; }
.notes { flex: 1; min-height: 6mm; height: auto; margin-top: 1mm; }
.warn { display: flex; flex-direction: column; }
.last { display: grid; grid-template-columns: 1fr 54mm 58mm; gap: 0 3.5mm; }
.after li { font-size: 8.5pt; line-height: 1.15; }
.label { border: 0.3mm dashed #000; padding: 0.6mm 1.2mm; margin-bottom: 1mm; font-size: 7.5pt; line-height: 1.2;
  overflow-wrap: anywhere; }
.label strong { font-size: 9pt; }
.first { padding: 0.6mm 2mm 0.8mm; }
.cautions li, .hazards li { padding-left: 3mm; text-indent: -3mm; overflow-wrap: anywhere; }
.cautions li::before { content: "! "; font-weight: bold; }
.hazards { font-size: 8pt; line-height: 1.2; }
.hazards li::before { content: "- "; }
.foot { font-size: 7.5pt; margin-top: 1mm; grid-column: 1 / -1; }
@media screen and (max-width: 640px) { .work, .last { display: block; } }
)";

class HtmlSheet {
 public:
  HtmlSheet(const SheetContent& sheet, const std::string& picture)
      : sheet_(sheet), picture_(picture) {}

  std::string write() {
    add(html_head(sheet_.lot.empty() ? marked_up(sheet_.title)
                                     : fmt::format("Run sheet: {}, lot {}", marked_up(sheet_.title),
                                                   marked_up(sheet_.lot)),
                  style));
    head();
    add("<main>\n");
    cautions();
    amounts();
    add("<section class=\"work\">\n");
    ticks("setup", "Set up", sheet_.bench);
    ticks("checks", "Before the heat", sheet_.before_heat);
    run();
    add("</section>\n");
    record();
    if (!picture_.empty()) add("<figure>\n" + picture_ + "\n</figure>\n");
    add("<section class=\"last\">\n");
    ticks("after", "Afterwards", sheet_.afterwards);
    labels();
    hazards();
    // Keep the footing in this section. On its own it could end up alone on a second page.
    add(fmt::format("<p class=\"foot\">{}</p>\n", marked_up(sheet_.footing)));
    add("</section>\n</main>\n</body>\n</html>\n");
    return std::move(out_);
  }

 private:
  void add(const std::string& markup) { out_ += markup; }
  void heading(const char* words) { add(fmt::format("<h2><b>{}</b> {}</h2>\n", ++number_, words)); }

  void head() {
    add(fmt::format(
        "<header class=\"head\">\n<div><h1>{}</h1>\n<p class=\"subject\">{}{}</p></div>\n",
        marked_up(sheet_.title), marked_up(sheet_.subject),
        sheet_.example.empty() ? "" : fmt::format(" · <b>{}</b>", marked_up(sheet_.example))));
    add(fmt::format(
        "<div class=\"lot\"><p><span class=\"verdict\">{}</span>{}</p>\n",
        marked_up(sheet_.verdict),
        sheet_.lot.empty() ? "" : fmt::format(" Lot <strong>{}</strong>", marked_up(sheet_.lot))));
    add(fmt::format("<p>Day {}{} by <span class=\"rule\"></span></p></div>\n</header>\n",
                    sheet_.day.empty() ? "<span class=\"rule\"></span>" : marked_up(sheet_.day),
                    sheet_.runs.empty() ? ""
                                        : fmt::format(" run <span class=\"rule\"></span> {}",
                                                      marked_up(sheet_.runs))));
  }

  void amount(const SheetAmount& a) {
    add(
        fmt::format("<dl class=\"amount\"><dt>{}{}</dt><dd class=\"figure\">{}</dd>"
                    "<dd>{}</dd></dl>\n",
                    tick(), marked_up(a.what), marked_up(a.amount), marked_up(a.how)));
  }

  void amounts() {
    add("<section>\n");
    heading("Weigh and pour");
    add("<div class=\"amounts\">\n");
    for (const SheetAmount& a : sheet_.amounts) amount(a);
    add("</div>\n</section>\n");
  }

  static const char* tick() { return "<span class=\"tick\"></span>"; }

  void ticks(const char* area, const char* name, const std::vector<std::string>& list) {
    add(fmt::format("<div class=\"{}\">\n", area));
    heading(name);
    add("<ul class=\"ticks\">\n");
    for (const std::string& words : list) {
      add(fmt::format("<li>{}{}</li>\n", tick(), marked_up(words)));
    }
    add("</ul>\n</div>\n");
  }

  void row(const SheetStep& s, bool clock) {
    std::string see = marked_up(s.see);
    if (s.at.empty() && !sheet_.levels.empty()) see += " " + marked_up(sheet_.levels);
    add(fmt::format("<tr{}><td class=\"at\">{}{}</td>", s.key ? " class=\"key\"" : "",
                    s.at.empty() ? "" : fmt::format("<strong>{}</strong>", marked_up(s.at)),
                    s.range.empty() ? "" : "<br>" + marked_up(s.range)));
    if (clock) add(fmt::format("<td class=\"clock\">{}</td>", marked_up(s.clock)));
    // A step that isn't timed has no box for the real time. Its words take that space.
    add(fmt::format("<td{}>{}{}<b>{}</b></td>{}</tr>\n", s.timed ? "" : " colspan=\"2\"", see,
                    see.empty() ? "" : "<br>", marked_up(s.act),
                    s.timed ? "<td class=\"really\"></td>" : ""));
  }

  void run() {
    const bool clock = !sheet_.day.empty();
    add("<div class=\"run\">\n");
    heading("Run (ranges: 8 runs in 10)");
    add(
        fmt::format("<table>\n<thead><tr><th>from heat on</th>{}<th>look, and do</th>"
                    "<th>really at</th></tr></thead>\n<tbody>\n",
                    clock ? "<th>clock</th>" : ""));
    for (const SheetStep& s : sheet_.steps) row(s, clock);
    add("</tbody>\n</table>\n");
    add(
        fmt::format("<div class=\"limits\"><p><strong>Stop at {}.</strong> <b>{}</b></p>"
                    "<p>{}</p><p>{}</p></div>\n</div>\n",
                    marked_up(sheet_.stop), marked_up(sheet_.latest), marked_up(sheet_.forgotten),
                    marked_up(sheet_.yield)));
  }

  void record() {
    add("<section>\n");
    heading("Write down");
    add("<div class=\"boxes\">\n");
    for (const SheetBox& box : sheet_.boxes) {
      add(fmt::format("<div class=\"box\">{}{}</div>\n", marked_up(box.what),
                      box.unit.empty() ? "" : fmt::format("<span>{}</span>", marked_up(box.unit))));
    }
    add("</div>\n</section>\n");
  }

  void labels() {
    if (sheet_.labels.empty()) return;
    add("<div>\n");
    heading("Labels");
    for (const SheetLabel& label : sheet_.labels) {
      add(fmt::format("<p class=\"label\"><strong>{}</strong>", marked_up(label.name)));
      for (const std::string& words : label.lines) add("<br>" + marked_up(words));
      add("</p>\n");
    }
    add("</div>\n");
  }

  void list(const char* kind, const std::vector<std::string>& items) {
    add(fmt::format("<ul class=\"{}\">\n", kind));
    for (const std::string& words : items) add(fmt::format("<li>{}</li>\n", marked_up(words)));
    add("</ul>\n");
  }

  void cautions() {
    if (sheet_.cautions.empty()) return;
    add("<section class=\"first\">\n<h2>Read first</h2>\n");
    list("cautions", sheet_.cautions);
    add("</section>\n");
  }

  void hazards() {
    add("<div class=\"warn\">\n");
    if (!sheet_.labels.empty()) heading(sheet_.hazards_title.c_str());
    if (!sheet_.hazards.empty()) list("hazards", sheet_.hazards);
    add("<div class=\"box notes\">Notes</div>\n</div>\n");
  }

  const SheetContent& sheet_;
  const std::string& picture_;
  std::string out_;
  int number_ = 0;
};

}  // namespace

std::string sheet_as_html(const SheetContent& sheet, const std::string& picture) {
  return HtmlSheet(sheet, picture).write();
}

}  // namespace firstdrop
