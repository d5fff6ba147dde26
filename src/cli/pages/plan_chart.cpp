#include "cli/pages/plan_chart.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "output/drawing.hpp"
#include "quantity/numbers_text.hpp"
#include "quantity/volume_marks.hpp"

namespace firstdrop::cli {
namespace {

constexpr int rows = 9;
constexpr int widest_chart = 100;
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

class Chart {
 public:
  Chart(const Plan& plan, const RunPlan& run, const Look& look)
      : run_(run), look_(look), units_(plan.recipe.units) {
    for (const TimelinePoint& point : run.timeline) {
      if (point.at <= run.times.stop) course_.push_back(point);
    }
  }

  std::string draw() {
    reckon();
    std::string out;
    if (look_.ascii) {
      letters();
    } else {
      dots();
    }
    for (int row = 0; row < rows; ++row) out += plot_line(row);
    if (most_oil_ >= millilitres(0.005)) out += oil_line();
    out += axis_lines();
    out += flag_lines();
    return out;
  }

 private:
  const char* mark(const char* unicode, const char* ascii) const {
    return look_.ascii ? ascii : unicode;
  }
  template <class Q>
  std::string say(Q quantity) const {
    return text(quantity, units_);
  }

  void reckon() {
    Volume most = run_.water.reserve;
    for (const TimelinePoint& point : course_) {
      most = std::max({most, point.pot_water, point.hydrosol});
      most_oil_ = std::max(most_oil_, point.oil.typical);
    }
    const MarkUnit unit = mark_unit(most, units_);
    const std::vector<double> marks = round_marks(0.0, unit.of(most), 5);
    top_ = unit.one * marks.back();
    left_ = 3;  // "oil"
    const std::vector<std::string> names = mark_names(marks, unit.name);
    for (std::size_t i = 0; i < marks.size(); ++i) {
      left_ = std::max(left_, text_width(names[i]));
      names_[static_cast<std::size_t>(row_of(unit.one * marks[i]))] = names[i];
    }
    left_ += 2;

    words_ = {{row_of(run_.water.left_at_stop),
               std::string(mark("─", "w")) + " pot water " + say(run_.water.left_at_stop)},
              {row_of(run_.uncertainty.hydrosol.typical),
               std::string(mark("▒", "h")) + " hydrosol " + say(run_.uncertainty.hydrosol.typical)},
              {row_of(run_.water.reserve),
               std::string(mark("╌", "-")) + " reserve " + say(run_.water.reserve), true}};
    std::stable_sort(words_.begin(), words_.end(),
                     [](const Words& a, const Words& b) { return a.row < b.row; });
    for (std::size_t i = 1; i < words_.size(); ++i)
      words_[i].row = std::max(words_[i].row, words_[i - 1].row + 1);
    int lowest = rows - 1;
    for (std::size_t i = words_.size(); i-- > 0; --lowest)
      words_[i].row = lowest = std::min(words_[i].row, lowest);

    oil_words_ = say(run_.uncertainty.oil_volume.typical);
    int right = text_width(oil_words_);
    for (const Words& w : words_) right = std::max(right, text_width(w.text));
    columns_ = std::max(std::min(look_.width, widest_chart) - left_ - 1 - 1 - right, 8);
    cells_.assign(rows, std::vector<std::string>(static_cast<std::size_t>(columns_), " "));
  }

  // 0 at the top of the axis, `steps` - 1 at its bottom, where the volume is zero.
  int level(Volume v, int steps) const {
    return static_cast<int>(std::lround((1.0 - double(v / top_)) * (steps - 1)));
  }
  int row_of(Volume v) const {
    return look_.ascii ? level(v, rows) : level(v, rows * dots_down) / dots_down;
  }

  Duration time_at(int step, int steps) const {
    return run_.times.stop * (static_cast<double>(step) / (steps - 1));
  }
  int column_of(Duration at) const {
    return static_cast<int>(std::lround(double(at / run_.times.stop) * (columns_ - 1)));
  }

  // Interpolates linearly between the points of the timeline.
  template <class Value>
  Volume value_at(Duration at, Value value) const {
    const auto after = std::find_if(course_.begin(), course_.end(),
                                    [&](const TimelinePoint& p) { return p.at >= at; });
    if (after == course_.begin()) return value(course_.front());
    if (after == course_.end()) return value(course_.back());
    const TimelinePoint& before = *(after - 1);
    const double share = (at - before.at) / (after->at - before.at);
    return value(before) + (value(*after) - value(before)) * share;
  }
  static Volume pot_water(const TimelinePoint& p) { return p.pot_water; }
  static Volume hydrosol(const TimelinePoint& p) { return p.hydrosol; }
  static Volume oil(const TimelinePoint& p) { return p.oil.typical; }

