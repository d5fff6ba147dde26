#include "output/html_page.hpp"

#include <fmt/core.h>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"

namespace firstdrop {
namespace {

// Black on white, because most benches print in black. Weight and frames carry the meaning and
// backgrounds never do: browsers don't print them. No paper size is set, so the printer's own is
// used. Lower-case letters are as high in any font as in Arial (0.519 of its size, from memory), so
// a wider font rarely takes another page.
constexpr const char* common_style = R"(
* { box-sizing: border-box; }
html { color: #000; background: #fff; }
body { font-family: "Liberation Sans", Arial, Helvetica, sans-serif; font-size-adjust: 0.519;
  margin: 0 auto; padding: 0 0.4mm; }
h1 { line-height: 1.1; margin: 0; overflow-wrap: anywhere; }
h2 { border-bottom: 0.5mm solid #000; }
p, ul, dl, figure, table { margin: 0; }
ul { list-style: none; padding: 0; }
.head { display: grid; gap: 1mm 6mm; align-items: end; }
.verdict { border: 0.6mm solid #000; font-weight: bold; }
.first { border: 0.9mm solid #000; }
.first h2 { border: 0; margin: 0; }
.amounts { display: flex; flex-wrap: wrap; gap: 1.6mm; }
.amount { border: 0.3mm solid #000; }
.amount dt { font-size: 8.5pt; font-weight: bold; }
.amount dd { margin: 0; font-size: 8pt; line-height: 1.15; }
.amount dd.figure { font-weight: bold; line-height: 1.1; white-space: nowrap; }
.tick { display: inline-block; width: 3mm; height: 3mm; border: 0.3mm solid #000;
  margin-right: 1.8mm; vertical-align: -0.4mm; }
table { border-collapse: collapse; width: 100%; }
th { font-weight: normal; text-align: left; padding: 0 2mm 0 0; }
td { border-top: 0.2mm solid #000; vertical-align: top; }
@media screen { body { padding: 4mm; } }
)";

}  // namespace

std::string marked_up(const std::string& text) {
  return with_glue(as_markup(text), "\u00a0");
}

std::string html_head(std::string_view title, std::string_view style) {
  // The security policy blocks scripts and requests, in case someone finds a way to put markup into
  // a page.
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" "
      "content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<title>{}</title>\n<style>{}{}</style>\n</head>\n<body>\n",
      title, common_style, style.substr(style.starts_with('\n') ? 1 : 0));
}

}  // namespace firstdrop
