#include "output/svg_canvas.hpp"

#include <fmt/core.h>

#include "base/visible_text.hpp"

namespace firstdrop {
namespace {

constexpr double usual_width = 0.9;  // usual width of a text, as a share of its upper bound

std::string points_text(const std::vector<Spot>& spots) {
  std::string list;
  for (const Spot s : spots) {
    list += (list.empty() ? "" : " ") + svg_number(s.x) + "," + svg_number(s.y);
  }
  return list;
}

}  // namespace

std::string svg_number(double x) {
  std::string text = fmt::format("{:.1f}", x);
  if (text.ends_with(".0")) text.resize(text.size() - 2);
  return text == "-0" ? "0" : text;
}

void SvgCanvas::line(Spot a, Spot b, const std::string& look) {
  add(fmt::format(R"(<line x1="{}" y1="{}" x2="{}" y2="{}" {}/>)", svg_number(a.x), svg_number(a.y),
                  svg_number(b.x), svg_number(b.y), look));
}

void SvgCanvas::polyline(const std::vector<Spot>& spots, const std::string& look) {
  if (spots.size() < 2) return;
  add(fmt::format(R"(<polyline points="{}" fill="none" {}/>)", points_text(spots), look));
}

void SvgCanvas::polygon(const std::vector<Spot>& spots, const std::string& look) {
  add(fmt::format(R"(<polygon points="{}" {}/>)", points_text(spots), look));
}

void SvgCanvas::dot(Spot at, const std::string& colour) {
  add(fmt::format(R"(<circle cx="{}" cy="{}" r="1.1" fill="{}"/>)", svg_number(at.x),
                  svg_number(at.y), colour));
}

void SvgCanvas::words(Spot at, const std::string& text, Anchor anchor, const std::string& look) {
  const char* where = anchor == Anchor::start    ? ""
                      : anchor == Anchor::middle ? R"( text-anchor="middle")"
                                                 : R"( text-anchor="end")";
  add(fmt::format(R"(<text x="{}" y="{}"{}{}{}>{}</text>)", svg_number(at.x), svg_number(at.y),
                  where, look.empty() ? "" : " ", look, as_markup(text)));
}

// The white background lifts the letters off gridlines, poles and hatching. A white outline of the
// letters would do that too, but a PDF would then hold their text twice.
void SvgCanvas::label(const Frame& frame, double baseline, const std::string& text,
                      const std::string& look) {
  add(fmt::format(R"(<rect x="{}" y="{}" width="{}" height="{}" fill="#fff" fill-opacity="0.85"/>)",
                  svg_number(frame.left - 1.0), svg_number(frame.top),
                  svg_number(frame.width() * usual_width), svg_number(frame.height())));
  words({frame.left, frame.top + baseline}, text, Anchor::start, look);
}

// Draws each line separately, because printers turn an SVG pattern into a coarse raster.
void SvgCanvas::hatched(const std::vector<Spot>& polygon, bool rising) {
  std::string path;
  for (const Stretch& s : hatching(polygon, rising, 3.0)) {
    if (s.to.x - s.from.x < 0.3) continue;
    path += fmt::format("M{} {}L{} {}", svg_number(s.from.x), svg_number(s.from.y),
                        svg_number(s.to.x), svg_number(s.to.y));
  }
  if (!path.empty())
    add(fmt::format(R"(<path d="{}" fill="none" stroke="#777" stroke-width="0.6"/>)", path));
  polyline(polygon, R"(stroke="#555" stroke-width="0.5")");
}

}  // namespace firstdrop