  std::string& cell(int row, int column) {
    return cells_[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)];
  }

  void letters() {
    for (int c = 0; c < columns_; ++c) {
      const Duration at = time_at(c, columns_);
      cell(row_of(run_.water.reserve), c) = "-";
      const Volume caught = value_at(at, hydrosol);
      const int water_row = row_of(value_at(at, pot_water));
      if (caught > Volume()) cell(row_of(caught), c) = "h";
      cell(water_row, c) = caught > Volume() && row_of(caught) == water_row ? "*" : "w";
    }
  }

  void dots() {
    const int across = columns_ * dots_across;
    const int down = rows * dots_down;
    const auto size = static_cast<std::size_t>(rows * columns_);
    std::vector<unsigned> lines(size);
    std::vector<unsigned> shade(size);
    const auto put = [&](std::vector<unsigned>& layer, int x, int y) {
      const auto at = static_cast<std::size_t>(y / dots_down * columns_ + x / dots_across);
      layer[at] |= dot_bit[static_cast<std::size_t>(x % dots_across)]
                          [static_cast<std::size_t>(y % dots_down)];
    };
    int before = level(value_at(Duration(), pot_water), down);
    for (int x = 0; x < across; ++x) {
      const Duration at = time_at(x, across);
      // Fills the rows in between, so that a steep line has no gaps.
      const int water = level(value_at(at, pot_water), down);
      for (int y = std::min(before + 1, water); y <= water; ++y) put(lines, x, y);
      before = water;
      const Volume caught = value_at(at, hydrosol);
      if (caught <= Volume()) continue;
      const int surface = level(caught, down);
      put(lines, x, surface);
      for (int y = surface + 1; y < down; ++y) {
        if (x % 2 == 0 && (y + x) % 4 == 0) put(shade, x, y);
      }
    }
    const int reserve = row_of(run_.water.reserve);
    for (int row = 0; row < rows; ++row) {
      for (int c = 0; c < columns_; ++c) {
        const auto at = static_cast<std::size_t>(row * columns_ + c);
        if (lines[at] == 0 && row == reserve)
          cell(row, c) = "╌";
        else if ((lines[at] | shade[at]) != 0)
          cell(row, c) = braille(lines[at] | shade[at]);
      }
    }
  }

  static std::string trimmed(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line + "\n";
  }

  std::string plot_line(int row) const {
    const std::string& name = names_[static_cast<std::size_t>(row)];
    std::string line =
        right(name, left_ - 1) + " " + (name.empty() ? mark("│", "|") : mark("┤", "+"));
    for (const std::string& c : cells_[static_cast<std::size_t>(row)]) line += c;
    for (const Words& w : words_) {
      if (w.row == row) line += " " + (w.warns ? styled(w.text, Style::warn, look_) : w.text);
    }
    return trimmed(line);
  }

  // The oil over time. Each character's height or darkness shows the oil as a share of its maximum.
  std::string oil_line() const {
    static constexpr std::array<const char*, 9> blocks = {" ", "▁", "▂", "▃", "▄",
                                                          "▅", "▆", "▇", "█"};
    static constexpr std::array<const char*, 9> shades = {" ", ".", ":", "-", "=",
                                                          "+", "*", "#", "@"};
    std::string line = right("oil", left_ - 1) + " " + mark("│", "|");
    for (int c = 0; c < columns_; ++c) {
      const double share = value_at(time_at(c, columns_), oil) / most_oil_;
      const auto step = static_cast<std::size_t>(std::clamp(std::lround(share * 8.0), 0L, 8L));
      line += (look_.ascii ? shades : blocks)[step];
    }
    return trimmed(line + " " + oil_words_);
  }

  std::string axis_lines() const {
    std::vector<std::string> axis(static_cast<std::size_t>(columns_), mark("─", "-"));
    std::string numbers = std::string(static_cast<std::size_t>(left_ + 1), ' ');
    const double end = in_minutes(run_.times.stop);
    for (const double m : minute_marks(end, static_cast<std::size_t>(columns_ / 9 + 2))) {
      const int column = column_of(minutes(m));
      axis[static_cast<std::size_t>(column)] = mark("┴", "+");
      const std::string name = fmt::format("{:.0f}", m);
      const int at = left_ + 1 + std::max(0, column - text_width(name) / 2);
      if (at + text_width(name) > left_ + 1 + columns_) continue;
      numbers = padded(numbers, at) + name;
    }
    std::string line = right(mark("└", "+"), left_ + 1);
    for (const std::string& c : axis) line += c;
    return trimmed(line) + trimmed(padded(numbers, left_ + 1 + columns_) + " min");
  }

