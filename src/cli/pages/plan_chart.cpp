#include "cli/pages/plan_chart.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "output/drawing.hpp"
#include "output/run_curves.hpp"

namespace firstdrop::cli {
namespace {

constexpr int rows = 9;
constexpr int widest_chart = 100;
constexpr int narrowest_plot = 8;
constexpr int flag_rows = 3;
constexpr std::size_t few_changes = 3;

// A braille character is two dots wide and four high. These are the bits of its dots, by column and
// row (Unicode Standard, chapter 21.1).
constexpr int dots_across = 2;
constexpr int dots_down = 4;
constexpr std::array<std::array<unsigned, 4>, 2> dot_bit = {
    {{0x01, 0x02, 0x04, 0x40}, {0x08, 0x10, 0x20, 0x80}}};

std::string braille(unsigned dots) {
  // U+2800 and up, in UTF-8.
  std::string out = "\xE2";
  out += static_cast<char>(0xA0U | (dots >> 6U));
  out += static_cast<char>(0x80U | (dots & 0x3FU));
  return out;
}

std::string trimmed(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line + "\n";
}

std::string joined_cells(const std::vector<std::string>& cells) {
  std::string line;
  for (const std::string& cell : cells) line += cell;
  return line;
}

bool in_plot(const Curve& curve) {
  return curve.axis == CurveAxis::water;
}

// ---- the plot

/// The plot and its axes, in characters.
struct Plot {
  bool ascii = false;
  int left = 0;  ///< columns before the vertical axis
  int columns = 0;
  int room = 0;      ///< columns after the vertical axis, with those of the words beside the plot
  double top = 0.0;  ///< of the vertical axis, in m³
  Duration stop;     ///< end of the time axis
  std::array<std::string, rows> names;  ///< of the vertical axis

