#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "base/visible_text.hpp"
#include "firstdrop/output/write.hpp"
#include "output/drawing.hpp"
#include "output/run_curves.hpp"
#include "output/svg_canvas.hpp"

namespace firstdrop {
namespace {

// The unit of the drawing is a third of a millimetre.
constexpr Frame paper{0.0, 0.0, 558.0, 162.0};
constexpr double unit_per_mm = 3.0;
constexpr double letters = 8.2;  // 2.73 mm, 7.75 pt
constexpr double line_height = 9.8;
constexpr double baseline = 7.4;  // below the top of a line
constexpr double flag_row = 10.2;
constexpr double panel_gap = 9.0;
// Gaps between an axis and what stands to the left of it. The last two leave room for half of the
// number under the start of the axis.
constexpr double mark_gap = 4.0;
constexpr double min_gap = 9.0;
constexpr double clock_gap = 17.0;
constexpr int most_flag_rows = 3;
constexpr double flag_gap = 6.0;
constexpr double label_gap = 3.0;
constexpr double edge_gap = 5.0;     // between a label and the edge of its panel, or the stop
constexpr double bold_width = 1.16;  // relative to plain letters; DejaVu Sans

constexpr const char* ink = "#111";
constexpr const char* faint = "#c4c4c4";
constexpr const char* alarm = "#98201c";

// The time axis ends at the reserve if the run then takes up at least half of the width. Otherwise
// it leaves room for what stands beside the ends of the curves.
constexpr double longest_wait = 2.0;  // times the run
constexpr double room_beside = 1.45;
// Events closer together on paper than this share a flag.
constexpr double at_once = 2.5;

using Spots = std::vector<Spot>;

void append(Spots& to, const Spots& more) {
  to.insert(to.end(), more.begin(), more.end());
}

// ---- axes

/// The horizontal axis of all panels.
struct TimeAxis {
  double left = 0.0;
  double right = 0.0;
  double bottom = 0.0;
  double stop = 0.0;  ///< in minutes, like all times of the axis
  double end = 0.0;
  std::optional<LocalMinute> start;

  double x(double minutes) const { return left + std::min(minutes, end) / end * (right - left); }
  double x(Duration at) const { return x(in_minutes(at)); }
  double x_stop() const { return x(stop); }
};

/// A part of the picture with its vertical axis.
struct Panel {
  CurveAxis axis = CurveAxis::water;
  AxisUnit unit;
  std::vector<double> marks;  ///< in its unit, from its bottom to its top
  Frame frame;