  struct Event {
    Duration at;
    std::string words;
    const char* sign;
  };

  std::vector<Event> events() const {
    const TimesPlan& t = run_.times;
    const char* planned = mark("▲", "^");
    // If both are in the same column, they share one flag.
    const bool at_once = column_of(t.boil) == column_of(t.first_drop);
    const std::string boils = "boils " + say(t.boil);
    const std::string drops = "first drop " + say(t.first_drop);
    std::vector<Event> list = {{t.stop, "stop " + say(t.stop), planned},
                               {t.first_drop, at_once ? boils + ", " + drops : drops, planned},
                               {t.boil, at_once ? "" : boils, planned},
                               {Duration(), "heat on", planned}};
    const auto& ice = run_.cooling.ice_changes;
    for (std::size_t i = 0; i < ice.size(); ++i) {
      std::string words = "ice " + say(ice[i].at);
      if (ice.size() > few_changes) words = i == 0 ? fmt::format("ice {} times", ice.size()) : "";
      list.push_back({ice[i].at, words, mark("◆", "i")});
    }
    list.erase(
        std::remove_if(list.begin(), list.end(), [&](const Event& e) { return e.at > t.stop; }),
        list.end());
    return list;
  }

  std::string flag_lines() const {
    const std::vector<Event> list = events();
    std::vector<std::string> signs(static_cast<std::size_t>(columns_), " ");
    std::vector<Flag> flags;
    std::vector<const Event*> whose;
    for (auto e = list.rbegin(); e != list.rend(); ++e)
      signs[static_cast<std::size_t>(column_of(e->at))] = e->sign;
    for (const Event& e : list) {
      if (e.words.empty()) continue;
      flags.push_back({column_of(e.at) + 0.5, static_cast<double>(text_width(e.words))});
      whose.push_back(&e);
    }
    // Flags may also use the space below the names of the curves.
    const double room = std::min(look_.width, widest_chart) - left_ - 1;
    std::vector<std::optional<FlagPlace>> places;
    int used = 1;
    for (; used <= flag_rows; ++used) {
      places = place_flags(flags, 0.0, room, used, 2.0);
      if (std::all_of(places.begin(), places.end(), [](const auto& p) { return p.has_value(); }))
        break;
    }
    const std::string margin(static_cast<std::size_t>(left_ + 1), ' ');
    std::string out = margin;
    for (const std::string& s : signs) out += s;
    out = trimmed(out);
    for (int row = 0; row < std::min(used, flag_rows); ++row) {
      std::vector<std::string> line(static_cast<std::size_t>(room), " ");
      for (std::size_t i = 0; i < places.size(); ++i) {
        if (!places[i]) continue;
        if (places[i]->row > row) {
          line[static_cast<std::size_t>(flags[i].x)] = mark("│", "|");
        } else if (places[i]->row == row) {
          // A flag to the left of its pole ends in the pole's own column.
          const double left = places[i]->left;
          const bool ends = left + flags[i].width <= flags[i].x;
          auto at = static_cast<std::size_t>(ends ? std::ceil(left) : std::floor(left));
          for (const char c : whose[i]->words) line[at++] = std::string(1, c);
        }
      }
      std::string words = margin;
      for (const std::string& c : line) words += c;
      out += trimmed(words);
    }
    return out;
  }

  struct Words {
    int row = 0;
    std::string text;
    bool warns = false;
  };

  const RunPlan& run_;
  const Look& look_;
  Units units_;
  std::vector<TimelinePoint> course_;  ///< up to the stop
  Volume top_;                         ///< of the axis
  Volume most_oil_;
  int left_ = 0;  ///< columns before the vertical axis
  int columns_ = 0;
  std::array<std::string, rows> names_;
  std::vector<Words> words_;  ///< at the curves' ends
  std::string oil_words_;
  std::vector<std::vector<std::string>> cells_;
};

}  // namespace

std::string plan_chart(const Plan& plan, const Look& look) {
  return Chart(plan, plan.runnable(), look).draw();
}

}  // namespace firstdrop::cli