  const char* mark(const char* unicode, const char* as_ascii) const {
    return ascii ? as_ascii : unicode;
  }
  /// 0 at the top of the axis, `steps` - 1 at its bottom, where the volume is zero.
  int level(double si, int steps) const {
    return static_cast<int>(std::lround((1.0 - si / top) * (steps - 1)));
  }
  int row_of(double si) const {
    return ascii ? level(si, rows) : level(si, rows * dots_down) / dots_down;
  }
  Duration time_at(int step, int steps) const {
    return stop * (static_cast<double>(step) / (steps - 1));
  }
  int column_of(Duration at) const {
    return static_cast<int>(std::lround(double(at / stop) * (columns - 1)));
  }
};

/// What stands beside a row of the plot.
struct EndWords {
  int row = 0;
  std::string text;
  bool warns = false;
};

std::string sign_of(const Curve& curve, const Plot& plot) {
  if (plot.ascii) return std::string(1, curve.letter);
  if (is_level(curve.line)) return "╌";
  return curve.line == Line::dashed ? "▒" : "─";
}

/// Each in a row of its own, as near to its curve as possible.
std::vector<EndWords> end_words(const std::vector<Curve>& curves, const Plot& plot) {
  std::vector<EndWords> list;
  for (const bool levels : {false, true}) {
    for (const Curve& curve : curves) {
      if (!in_plot(curve) || is_level(curve.line) != levels) continue;
      list.push_back({plot.row_of(curve.end.si),
                      fmt::format("{} {} {}", sign_of(curve, plot), curve.name, curve.end.text),
                      curve.line == Line::danger});
    }
  }
  std::stable_sort(list.begin(), list.end(),
                   [](const EndWords& a, const EndWords& b) { return a.row < b.row; });
  for (std::size_t i = 1; i < list.size(); ++i)
    list[i].row = std::max(list[i].row, list[i - 1].row + 1);
  int lowest = rows - 1;
  for (std::size_t i = list.size(); i-- > 0; --lowest)
    list[i].row = lowest = std::min(list[i].row, lowest);
  return list;
}

/// The vertical axis of a plot whose width isn't settled yet.
Plot vertical_axis(const RunCurves& list, bool ascii) {
  Plot plot;
  plot.ascii = ascii;
  plot.stop = list.stop;
  double most = 0.0;
  for (const Curve& curve : list.curves) {
    if (!in_plot(curve)) {
      plot.left = std::max(plot.left, text_width(curve.name));
      continue;
    }
    for (const CurvePoint& point : curve.points) most = std::max(most, point.si);
  }
  const MarkUnit unit = mark_unit(Volume::from_si(most), list.units);
  const std::vector<double> marks = round_marks(0.0, unit.of(Volume::from_si(most)), 5);
  const std::vector<std::string> names = mark_names(marks, unit.name);
  plot.top = (unit.one * marks.back()).si();
  for (std::size_t i = 0; i < marks.size(); ++i) {
    plot.left = std::max(plot.left, text_width(names[i]));
    const int row = plot.row_of((unit.one * marks[i]).si());
    plot.names[static_cast<std::size_t>(row)] = names[i];
  }
  plot.left += 2;
  return plot;
}

/// As wide as the terminal has room beside the words.
Plot widened(Plot plot, const std::vector<Curve>& curves, const std::vector<EndWords>& words,
             int width) {
  int right = 0;
  for (const EndWords& w : words) right = std::max(right, text_width(w.text));
  for (const Curve& curve : curves) {
    if (!in_plot(curve)) right = std::max(right, text_width(curve.end.text));
  }
  plot.room = std::min(width, widest_chart) - plot.left - 1;
  plot.columns = std::max(plot.room - 1 - right, narrowest_plot);
  return plot;
}

/// The value of a curve, interpolated linearly. None before its first point.
std::optional<double> value_at(const Curve& curve, Duration at) {
  const std::vector<CurvePoint>& points = curve.points;
  if (points.empty() || at < points.front().at) return std::nullopt;
  if (is_level(curve.line)) return points.front().si;
  const auto after = std::find_if(points.begin(), points.end(),
                                  [&](const CurvePoint& point) { return point.at >= at; });
  if (after == points.begin()) return points.front().si;
  if (after == points.end()) return points.back().si;
  const CurvePoint& before = *(after - 1);
  const double share = (at - before.at) / (after->at - before.at);
  return before.si + (after->si - before.si) * share;
}

using Cells = std::vector<std::vector<std::string>>;

Cells empty_cells(const Plot& plot) {
  return Cells(rows, std::vector<std::string>(static_cast<std::size_t>(plot.columns), " "));
}

std::string& cell(Cells& cells, int row, int column) {
  return cells[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)];
}

/// Each curve as its letter. A star is where two curves meet; levels are behind all others.
Cells in_letters(const std::vector<Curve>& curves, const Plot& plot) {
  Cells cells = empty_cells(plot);
  for (int c = 0; c < plot.columns; ++c) {
    for (const bool levels : {true, false}) {
      for (const Curve& curve : curves) {
        if (!in_plot(curve) || is_level(curve.line) != levels) continue;
        const auto value = value_at(curve, plot.time_at(c, plot.columns));
        if (!value) continue;
        std::string& at = cell(cells, plot.row_of(*value), c);
        at = levels || at == " " || at == "-" ? std::string(1, curve.letter) : "*";
      }
    }
  }
  return cells;
}

/// The dots of a plot, as the bits of its characters.
struct Dots {
  explicit Dots(int width) : columns(width), bits(static_cast<std::size_t>(rows * width)) {}

  int columns;
  std::vector<unsigned> bits;