  double y(double si) const { return y_of(unit.of(si)); }
  double y_of(double value) const {
    return frame.bottom - (value - marks.front()) / (marks.back() - marks.front()) * frame.height();
  }
  std::vector<std::string> mark_names() const { return firstdrop::mark_names(marks, unit.name); }
};

/// In the order of CurveAxis.
struct PanelLook {
  CurveAxis axis;
  double share;  ///< of the height, relative to the first
  std::size_t most_marks;
};
constexpr std::array<PanelLook, 3> panel_looks = {
    {{CurveAxis::water, 1.0, 5}, {CurveAxis::oil, 0.46, 3}, {CurveAxis::coolant, 0.4, 3}}};

double end_of_time(const RunCurves& list) {
  const double stop = in_minutes(list.stop);
  const double longest = stop * longest_wait;
  double end = std::min(in_minutes(list.late_stop), longest);
  for (const RunMark& mark : list.marks) {
    if (mark.kind != MarkKind::if_left_on) continue;
    const double wait = in_minutes(mark.at) * 1.02;
    end = std::max(end, wait <= longest ? wait : stop * room_beside);
  }
  return end;
}

/// The panel of an axis, without its frame; none if no curve is on it.
std::optional<Panel> panel_of(const RunCurves& list, const PanelLook& look) {
  std::optional<double> least;
  double most = 0.0;
  const auto hold = [&](const std::vector<CurvePoint>& points) {
    for (const CurvePoint& point : points) {
      most = least ? std::max(most, point.si) : point.si;
      least = least ? std::min(*least, point.si) : point.si;
    }
  };
  for (const Curve& curve : list.curves) {
    if (curve.axis != look.axis) continue;
    hold(curve.points);
    if (!curve.band) continue;
    hold(curve.band->upper);
    hold(curve.band->lower);
  }
  if (!least) return std::nullopt;
  const AxisUnit unit = axis_unit(look.axis, most, list.units);
  const double bottom = unit.volume ? 0.0 : unit.of(*least);
  return Panel{look.axis, unit, round_marks(bottom, unit.of(most), look.most_marks), {}};
}

std::vector<Panel> panels_of(const RunCurves& list) {
  std::vector<Panel> panels;
  for (const PanelLook& look : panel_looks) {
    if (auto panel = panel_of(list, look)) panels.push_back(std::move(*panel));
  }
  return panels;
}

TimeAxis time_axis_of(const RunCurves& list, const std::vector<Panel>& panels) {
  double widest = line_width("min", letters) + min_gap;
  for (const Panel& panel : panels) {
    for (const std::string& name : panel.mark_names())
      widest = std::max(widest, line_width(name, letters) + mark_gap);
  }
  if (list.start) widest = std::max(widest, line_width("clock", letters) + clock_gap);
  TimeAxis time;
  time.left = paper.left + 2.0 + widest;
  time.right = paper.right - 12.0;
  time.bottom = paper.bottom - (list.start ? 2.0 : 1.0) * line_height - 6.0;
  time.stop = in_minutes(list.stop);
  time.end = end_of_time(list);
  time.start = list.start;
  return time;
}

/// Puts the panels under each other, below the rows of flags.
std::vector<Panel> framed(std::vector<Panel> panels, const TimeAxis& time, int flag_rows) {
  const auto share_of = [](CurveAxis axis) {
    return panel_looks[static_cast<std::size_t>(axis)].share;
  };
  const double top = paper.top + 2.0 + flag_rows * flag_row + 6.0;
  double shares = 0.0;
  for (const Panel& panel : panels) shares += share_of(panel.axis);
  const double gaps = panel_gap * static_cast<double>(panels.size() - 1);
  const double unit = (time.bottom - top - gaps) / shares;
  double y = top;
  for (Panel& panel : panels) {
    panel.frame = {time.left, y, time.right, y + share_of(panel.axis) * unit};
    y = panel.frame.bottom + panel_gap;
  }
  return panels;
}

void draw_axis(SvgCanvas& canvas, const Panel& panel) {
  const std::vector<std::string> names = panel.mark_names();
  const Frame& frame = panel.frame;
  for (std::size_t i = 0; i < panel.marks.size(); ++i) {
    const double y = panel.y_of(panel.marks[i]);
    canvas.line({frame.left, y}, {frame.right, y},
                fmt::format(R"(stroke="{}" stroke-width="{}")", i == 0 ? ink : faint,
                            i == 0 ? "0.6" : "0.4"));
    canvas.words({frame.left - mark_gap, y + 2.9}, names[i], Anchor::end);
  }
  canvas.line({frame.left, frame.top}, {frame.left, frame.bottom},
              fmt::format(R"(stroke="{}" stroke-width="0.6")", ink));
}

// Times on another day have no mark, because the axis simply continues.
std::string clock_text(LocalMinute start, double minute) {
  return time_of_day(start, minutes(minute)).substr(0, 5);
}

void draw_time_axis(SvgCanvas& canvas, const TimeAxis& time) {
  const double y = time.bottom;
  const double room = line_width(time.start ? "00:00" : "0000", letters) + 8.0;
  const auto most = static_cast<std::size_t>((time.right - time.left) / room);
  const double text_y = y + 4.0 + baseline;
  canvas.words({time.left - min_gap, text_y}, "min", Anchor::end);
  if (time.start) canvas.words({time.left - clock_gap, text_y + line_height}, "clock", Anchor::end);
  for (const double m : minute_marks(time.end, std::max<std::size_t>(most, 2))) {
    const double x = time.x(m);
    canvas.line({x, y}, {x, y + 2.6}, fmt::format(R"(stroke="{}" stroke-width="0.6")", ink));
    canvas.words({x, text_y}, fmt::format("{:.0f}", m), Anchor::middle);
    if (time.start)
      canvas.words({x, text_y + line_height}, clock_text(*time.start, m), Anchor::middle);
  }
}

// ---- marks

/// The flags of all marks: their words, and places in the rows above the first panel.
struct Flags {
  int rows = 1;
  bool complete = false;  ///< whether each flag has a place
  std::vector<std::string> words;
  std::vector<std::optional<FlagPlace>> places;
};

/// How much the flags say: the index into the words of a mark.
struct FlagDetail {
  std::size_t planned = 0;
  std::size_t ice = 0;
};

std::string own_words(const RunMark& mark, FlagDetail detail, const TimeAxis& time) {
  if (mark.words.empty()) return "";
  const std::size_t index = mark.kind == MarkKind::ice ? detail.ice : detail.planned;
  const std::string& words = mark.words[std::min(index, mark.words.size() - 1)];
  const bool out_of_sight = mark.kind == MarkKind::if_left_on && in_minutes(mark.at) > time.end;
  return out_of_sight ? words + " →" : words;
}

Flags flags_in_rows(const std::vector<RunMark>& marks, const TimeAxis& time, FlagDetail detail,
                    int rows) {
  Flags flags;
  flags.rows = rows;
  flags.words = flag_words(
      marks, [&](const RunMark& mark) { return own_words(mark, detail, time); },
      [&](const RunMark& a, const RunMark& b) { return time.x(b.at) - time.x(a.at) < at_once; });
  flags.places.resize(marks.size());
  std::vector<Flag> wanted;
  std::vector<std::size_t> whose;
  for (std::size_t i = 0; i < marks.size(); ++i) {
    if (flags.words[i].empty()) continue;
    const double bold = marks[i].kind == MarkKind::stop ? bold_width : 1.0;
    wanted.push_back({time.x(marks[i].at), line_width(flags.words[i], letters) * bold});
    whose.push_back(i);
  }
  const auto places = place_flags(wanted, paper.left + 2.0, paper.right - 2.0, rows, flag_gap);
  for (std::size_t i = 0; i < places.size(); ++i) flags.places[whose[i]] = places[i];
  flags.complete = std::all_of(places.begin(), places.end(),
                               [](const auto& place) { return place.has_value(); });
  return flags;
}

/// Says as much as there is room for, in as few rows as possible.
Flags flags_of(const std::vector<RunMark>& marks, const TimeAxis& time) {
  FlagDetail most{1, 1};
  for (const RunMark& mark : marks) {
    std::size_t& count = mark.kind == MarkKind::ice ? most.ice : most.planned;
    count = std::max(count, mark.words.size());
  }
  Flags flags;
  for (FlagDetail detail; detail.planned < most.planned; ++detail.planned) {
    for (detail.ice = 0; detail.ice < most.ice; ++detail.ice) {
      for (int rows = 1; rows <= most_flag_rows; ++rows) {
        flags = flags_in_rows(marks, time, detail, rows);
        if (flags.complete) return flags;
      }
    }
  }
  return flags;
}

// They run down through all panels, so that every curve can be read at them.
void draw_poles(SvgCanvas& canvas, const std::vector<RunMark>& marks, const TimeAxis& time,
                double top) {
  for (const RunMark& mark : marks) {
    const double at = in_minutes(mark.at);
    if (mark.axis || at <= 0.0 || at > time.end) continue;
    const bool is_stop = mark.kind == MarkKind::stop;
    canvas.line(
        {time.x(at), top}, {time.x(at), time.bottom},
        mark.kind == MarkKind::if_left_on
            ? fmt::format(R"(stroke="{}" stroke-width="0.5" stroke-dasharray="0.8 2.4")", alarm)
            : fmt::format(R"(stroke="{}" stroke-width="{}")", is_stop ? ink : "#888",
                          is_stop ? "0.9" : "0.5"));
  }
}

void draw_sign(SvgCanvas& canvas, MarkKind kind, Spot tip) {
  const bool hollow = kind == MarkKind::ice || kind == MarkKind::if_left_on;
  const std::string look = hollow ? fmt::format(R"(fill="#fff" stroke="{}" stroke-width="0.7")",
                                                kind == MarkKind::if_left_on ? alarm : ink)
                                  : fmt::format(R"(fill="{}")", ink);
  const double half = 2.2;
  if (kind == MarkKind::ice) {
    canvas.polygon(
        {{tip.x, tip.y - 4.4}, {tip.x + half, tip.y - 2.2}, tip, {tip.x - half, tip.y - 2.2}},
        look);
  } else {
    canvas.polygon({{tip.x - half, tip.y - 4.0}, {tip.x + half, tip.y - 4.0}, tip}, look);
  }
}

void draw_flags(SvgCanvas& canvas, const std::vector<RunMark>& marks, const Flags& flags,
                const TimeAxis& time, double rail) {
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const MarkKind kind = marks[i].kind;
    const Spot tip{time.x(marks[i].at), rail};
    const bool in_sight = in_minutes(marks[i].at) <= time.end;
    if (in_sight) draw_sign(canvas, kind, tip);
    const std::optional<FlagPlace>& place = flags.places[i];
    if (!place) continue;
    const bool warns = kind == MarkKind::if_left_on;
    const double top = rail - 4.4 - flag_row * (place->row + 1);
    if (place->row > 0 && in_sight) {
      canvas.line({tip.x, top + flag_row - 0.8}, {tip.x, rail - 4.2},
                  fmt::format(R"(stroke="{}" stroke-width="0.4")", warns ? alarm : "#666"));
    }
    canvas.words({place->left, top + baseline}, flags.words[i], Anchor::start,
                 warns                    ? fmt::format(R"(fill="{}")", alarm)
                 : kind == MarkKind::stop ? R"(font-weight="bold")"
                                          : "");
  }
}

// ---- curves

/// A curve on paper.
struct Shape {
  const Curve* curve = nullptr;
  Spots line;
  std::vector<Spots> pieces;  ///< of the line, where not all its points are joined
  Spots upper;                ///< edges of its band; empty without one
  Spots lower;
};

/// What goes past the end of the time axis is cut there.
Spots spots_of(const std::vector<CurvePoint>& points, const Panel& panel, const TimeAxis& time) {
  Spots spots;
  double before = 0.0;  // minutes
  double si = 0.0;
  for (const CurvePoint& point : points) {
    const double at = in_minutes(point.at);
    if (at <= time.end || spots.empty()) {
      si = point.si;
    } else if (before < time.end) {
      si += (point.si - si) * ((time.end - before) / (at - before));
    }
    before = std::min(at, time.end);
    spots.push_back({time.x(at), panel.y(si)});
  }
  return spots;
}

Shape shape_of(const Curve& curve, const Panel& panel, const TimeAxis& time) {
  Shape shape;
  shape.curve = &curve;
  if (is_level(curve.line) && !curve.points.empty()) {
    const double y = panel.y(curve.points.front().si);
    shape.line = {{time.left, y}, {time.right, y}};
    shape.pieces = {shape.line};
    return shape;
  }
  shape.line = spots_of(curve.points, panel, time);
  for (std::size_t i = 0; i < shape.line.size(); ++i) {
    if (i == 0 || !curve.points[i].joined) shape.pieces.emplace_back();
    shape.pieces.back().push_back(shape.line[i]);
  }
  if (curve.band) {
    shape.upper = spots_of(curve.band->upper, panel, time);
    shape.lower = spots_of(curve.band->lower, panel, time);
  }
  return shape;
}

Spots band_outline(const Shape& shape) {
  Spots outline = shape.upper;
  outline.insert(outline.end(), shape.lower.rbegin(), shape.lower.rend());
  return outline;
}

/// Of a line without dashes. The first panel is the tallest, and has the heaviest lines.
const char* weight(CurveAxis axis) {
  return axis == CurveAxis::water ? "1.7" : "1.5";
}

std::string line_look(const Curve& curve) {
  switch (curve.line) {
    case Line::danger:
      return fmt::format(R"(stroke="{}" stroke-width="1" stroke-dasharray="7 3")", alarm);
    case Line::limit:
      return fmt::format(R"(stroke="{}" stroke-width="0.8" stroke-dasharray="7 3")", ink);
    case Line::dashed:
      return fmt::format(R"(stroke="{}" stroke-width="1.3" stroke-dasharray="5 1.6")", ink);
    case Line::solid:
      break;
    case Line::dotted:
      return fmt::format(
          R"(stroke="{}" stroke-width="1.5" stroke-dasharray="0.1 3.4" stroke-linecap="round")",
          ink);
  }
  return fmt::format(R"(stroke="{}" stroke-width="{}")", ink, weight(curve.axis));
}

void draw_shapes(SvgCanvas& canvas, const std::vector<Shape>& shapes, bool hatching_rises) {
  for (const Shape& shape : shapes) {
    if (shape.curve->band) canvas.hatched(band_outline(shape), hatching_rises);
  }
  std::vector<const Shape*> from_back;
  for (auto shape = shapes.rbegin(); shape != shapes.rend(); ++shape) from_back.push_back(&*shape);
  std::stable_sort(from_back.begin(), from_back.end(),
                   [](const Shape* a, const Shape* b) { return a->curve->line < b->curve->line; });
  for (const Shape* shape : from_back) {
    for (const Spots& piece : shape->pieces) {
      canvas.polyline(piece, line_look(*shape->curve));
      if (piece.size() == 1 && shape->curve->dots) canvas.dot(piece.front(), ink);
    }
  }
}

// ---- labels

double height_at(const Spots& line, double x) {
  for (std::size_t i = 1; i < line.size(); ++i) {
    if (x > line[i].x && i + 1 < line.size()) continue;
    const double run = line[i].x - line[i - 1].x;
    const double share = run > 0.0 ? std::clamp((x - line[i - 1].x) / run, 0.0, 1.0) : 1.0;
    return line[i - 1].y + share * (line[i].y - line[i - 1].y);
  }
  return line.empty() ? 0.0 : line.front().y;
}

struct Size {
  double width = 0.0;
  double height = 0.0;
};

// Corners for a label of this size along a curve from `begin` to `end`: first above it, then below.
Spots along(const Spots& line, Size size, double begin, double end) {
  Spots corners;
  const int steps = 60;
  for (const bool over : {true, false}) {
    for (int i = 0; i <= steps; ++i) {
      const double left = begin + (end - begin) * i / steps;
      const double a = height_at(line, left);
      const double b = height_at(line, left + size.width);
      corners.push_back({left, over ? std::min(a, b) - size.height - 1.4 : std::max(a, b) + 1.8});
    }
  }
  return corners;
}

// Where the line is first at its highest.
Spot summit(const Spots& line) {
  return *std::min_element(line.begin(), line.end(),
                           [](const Spot& a, const Spot& b) { return a.y < b.y; });
}

Spots along_edges(const Shape& shape, Size size, const TimeAxis& time) {
  const Spots& early = shape.upper.empty() ? shape.line : shape.upper;
  const Spots& late = shape.lower.empty() ? shape.line : shape.lower;
  const double left = time.left + edge_gap;
  Spots corners = along(early, size, summit(early).x - size.width, left);
  // Over a rising curve, near its end rather than in the middle.
  append(corners, along(late, size, time.right - size.width, left));
  return corners;
}

Spots in_band(const Shape& shape, Size size, const TimeAxis& time) {
  if (shape.upper.empty() || shape.lower.empty()) return {};
  const double first = shape.lower.front().x;
  const double last = shape.lower.back().x;
  Spots corners;
  for (int i = 0; i <= 40; ++i) {
    const double left = last - size.width - (last - first - size.width) * i / 40.0;
    corners.push_back({left, height_at(shape.lower, left) + 2.0});
  }
  append(corners,
         along(shape.upper, size, summit(shape.upper).x - size.width, time.left + edge_gap));
  return corners;
}

Spots beside_start(const Shape& shape, Size size) {
  const Spot start = shape.line.front();
  Spots corners;
  for (const double dy : {-size.height - 1.0, -size.height - 4.0, -0.5 * size.height, 1.0, 4.0}) {
    corners.push_back({start.x + 4.0, start.y + dy});
    corners.push_back({start.x - size.width - 4.0, start.y + dy});
  }
  return corners;
}

// To the right of a curve's end; otherwise to the left of its start; otherwise above its upper
// edge.
Spots beside_end(const Shape& shape, Size size, const Panel& panel, const TimeAxis& time) {
  const Spots& line = shape.line;
  Spots corners;
  for (const double dy : {-0.5, -1.0, 0.0})
    corners.push_back({line.back().x + edge_gap, line.back().y + dy * size.height});
  for (double top = panel.frame.top; top + size.height <= panel.frame.bottom; top += 2.0)
    corners.push_back({line.front().x - size.width - edge_gap, top});
  append(corners, along(shape.upper.empty() ? line : shape.upper, size, time.left + edge_gap,
                        time.x_stop() - size.width));
  return corners;
}

Spots corners_for(LabelPlace place, const Shape& shape, Size size, const Panel& panel,
                  const TimeAxis& time) {
  if (shape.line.empty()) return {};
  const double left = time.left + edge_gap;
  const double right = time.right - size.width;
  switch (place) {
    case LabelPlace::along:
      return along(shape.line, size, left, time.x_stop() - size.width);
    case LabelPlace::after_stop: {
      Spots corners = along(shape.line, size, time.x_stop() + edge_gap, right);
      append(corners, along(shape.line, size, left, right));
      return corners;
    }
    case LabelPlace::edges:
      return along_edges(shape, size, time);
    case LabelPlace::in_band:
      return in_band(shape, size, time);
    case LabelPlace::beside_start:
      return beside_start(shape, size);
    case LabelPlace::beside_end:
      return beside_end(shape, size, panel, time);
    case LabelPlace::across:
      break;
  }
  return along(shape.line, size, left, right);
}

// At the bottom of a panel, as far to the right as possible.
Spots note_corners(Size size, const Panel& panel, const TimeAxis& time) {
  Spots corners;
  for (double left = time.right - size.width - 4.0; left >= time.left + 4.0; left -= 4.0)
    corners.push_back({left, panel.frame.bottom - size.height - 2.0});
  return corners;
}

Size label_size(const std::string& text) {
  return {line_width(text, letters) + label_gap, line_height};
}

void draw_label(SvgCanvas& canvas, LabelPlaces& places, const std::string& text,
                const Spots& corners, const std::string& look = "") {
  const Size size = label_size(text);
  if (const auto frame = places.take(size.width, size.height, corners)) {
    canvas.label(*frame, baseline, text, look);
  }
}

void keep_off(LabelPlaces& places, const Spots& line) {
  for (std::size_t i = 1; i < line.size(); ++i) places.keep_off(line[i - 1], line[i]);
}

LabelPlaces label_places(const std::vector<Shape>& shapes, const Panel& panel,
                         const TimeAxis& time) {
  LabelPlaces places(panel.frame);
  for (const Shape& shape : shapes) {
    for (const Spots& piece : shape.pieces) keep_off(places, piece);
    if (!shape.curve->band) continue;
    const Spots outline = band_outline(shape);
    keep_off(places, outline);
    places.keep_off(outline.back(), outline.front());
  }
  if (panel.axis == CurveAxis::water) {
    places.keep_off({time.x_stop(), panel.frame.top}, {time.x_stop(), panel.frame.bottom});
  }
  return places;
}

void draw_labels(SvgCanvas& canvas, const std::vector<Shape>& shapes,
                 const std::vector<CurveNote>& notes, const Panel& panel, const TimeAxis& time) {
  LabelPlaces places = label_places(shapes, panel, time);
  for (const Shape& shape : shapes) {
    const std::string look =
        shape.curve->line == Line::danger ? fmt::format(R"(fill="{}")", alarm) : "";
    for (const CurveLabel& label : shape.curve->labels) {
      draw_label(canvas, places, label.text,
                 corners_for(label.place, shape, label_size(label.text), panel, time), look);
    }
  }
  for (const CurveNote& note : notes) {
    if (note.axis != panel.axis) continue;
    draw_label(canvas, places, note.text, note_corners(label_size(note.text), panel, time));
  }
}

// ---- the whole

void draw_panel(SvgCanvas& canvas, const RunCurves& list, const Panel& panel,
                const TimeAxis& time) {
  std::vector<Shape> shapes;
  for (const Curve& curve : list.curves) {
    if (curve.axis == panel.axis) shapes.push_back(shape_of(curve, panel, time));
  }
  draw_shapes(canvas, shapes, panel.axis == CurveAxis::water);
  for (const RunMark& mark : list.marks) {
    if (mark.axis != panel.axis || mark.at > list.stop) continue;
    const double x = time.x(mark.at);
    canvas.line({x, panel.frame.top}, {x, panel.frame.bottom},
                fmt::format(R"(stroke="{}" stroke-width="0.5" stroke-dasharray="0.8 1.8")", ink));
  }
  draw_labels(canvas, shapes, list.notes, panel, time);
}

std::string as_svg(const RunCurves& list, std::string_view id, const std::string& elements) {
  std::string out = fmt::format(
      R"(<svg xmlns="http://www.w3.org/2000/svg" class="run-picture" width="{}mm" height="{}mm" )"
      R"(viewBox="0 0 {} {}" role="img" aria-labelledby="{}-title" aria-describedby="{}-desc" )"
      R"(font-family="sans-serif" font-size="{}" fill="{}">)",
      svg_number(paper.right / unit_per_mm), svg_number(paper.bottom / unit_per_mm),
      svg_number(paper.right), svg_number(paper.bottom), id, id, letters, ink);
  out += fmt::format("\n<title id=\"{}-title\">The run over time{}</title>\n", id,
                     list.title.empty() ? "" : ": " + as_markup(list.title));
  out += fmt::format("<desc id=\"{}-desc\">{}</desc>\n", id, as_markup(list.in_words));
  out += fmt::format(R"(<rect width="{}" height="{}" fill="#fff"/>)", svg_number(paper.right),
                     svg_number(paper.bottom)) +
         "\n";
  return out + elements + "</svg>\n";
}

}  // namespace

std::string run_picture(const Plan& plan, std::string_view id) {
  const RunCurves list = run_curves(plan, &Shown::on_paper);
  const std::vector<Panel> unframed = panels_of(list);
  const TimeAxis time = time_axis_of(list, unframed);
  const Flags flags = flags_of(list.marks, time);
  const std::vector<Panel> panels = framed(unframed, time, flags.rows);
  const double top = panels.front().frame.top;
  SvgCanvas canvas;
  for (const Panel& panel : panels) draw_axis(canvas, panel);
  draw_poles(canvas, list.marks, time, top);
  for (const Panel& panel : panels) draw_panel(canvas, list, panel, time);
  draw_time_axis(canvas, time);
  draw_flags(canvas, list.marks, flags, time, top - 1.0);
  return as_svg(list, id, canvas.text());
}

}  // namespace firstdrop