  void put(int x, int y) {
    bits[static_cast<std::size_t>(y / dots_down * columns + x / dots_across)] |=
        dot_bit[static_cast<std::size_t>(x % dots_across)][static_cast<std::size_t>(y % dots_down)];
  }
};

/// A dashed line looks like a solid one here, so the area under it is shaded.
void put_curve(const Curve& curve, const Plot& plot, Dots& lines, Dots& shade) {
  const int across = plot.columns * dots_across;
  const int down = rows * dots_down;
  std::optional<int> before;
  for (int x = 0; x < across; ++x) {
    const auto value = value_at(curve, plot.time_at(x, across));
    if (!value) continue;
    const int surface = plot.level(*value, down);
    // Fills the rows in between, so that a steep fall has no gaps.
    for (int y = std::min(before.value_or(surface) + 1, surface); y <= surface; ++y)
      lines.put(x, y);
    before = surface;
    if (curve.line != Line::dashed) continue;
    for (int y = surface + 1; y < down; ++y) {
      if (x % 2 == 0 && (y + x) % 4 == 0) shade.put(x, y);
    }
  }
}

/// Levels are behind the curves and in front of their shade.
Cells in_dots(const std::vector<Curve>& curves, const Plot& plot) {
  Dots lines(plot.columns);
  Dots shade(plot.columns);
  std::array<bool, rows> has_level{};
  for (const Curve& curve : curves) {
    if (!in_plot(curve)) continue;
    if (is_level(curve.line)) {
      has_level[static_cast<std::size_t>(plot.row_of(curve.end.si))] = true;
    } else {
      put_curve(curve, plot, lines, shade);
    }
  }
  Cells cells = empty_cells(plot);
  for (int row = 0; row < rows; ++row) {
    for (int c = 0; c < plot.columns; ++c) {
      const auto at = static_cast<std::size_t>(row * plot.columns + c);
      if (lines.bits[at] == 0 && has_level[static_cast<std::size_t>(row)])
        cell(cells, row, c) = "╌";
      else if ((lines.bits[at] | shade.bits[at]) != 0)
        cell(cells, row, c) = braille(lines.bits[at] | shade.bits[at]);
    }
  }
  return cells;
}

std::string plot_lines(const Plot& plot, const Cells& cells, const std::vector<EndWords>& words,
                       const Look& look) {
  std::string out;
  for (int row = 0; row < rows; ++row) {
    const std::string& name = plot.names[static_cast<std::size_t>(row)];
    std::string line = right(name, plot.left - 1) + " " +
                       (name.empty() ? plot.mark("│", "|") : plot.mark("┤", "+")) +
                       joined_cells(cells[static_cast<std::size_t>(row)]);
    for (const EndWords& w : words) {
      if (w.row == row) line += " " + (w.warns ? styled(w.text, Style::warn, look) : w.text);
    }
    out += trimmed(line);
  }
  return out;
}

// ---- below the plot

/// A curve over time in one line. Each character's height or darkness shows its value as a share of
/// its maximum.
std::string curve_line(const Curve& curve, const Plot& plot) {
  static constexpr std::array<const char*, 9> blocks = {" ", "▁", "▂", "▃", "▄",
                                                        "▅", "▆", "▇", "█"};
  static constexpr std::array<const char*, 9> shades = {" ", ".", ":", "-", "=",
                                                        "+", "*", "#", "@"};
  double most = 0.0;
  for (const CurvePoint& point : curve.points) most = std::max(most, point.si);
  std::string line = right(curve.name, plot.left - 1) + " " + plot.mark("│", "|");
  for (int c = 0; c < plot.columns; ++c) {
    const double share = value_at(curve, plot.time_at(c, plot.columns)).value_or(0.0) / most;
    const auto step = static_cast<std::size_t>(std::clamp(std::lround(share * 8.0), 0L, 8L));
    line += (plot.ascii ? shades : blocks)[step];
  }
  return trimmed(line + " " + curve.end.text);
}

std::string axis_lines(const Plot& plot) {
  std::vector<std::string> axis(static_cast<std::size_t>(plot.columns), plot.mark("─", "-"));
  const int begin = plot.left + 1;
  std::string numbers(static_cast<std::size_t>(begin), ' ');
  const auto most = static_cast<std::size_t>(plot.columns / 9 + 2);
  for (const double m : minute_marks(in_minutes(plot.stop), most)) {
    const int column = plot.column_of(minutes(m));
    axis[static_cast<std::size_t>(column)] = plot.mark("┴", "+");
    const std::string name = fmt::format("{:.0f}", m);
    const int at = begin + std::max(0, column - text_width(name) / 2);
    if (at + text_width(name) > begin + plot.columns) continue;
    numbers = padded(numbers, at) + name;
  }
  return trimmed(right(plot.mark("└", "+"), begin) + joined_cells(axis)) +
         trimmed(padded(numbers, begin + plot.columns) + " min");
}

std::string sign_line(const std::vector<RunMark>& marks, const Plot& plot) {
  std::vector<std::string> signs(static_cast<std::size_t>(plot.columns), " ");
  // The first ones are the most important, so they are put last.
  for (auto mark = marks.rbegin(); mark != marks.rend(); ++mark) {
    signs[static_cast<std::size_t>(plot.column_of(mark->at))] =
        mark->kind == MarkKind::ice ? plot.mark("◆", "i") : plot.mark("▲", "^");
  }
  return joined_cells(signs);
}

/// A flag with its words, in the columns after the vertical axis.
struct WordedFlag {
  Flag flag;
  std::string words;
};

std::vector<WordedFlag> worded_flags(const std::vector<RunMark>& marks, const Plot& plot) {
  const auto changes = static_cast<std::size_t>(std::count_if(
      marks.begin(), marks.end(), [](const RunMark& mark) { return mark.kind == MarkKind::ice; }));
  const std::vector<std::string> words = flag_words(
      marks,
      [&](const RunMark& mark) {
        return mark.kind == MarkKind::ice && changes > few_changes ? mark.words.back()
                                                                   : mark.moment;
      },
      [&](const RunMark& a, const RunMark& b) {
        return plot.column_of(a.at) == plot.column_of(b.at);
      });
  std::vector<WordedFlag> flags;
  for (std::size_t i = 0; i < marks.size(); ++i) {
    if (words[i].empty()) continue;
    const auto width = static_cast<double>(text_width(words[i]));
    flags.push_back({{plot.column_of(marks[i].at) + 0.5, width}, words[i]});
  }
  return flags;
}

/// Places in as few rows as all flags need.
std::vector<std::optional<FlagPlace>> places_for(const std::vector<WordedFlag>& worded, int room) {
  std::vector<Flag> flags;
  for (const WordedFlag& one : worded) flags.push_back(one.flag);
  std::vector<std::optional<FlagPlace>> places;
  for (int row_count = 1; row_count <= flag_rows; ++row_count) {
    places = place_flags(flags, 0.0, room, row_count, 2.0);
    if (std::all_of(places.begin(), places.end(), [](const auto& p) { return p.has_value(); }))
      break;
  }
  return places;
}

std::string flag_line(int row, const std::vector<WordedFlag>& flags,
                      const std::vector<std::optional<FlagPlace>>& places, const Plot& plot) {
  // Flags may also use the space below the names of the curves.
  std::vector<std::string> line(static_cast<std::size_t>(plot.room), " ");
  for (std::size_t i = 0; i < flags.size(); ++i) {
    if (!places[i]) continue;
    const Flag& flag = flags[i].flag;
    if (places[i]->row > row) {
      line[static_cast<std::size_t>(flag.x)] = plot.mark("│", "|");
    } else if (places[i]->row == row) {
      // A flag to the left of its pole ends in the pole's own column.
      const double left = places[i]->left;
      const bool ends = left + flag.width <= flag.x;
      auto at = static_cast<std::size_t>(ends ? std::ceil(left) : std::floor(left));
      for (const char c : flags[i].words) line[at++] = std::string(1, c);
    }
  }
  return joined_cells(line);
}

std::string mark_lines(const std::vector<RunMark>& all, const Plot& plot) {
  std::vector<RunMark> marks;
  std::copy_if(all.begin(), all.end(), std::back_inserter(marks),
               [&](const RunMark& mark) { return mark.at <= plot.stop; });
  const std::vector<WordedFlag> flags = worded_flags(marks, plot);
  const auto places = places_for(flags, plot.room);
  int used = 0;
  for (const auto& place : places) used = std::max(used, place ? place->row + 1 : 0);
  const std::string margin(static_cast<std::size_t>(plot.left + 1), ' ');
  std::string out = trimmed(margin + sign_line(marks, plot));
  for (int row = 0; row < used; ++row) out += trimmed(margin + flag_line(row, flags, places, plot));
  return out;
}

}  // namespace

std::string plan_chart(const Plan& plan, const Look& look) {
  const RunCurves list = run_curves(plan, &Shown::on_terminal);
  const Plot axis = vertical_axis(list, look.ascii);
  const std::vector<EndWords> words = end_words(list.curves, axis);
  const Plot plot = widened(axis, list.curves, words, look.width);
  const Cells cells = look.ascii ? in_letters(list.curves, plot) : in_dots(list.curves, plot);
  std::string out = plot_lines(plot, cells, words, look);
  for (const Curve& curve : list.curves) {
    if (!in_plot(curve)) out += curve_line(curve, plot);
  }
  return out + axis_lines(plot) + mark_lines(list.marks, plot);
}

}  // namespace firstdrop::cli
