#include <fmt/core.h>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <vector>

#include "base/visible_text.hpp"
#include "firstdrop/output/write.hpp"
#include "output/drawing.hpp"
#include "output/stop_bounds.hpp"
#include "quantity/clock_time.hpp"
#include "quantity/numbers_text.hpp"
#include "quantity/volume_marks.hpp"

namespace firstdrop {
namespace {

// The unit of the drawing is a third of a millimetre.
constexpr Frame paper{0.0, 0.0, 558.0, 162.0};
constexpr double unit_per_mm = 3.0;
constexpr double letters = 8.2;  // 2.73 mm, 7.75 pt
constexpr double line_height = 9.8;
constexpr double baseline = 7.4;  // below the top of a line
constexpr double flag_row = 10.2;
constexpr double usual_width = 0.9;  // usual width of a text, as a share of its upper bound
constexpr double panel_gap = 9.0;

constexpr const char* ink = "#111";
constexpr const char* faint = "#c4c4c4";
constexpr const char* alarm = "#98201c";

// The time axis ends at the reserve if the run then takes up at least half of the width. Otherwise
// it leaves room for what stands beside the ends of the curves.
constexpr double longest_wait = 2.0;  // times the run
constexpr double room_beside = 1.45;
// Events closer together on paper than this are drawn as one.
constexpr double at_once = 2.5;

std::string number(double x) {
  std::string text = fmt::format("{:.1f}", x);
  if (text.ends_with(".0")) text.resize(text.size() - 2);
  return text == "-0" ? "0" : text;
}

enum class Anchor { start, middle, end };

/// Collects SVG elements, one per line.
class Canvas {
 public:
  void raw(const std::string& element) { out_ += element + "\n"; }

  void line(Spot a, Spot b, const std::string& look) {
    raw(fmt::format(R"(<line x1="{}" y1="{}" x2="{}" y2="{}" {}/>)", number(a.x), number(a.y),
                    number(b.x), number(b.y), look));
  }
  void polyline(const std::vector<Spot>& spots, const std::string& look) {
    if (spots.size() < 2) return;
    raw(fmt::format(R"(<polyline points="{}" fill="none" {}/>)", points(spots), look));
  }
  void dot(Spot at, const std::string& colour) {
    raw(fmt::format(R"(<circle cx="{}" cy="{}" r="1.1" fill="{}"/>)", number(at.x), number(at.y),
                    colour));
  }
  void polygon(const std::vector<Spot>& spots, const std::string& look) {
    raw(fmt::format(R"(<polygon points="{}" {}/>)", points(spots), look));
  }
  void words(Spot at, const std::string& text, Anchor anchor = Anchor::start,
             const std::string& look = "") {
    const char* where = anchor == Anchor::start    ? ""
                        : anchor == Anchor::middle ? R"( text-anchor="middle")"
                                                   : R"( text-anchor="end")";
    raw(fmt::format(R"(<text x="{}" y="{}"{}{}{}>{}</text>)", number(at.x), number(at.y), where,
                    look.empty() ? "" : " ", look, as_markup(text)));
  }
  // The white background lifts the letters off gridlines, poles and hatching. A white outline of
  // the letters would do that too, but a PDF would then hold their text twice.
  void label(const Frame& frame, const std::string& text, const std::string& look = "") {
    raw(fmt::format(
        R"(<rect x="{}" y="{}" width="{}" height="{}" fill="#fff" fill-opacity="0.85"/>)",
        number(frame.left - 1.0), number(frame.top), number(frame.width() * usual_width),
        number(frame.height())));
    words({frame.left, frame.top + baseline}, text, Anchor::start, look);
  }
  // Draws each line separately, because printers turn an SVG pattern into a coarse raster.
  void hatched(const std::vector<Spot>& polygon, bool rising) {
    std::string path;
    for (const Stretch& s : hatching(polygon, rising, 3.0)) {
      if (s.to.x - s.from.x < 0.3) continue;
      path += fmt::format("M{} {}L{} {}", number(s.from.x), number(s.from.y), number(s.to.x),
                          number(s.to.y));
    }
    if (!path.empty())
      raw(fmt::format(R"(<path d="{}" fill="none" stroke="#777" stroke-width="0.6"/>)", path));
    polyline(polygon, R"(stroke="#555" stroke-width="0.5")");
  }
  const std::string& text() const { return out_; }

 private:
  static std::string points(const std::vector<Spot>& spots) {
    std::string list;
    for (const Spot s : spots) list += (list.empty() ? "" : " ") + number(s.x) + "," + number(s.y);
    return list;
  }
  std::string out_;
};

/// A panel's vertical axis.
struct Scale {
  double bottom_value = 0.0;
  double top_value = 1.0;
  Frame frame;
  double y(double value) const {
    return frame.bottom - (value - bottom_value) / (top_value - bottom_value) * frame.height();
  }
};

class Picture {
 public:
  Picture(const Plan& plan, const RunPlan& run, std::string_view id)
      : plan_(plan),
        run_(run),
        id_(id),
        units_(plan.recipe.units),
        start_(parse_local_minute(plan.recipe.start)),
        stop_(in_minutes(run.times.stop)) {
    for (const TimelinePoint& point : run.timeline) {
      if (point.at <= run.times.stop) course_.push_back(point);
    }
  }

  std::string draw() {
    reckon();
    lay_out();
    frame_panels();
    poles();
    water_panel();
    if (oil_) oil_panel();
    if (coolant_) coolant_panel();
    time_axis();
    flags();
    return wrapped();
  }

 private:
  template <class Q>
  std::string say(Q quantity) const {
    return text(quantity, units_);
  }
  template <class Q>
  std::string span(const Range<Q>& range) const {
    return span_text(say(range.low), say(range.high));
  }
  template <class Q>
  bool has_span(const Range<Q>& range) const {
    return say(range.low) != say(range.high);
  }

  // Decides what to draw, and the ends of the axes.
  void reckon() {
    const double longest = stop_ * longest_wait;
    const double reserve = in_minutes(run_.times.reserve) * 1.02;
    const double late = std::min(in_minutes(run_.uncertainty.stop.high), longest);
    end_ = std::max(late, reserve <= longest ? reserve : stop_ * room_beside);

    Volume most_water = run_.uncertainty.hydrosol.high;
    Volume most_oil;
    for (const TimelinePoint& point : course_) {
      most_water = std::max({most_water, point.pot_water, point.hydrosol});
      most_oil = std::max(most_oil, point.oil.high);
      if (point.coolant) {
        const double t = degrees(*point.coolant);
        const double limit = degrees(plan_.recipe.still->condenser.coolant_limit.typical());
        if (!coolant_) coolant_ = Scale{std::min(t, limit), std::max(t, limit), {}};
        coolant_->bottom_value = std::min(coolant_->bottom_value, t);
        coolant_->top_value = std::max(coolant_->top_value, t);
      }
    }
    water_unit_ = mark_unit(most_water, units_);
    water_.top_value = water_unit_.of(most_water);
    if (most_oil >= a_drop_of_oil) {
      oil_unit_ = mark_unit(most_oil, units_);
      oil_ = Scale{0.0, oil_unit_.of(most_oil), {}};
    }
  }

  double degrees(Temperature t) const {
    return units_ == Units::us ? in_celsius(t) * 1.8 + 32.0 : in_celsius(t);
  }
  const char* degree_sign() const { return units_ == Units::us ? "°F" : "°C"; }

  void lay_out() {
    water_marks_ = round_marks(0.0, water_.top_value, 5);
    water_.top_value = water_marks_.back();
    std::vector<std::string> names = mark_names(water_marks_, water_unit_.name);
    if (oil_) {
      oil_marks_ = round_marks(0.0, oil_->top_value, 3);
      oil_->top_value = oil_marks_.back();
      append(names, mark_names(oil_marks_, oil_unit_.name));
    }
    if (coolant_) {
      coolant_marks_ = round_marks(coolant_->bottom_value, coolant_->top_value, 3);
      coolant_->bottom_value = coolant_marks_.front();
      coolant_->top_value = coolant_marks_.back();
      append(names, mark_names(coolant_marks_, degree_sign()));
    }
    double widest = line_width("min", letters) + min_gap;
    for (const std::string& name : names)
      widest = std::max(widest, line_width(name, letters) + mark_gap);
    if (has_clock()) widest = std::max(widest, line_width("clock", letters) + clock_gap);
    left_ = paper.left + 2.0 + widest;
    right_ = paper.right - 12.0;

    place_the_flags();
    const double top = paper.top + 2.0 + rows_ * flag_row + 6.0;
    const double bottom = paper.bottom - (has_clock() ? 2.0 : 1.0) * line_height - 6.0;
    const double shares = 1.0 + (oil_ ? 0.46 : 0.0) + (coolant_ ? 0.4 : 0.0);
    const double gaps = (oil_ ? panel_gap : 0.0) + (coolant_ ? panel_gap : 0.0);
    const double unit = (bottom - top - gaps) / shares;
    double y = top;
    const auto next = [&](Scale& scale, double share) {
      scale.frame = {left_, y, right_, y + share * unit};
      y = scale.frame.bottom + panel_gap;
    };
    next(water_, 1.0);
    if (oil_) next(*oil_, 0.46);
    if (coolant_) next(*coolant_, 0.4);
    bottom_ = bottom;
  }

  template <class T>
  static void append(std::vector<T>& to, const std::vector<T>& more) {
    to.insert(to.end(), more.begin(), more.end());
  }

  double x(double minutes) const {
    return left_ + std::min(minutes, end_) / end_ * (right_ - left_);
  }
  double x(Duration at) const { return x(in_minutes(at)); }

  // ---- the axes

  void frame_panels() {
    axis(water_, water_marks_, water_unit_.name);
    if (oil_) axis(*oil_, oil_marks_, oil_unit_.name);
    if (coolant_) axis(*coolant_, coolant_marks_, degree_sign());
  }

  void axis(const Scale& scale, const std::vector<double>& marks, const char* unit) {
    const std::vector<std::string> names = mark_names(marks, unit);
    for (std::size_t i = 0; i < marks.size(); ++i) {
      const double y = scale.y(marks[i]);
      canvas_.line({left_, y}, {right_, y},
                   fmt::format(R"(stroke="{}" stroke-width="{}")", i == 0 ? ink : faint,
                               i == 0 ? "0.6" : "0.4"));
      canvas_.words({left_ - mark_gap, y + 2.9}, names[i], Anchor::end);
    }
    canvas_.line({left_, scale.frame.top}, {left_, scale.frame.bottom},
                 fmt::format(R"(stroke="{}" stroke-width="0.6")", ink));
  }

  void time_axis() {
    const double y = bottom_;
    const bool clock = has_clock();
    const double room = line_width(clock ? "00:00" : "0000", letters) + 8.0;
    const auto most = static_cast<std::size_t>((right_ - left_) / room);
    const double text_y = y + 4.0 + baseline;
    canvas_.words({left_ - min_gap, text_y}, "min", Anchor::end);
    if (clock) canvas_.words({left_ - clock_gap, text_y + line_height}, "clock", Anchor::end);
    for (const double m : minute_marks(end_, std::max<std::size_t>(most, 2))) {
      canvas_.line({x(m), y}, {x(m), y + 2.6},
                   fmt::format(R"(stroke="{}" stroke-width="0.6")", ink));
      canvas_.words({x(m), text_y}, fmt::format("{:.0f}", m), Anchor::middle);
      if (clock) canvas_.words({x(m), text_y + line_height}, clock_time(m), Anchor::middle);
    }
  }

  bool has_clock() const { return start_.has_value(); }

  // Times on another day have no mark, because the axis simply continues.
  std::string clock_time(double minute) const {
    return time_of_day(*start_, minutes(minute)).substr(0, 5);
  }

  // ---- events

  struct Event {
    double at = 0.0;  ///< minutes
    std::string words;
    enum class Mark { planned, ice, not_planned } mark = Mark::planned;
    std::optional<FlagPlace> place;
  };

  enum class IceWords { amounts, each, count };
  // How much the flags say. They say less where the full text doesn't fit.
  enum class Words { all, terse, names };

  // The most important events come first, because they get the best places.
  std::vector<Event> events(IceWords ice_words, Words detail) const {
    const bool terse = detail != Words::all;
    const TimesPlan& t = run_.times;
    std::vector<Event> list;
    const StopBounds bounds = stop_bounds(plan_);
    std::string stop = "stop " + say(t.stop);
    if (detail != Words::names) {
      stop += fmt::format("; {}: off by {}", bounds.in_any_case ? "in any case" : "level not seen",
                          say(bounds.by));
    }
    list.push_back({stop_, stop, Event::Mark::planned, {}});
    const bool one_flag = x(t.first_drop) - x(t.boil) < at_once;
    const std::string boils = "boils " + say(t.boil);
    const std::string drops = "first drop " + say(t.first_drop);
    list.push_back({in_minutes(t.first_drop),
                    one_flag ? boils + ", " + drops : drops,
                    Event::Mark::planned,
                    {}});
    list.push_back({in_minutes(t.boil), one_flag ? "" : boils, Event::Mark::planned, {}});
    std::string reserve = "at reserve";
    if (!terse) reserve += " if left on";
    reserve += " " + say(t.reserve);
    if (!terse) reserve += ", worst " + say(whole_minutes_down(t.reserve_worst));
    if (in_minutes(t.reserve) > end_) reserve += " →";
    list.push_back({in_minutes(t.reserve), reserve, Event::Mark::not_planned, {}});
    list.push_back({0.0, "heat on", Event::Mark::planned, {}});
    const std::vector<IceChange>& ice = run_.cooling.ice_changes;
    for (std::size_t i = 0; i < ice.size(); ++i) {
      std::string words;
      if (ice_words == IceWords::amounts) words = "ice " + say(ice_up(ice[i].ice, units_));
      if (ice_words == IceWords::each) words = "ice";
      if (ice_words == IceWords::count && i == 0) words = fmt::format("ice, {} times", ice.size());
      list.push_back({in_minutes(ice[i].at), words, Event::Mark::ice, {}});
    }
    return list;
  }

  // Uses as few rows as possible.
  void place_the_flags() {
    for (const Words detail : {Words::all, Words::terse, Words::names}) {
      if (place_the_flags(detail)) return;
    }
  }

  bool place_the_flags(Words detail) {
    const std::size_t changes = run_.cooling.ice_changes.size();
    for (const IceWords words : {IceWords::amounts, IceWords::each, IceWords::count}) {
      if (words != IceWords::count && changes > few_changes) continue;
      for (rows_ = 1; rows_ <= most_rows; ++rows_) {
        events_ = events(words, detail);
        if (put_flags()) return true;
      }
      if (changes == 0) break;
    }
    rows_ = most_rows;
    return false;
  }

  bool put_flags() {
    std::vector<Flag> wanted;
    std::vector<std::size_t> whose;
    for (std::size_t i = 0; i < events_.size(); ++i) {
      if (events_[i].words.empty()) continue;
      const double bold = i == 0 ? bold_width : 1.0;
      wanted.push_back({x(events_[i].at), line_width(events_[i].words, letters) * bold});
      whose.push_back(i);
    }
    const auto places = place_flags(wanted, paper.left + 2.0, paper.right - 2.0, rows_, flag_gap);
    bool all = true;
    for (std::size_t i = 0; i < places.size(); ++i) {
      events_[whose[i]].place = places[i];
      all = all && places[i].has_value();
    }
    return all;
  }

  // The poles of events run down through all panels, so that every curve can be read at them.
  void poles() {
    for (const Event& event : events_) {
      if (event.mark == Event::Mark::ice || event.at <= 0.0 || event.at > end_) continue;
      const bool is_stop = event.at == stop_;
      const double top = water_.frame.top;
      canvas_.line(
          {x(event.at), top}, {x(event.at), bottom_},
          event.mark == Event::Mark::not_planned
              ? fmt::format(R"(stroke="{}" stroke-width="0.5" stroke-dasharray="0.8 2.4")", alarm)
              : fmt::format(R"(stroke="{}" stroke-width="{}")", is_stop ? ink : "#888",
                            is_stop ? "0.9" : "0.5"));
    }
  }

  void flags() {
    const double rail = water_.frame.top - 1.0;
    for (const Event& event : events_) {
      const Spot tip{x(event.at), rail};
      const bool reserve = event.mark == Event::Mark::not_planned;
      const bool in_sight = event.at <= end_;
      if (in_sight) {
        const std::string look = event.mark == Event::Mark::planned
                                     ? fmt::format(R"(fill="{}")", ink)
                                     : fmt::format(R"(fill="#fff" stroke="{}" stroke-width="0.7")",
                                                   reserve ? alarm : ink);
        const double half = 2.2;
        if (event.mark == Event::Mark::ice) {
          canvas_.polygon(
              {{tip.x, tip.y - 4.4}, {tip.x + half, tip.y - 2.2}, tip, {tip.x - half, tip.y - 2.2}},
              look);
        } else {
          canvas_.polygon({{tip.x - half, tip.y - 4.0}, {tip.x + half, tip.y - 4.0}, tip}, look);
        }
      }
      if (!event.place) continue;
      const double top = rail - 4.4 - flag_row * (event.place->row + 1);
      if (event.place->row > 0 && in_sight) {
        canvas_.line({tip.x, top + flag_row - 0.8}, {tip.x, rail - 4.2},
                     fmt::format(R"(stroke="{}" stroke-width="0.4")", reserve ? alarm : "#666"));
      }
      canvas_.words({event.place->left, top + baseline}, event.words, Anchor::start,
                    reserve ? fmt::format(R"(fill="{}")", alarm)
                    : event.at == stop_ && event.mark == Event::Mark::planned
                        ? R"(font-weight="bold")"
                        : "");
    }
  }

  // ---- the panels

  static void keep_off(LabelPlaces& places, const std::vector<Spot>& line) {
    for (std::size_t i = 1; i < line.size(); ++i) places.keep_off(line[i - 1], line[i]);
  }

  static double at(const std::vector<Spot>& line, double x) {
    for (std::size_t i = 1; i < line.size(); ++i) {
      if (x > line[i].x && i + 1 < line.size()) continue;
      const double run = line[i].x - line[i - 1].x;
      const double share = run > 0.0 ? std::clamp((x - line[i - 1].x) / run, 0.0, 1.0) : 1.0;
      return line[i - 1].y + share * (line[i].y - line[i - 1].y);
    }
    return line.empty() ? 0.0 : line.front().y;
  }

  // Corners for a label of this size along a curve from `begin` to `end`: first above it, then
  // below.
  static std::vector<Spot> along(const std::vector<Spot>& line, double width, double height,
                                 double begin, double end) {
    std::vector<Spot> corners;
    const int steps = 60;
    for (const bool over : {true, false}) {
      for (int i = 0; i <= steps; ++i) {
        const double left = begin + (end - begin) * i / steps;
        const double a = at(line, left);
        const double b = at(line, left + width);
        corners.push_back({left, over ? std::min(a, b) - height - 1.4 : std::max(a, b) + 1.8});
      }
    }
    return corners;
  }

  void label(LabelPlaces& places, const std::string& text, auto corners_of,
             const std::string& look = "") {
    const double width = line_width(text, letters) + label_gap;
    const auto frame = places.take(width, line_height, corners_of(width, line_height));
    if (frame) canvas_.label(*frame, text, look);
  }

  void water_panel() {
    const auto y = [&](Volume v) { return water_.y(water_unit_.of(v)); };
    std::vector<Spot> pot;
    std::vector<Spot> hydrosol;
    for (const TimelinePoint& point : course_) {
      pot.push_back({x(point.at), y(point.pot_water)});
      if (point.at >= run_.times.first_drop) hydrosol.push_back({x(point.at), y(point.hydrosol)});
    }
    const double reserve_y = y(run_.water.reserve);
    const std::vector<Spot> reserve = {{left_, reserve_y}, {right_, reserve_y}};
    const std::vector<Spot> left_on = past_the_stop(y);
    const std::vector<Spot> band = hydrosol_band(y);

    canvas_.hatched(band, true);
    canvas_.polyline(reserve,
                     fmt::format(R"(stroke="{}" stroke-width="1" stroke-dasharray="7 3")", alarm));
    canvas_.polyline(
        hydrosol, fmt::format(R"(stroke="{}" stroke-width="1.3" stroke-dasharray="5 1.6")", ink));
    canvas_.polyline(pot, fmt::format(R"(stroke="{}" stroke-width="1.7")", ink));
    canvas_.polyline(left_on,
                     fmt::format(R"(stroke="{}" stroke-width="1.5" stroke-dasharray="0.1 3.4" )"
                                 R"(stroke-linecap="round")",
                                 ink));

    LabelPlaces places(water_.frame);
    keep_off(places, pot);
    keep_off(places, hydrosol);
    keep_off(places, reserve);
    keep_off(places, left_on);
    keep_off(places, band);
    if (!band.empty()) places.keep_off(band.back(), band.front());
    places.keep_off({x(stop_), water_.frame.top}, {x(stop_), water_.frame.bottom});

    const double x_stop = x(stop_);
    const double pot_end = y(run_.water.left_at_stop);
    label(places, "pot water " + say(run_.water.first_fill),
          [&](double w, double h) { return along(pot, w, h, left_ + 5.0, x_stop - w); });
    label(
        places, "reserve " + say(run_.water.reserve) + ", must stay",
        [&](double w, double h) { return along(reserve, w, h, left_ + 5.0, right_ - w); },
        fmt::format(R"(fill="{}")", alarm));
    const std::vector<Spot> early =
        band.empty() ? hydrosol : std::vector<Spot>{band.front(), band[1]};
    const std::vector<Spot> late =
        band.empty() ? hydrosol : std::vector<Spot>{band.back(), band[band.size() - 2]};
    label(places, hydrosol_words(), [&](double w, double h) {
      std::vector<Spot> corners = along(early, w, h, early.back().x - w, left_ + 5.0);
      // Over a rising curve, near its end rather than in the middle.
      append(corners, along(late, w, h, right_ - w, left_ + 5.0));
      return corners;
    });
    if (!band.empty()) {
      label(places, "hatched: 8 of 10 runs", [&](double w, double h) {
        std::vector<Spot> corners;
        for (int i = 0; i <= 40; ++i) {
          const double left = late.back().x - w - (late.back().x - late.front().x - w) * i / 40.0;
          corners.push_back({left, at(late, left) + 2.0});
        }
        append(corners, along(early, w, h, early.back().x - w, left_ + 5.0));
        return corners;
      });
    }
    label(places, say(run_.water.left_at_stop) + " left", [&](double w, double h) {
      std::vector<Spot> corners;
      for (const double dy : {-h - 1.0, -h - 4.0, -0.5 * h, 1.0, 4.0}) {
        corners.push_back({x_stop + 4.0, pot_end + dy});
        corners.push_back({x_stop - w - 4.0, pot_end + dy});
      }
      return corners;
    });
    if (!oil_) no_oil_label(places);
  }

  // For a picture without an oil panel.
  void no_oil_label(LabelPlaces& places) {
    label(places, "oil: less than a drop parts", [&](double w, double h) {
      std::vector<Spot> corners;
      for (double left = right_ - w - 4.0; left >= left_ + 4.0; left -= 4.0)
        corners.push_back({left, water_.frame.bottom - h - 2.0});
      return corners;
    });
  }

  std::string hydrosol_words() const {
    const Range<Volume>& hydrosol = run_.uncertainty.hydrosol;
    return "hydrosol " + say(hydrosol.typical) + in_ranges(hydrosol);
  }

  // A straight line, because the heater goes on making the same amount of steam.
  std::vector<Spot> past_the_stop(const auto& y) const {
    const Spot stop{x(stop_), y(run_.water.left_at_stop)};
    const double reserve = in_minutes(run_.times.reserve);
    if (reserve <= stop_) return {};
    const double share = std::min(1.0, (end_ - stop_) / (reserve - stop_));
    const Volume left =
        run_.water.left_at_stop + (run_.water.reserve - run_.water.left_at_stop) * share;
    return {stop, {x(std::min(reserve, end_)), y(left)}};
  }

  // The polygon from the early run, over the level that ends the run, to the late run. A late run
  // that goes past the end of the axis is cut there.
  std::vector<Spot> hydrosol_band(const auto& y) const {
    const Uncertainty& s = run_.uncertainty;
    const double first = in_minutes(s.first_drop.low);
    const double early = in_minutes(s.stop.low);
    double late = in_minutes(s.stop.high);
    // In a run by the clock, a late run may end before its first drop.
    double last = std::min(in_minutes(s.first_drop.high), late);
    Volume low = s.hydrosol.low;
    if (s.hydrosol.high <= Volume() || early <= first) return {};
    if (late > end_) {
      low = last < end_ ? low * ((end_ - last) / (late - last)) : Volume();
      late = end_;
      last = std::min(last, end_);
    }
    return {{x(first), y(Volume())},
            {x(early), y(s.hydrosol.high)},
            {x(late), y(s.hydrosol.high)},
            {x(late), y(low)},
            {x(last), y(Volume())}};
  }

  void oil_panel() {
    const auto y = [&](Volume v) { return oil_->y(oil_unit_.of(v)); };
    std::vector<Spot> typical;
    std::vector<Spot> high;
    std::vector<Spot> low;
    // In a run by the clock, an early run has oil before the first drop of the nominal one.
    if (!run_.stop.hydrosol) {
      high.push_back(
          {x(std::min(run_.uncertainty.first_drop.low, run_.times.first_drop)), y(Volume())});
    }
    for (const TimelinePoint& point : course_) {
      if (point.at < run_.times.first_drop) continue;
      typical.push_back({x(point.at), y(point.oil.typical)});
      high.push_back({x(point.at), y(point.oil.high)});
      low.push_back({x(point.at), y(point.oil.low)});
    }
    std::vector<Spot> band = high;
    band.insert(band.end(), low.rbegin(), low.rend());
    canvas_.hatched(band, false);
    canvas_.polyline(typical, fmt::format(R"(stroke="{}" stroke-width="1.5")", ink));
    LabelPlaces places(oil_->frame);
    for (const auto& line : {typical, high, low}) keep_off(places, line);
    const Range<Volume> oil = run_.uncertainty.oil_volume;
    label(places, "oil " + say(oil.typical) + in_ranges(oil),
          [&](double w, double h) { return beside_end(typical, high, w, h); });
  }

  // To the right of a curve's end; otherwise to the left of its start; otherwise above its upper
  // edge.
  std::vector<Spot> beside_end(const std::vector<Spot>& line, const std::vector<Spot>& upper,
                               double w, double h) const {
    if (line.empty()) return {};
    std::vector<Spot> corners;
    for (const double dy : {-0.5, -1.0, 0.0})
      corners.push_back({line.back().x + 5.0, line.back().y + dy * h});
    for (double top = oil_->frame.top; top + h <= oil_->frame.bottom; top += 2.0)
      corners.push_back({line.front().x - w - 5.0, top});
    append(corners, along(upper, w, h, left_ + 5.0, x(stop_) - w));
    return corners;
  }

  void coolant_panel() {
    const auto y = [&](Temperature t) { return coolant_->y(degrees(t)); };
    const Temperature limit = plan_.recipe.still->condenser.coolant_limit.typical();
    const std::vector<Spot> top = {{left_, y(limit)}, {right_, y(limit)}};
    canvas_.polyline(top,
                     fmt::format(R"(stroke="{}" stroke-width="0.8" stroke-dasharray="7 3")", ink));
    LabelPlaces places(coolant_->frame);
    keep_off(places, top);
    std::vector<Spot> whole;
    std::vector<Spot> piece;
    const auto finish = [&] {
      canvas_.polyline(piece, fmt::format(R"(stroke="{}" stroke-width="1.5")", ink));
      // With very many changes, such moments would be a cloud of dots that shows nothing.
      if (piece.size() == 1 && run_.cooling.ice_changes.size() <= few_changes) {
        canvas_.dot(piece.front(), ink);
      }
      keep_off(places, piece);
      piece.clear();
    };
    const bool followed = ice_is_followed();
    for (std::size_t i = 0; i < course_.size(); ++i) {
      const TimelinePoint& point = course_[i];
      if (!point.coolant) continue;
      if (!piece.empty() && !followed && ice_between(course_[i - 1].at, point.at)) finish();
      piece.push_back({x(point.at), y(*point.coolant)});
      whole.push_back(piece.back());
    }
    finish();
    for (const IceChange& change : run_.cooling.ice_changes) {
      if (change.at > run_.times.stop) continue;
      const Spot tip{x(change.at), coolant_->frame.top};
      canvas_.line(
          tip, {tip.x, coolant_->frame.bottom},
          fmt::format(R"(stroke="{}" stroke-width="0.5" stroke-dasharray="0.8 1.8")", ink));
    }
    label(places, "limit " + say(limit), [&](double w, double h) {
      auto corners = along(top, w, h, x(stop_) + 5.0, right_ - w);
      append(corners, along(top, w, h, left_ + 5.0, right_ - w));
      return corners;
    });
    label(places, "coolant",
          [&](double w, double h) { return along(whole, w, h, left_ + 5.0, right_ - w); });
  }

  // Whether the timeline has the coolant before and after each ice change. With very many changes
  // it doesn't, and then no line is drawn across a change.
  bool ice_is_followed() const {
    return std::any_of(course_.begin(), course_.end(),
                       [](const TimelinePoint& point) { return point.event == "ice"; });
  }

  bool ice_between(Duration a, Duration b) const {
    const auto& changes = run_.cooling.ice_changes;
    return std::any_of(changes.begin(), changes.end(),
                       [&](const auto& c) { return c.at > a && c.at <= b; });
  }

  // ---- in words

  std::string description() const {
    const Uncertainty& s = run_.uncertainty;
    const TimesPlan& t = run_.times;
    std::string d = fmt::format(
        "Times count from the start of heating. {} of water in the pot boils after {}; the first "
        "drop comes "
        "after {}{}. ",
        say(run_.water.first_fill), say(t.boil), say(t.first_drop), in_ranges(s.first_drop));
    d += fmt::format(
        "By the stop after {}{} there are {}{} of hydrosol and {}. ", say(t.stop),
        in_ranges(s.stop), say(s.hydrosol.typical), in_ranges(s.hydrosol),
        oil_ ? fmt::format("{}{} of oil on it", say(s.oil_volume.typical), in_ranges(s.oil_volume))
             : "less than a drop of oil that parts from it");
    if (run_.water.left_at_stop > Volume()) {
      d += fmt::format("The pot then has {} left. ", say(run_.water.left_at_stop));
    }
    const Duration by = stop_bounds(plan_).by;
    d += bounds_in_words(plan_, start_ ? time_of_day(*start_, by) : "") + " ";
    d += left_on_in_words(plan_) + " ";
    if (coolant_) d += coolant_sentence();
    d += "Ranges in brackets hold eight runs of ten.";
    return d;
  }

  template <class Q>
  std::string in_ranges(const Range<Q>& range) const {
    return has_span(range) ? " (" + span(range) + ")" : "";
  }

  std::string coolant_sentence() const {
    const Temperature limit = plan_.recipe.still->condenser.coolant_limit.typical();
    std::string words =
        fmt::format("The coolant starts at {} and ends at {}; its limit is {}",
                    say(*course_.front().coolant), say(*course_.back().coolant), say(limit));
    const auto& ice = run_.cooling.ice_changes;
    if (ice.size() == 1) words += fmt::format("; ice goes in after about {}", say(ice[0].at));
    if (ice.size() > 1) {
      words += fmt::format("; ice goes in {} times, first after about {}, last after about {}",
                           ice.size(), say(ice.front().at), say(ice.back().at));
    }
    return words + ". ";
  }

  std::string wrapped() const {
    const std::string& title = plan_.recipe.title;
    std::string out = fmt::format(
        R"(<svg xmlns="http://www.w3.org/2000/svg" class="run-picture" width="{}mm" height="{}mm" )"
        R"(viewBox="0 0 {} {}" role="img" aria-labelledby="{}-title" aria-describedby="{}-desc" )"
        R"(font-family="sans-serif" font-size="{}" fill="{}">)",
        number(paper.right / unit_per_mm), number(paper.bottom / unit_per_mm), number(paper.right),
        number(paper.bottom), id_, id_, letters, ink);
    out += fmt::format("\n<title id=\"{}-title\">The run over time{}</title>\n", id_,
                       title.empty() ? "" : ": " + as_markup(title));
    out += fmt::format("<desc id=\"{}-desc\">{}</desc>\n", id_, as_markup(description()));
    out += fmt::format(R"(<rect width="{}" height="{}" fill="#fff"/>)", number(paper.right),
                       number(paper.bottom)) +
           "\n";
    return out + canvas_.text() + "</svg>\n";
  }

  // Gaps between an axis and what stands to the left of it. The last two leave room for half of the
  // number under the start of the axis.
  static constexpr double mark_gap = 4.0;
  static constexpr double min_gap = 9.0;
  static constexpr double clock_gap = 17.0;
  static constexpr int most_rows = 3;
  static constexpr std::size_t few_changes = 8;
  static constexpr double flag_gap = 6.0;
  static constexpr double label_gap = 3.0;
  static constexpr double bold_width = 1.16;  // relative to plain letters; DejaVu Sans

  const Plan& plan_;
  const RunPlan& run_;
  std::string id_;
  Units units_;
  std::optional<LocalMinute> start_;
  double stop_;  ///< in minutes, like all times here
  double end_ = 0.0;
  std::vector<TimelinePoint> course_;  ///< up to the stop

  MarkUnit water_unit_;
  MarkUnit oil_unit_;
  Scale water_;
  std::optional<Scale> oil_;      ///< none where no oil separates
  std::optional<Scale> coolant_;  ///< none for run-through coolant
  std::vector<double> water_marks_;
  std::vector<double> oil_marks_;
  std::vector<double> coolant_marks_;
  double left_ = 0.0;
  double right_ = 0.0;
  double bottom_ = 0.0;
  int rows_ = 1;
  std::vector<Event> events_;
  Canvas canvas_;
};

}  // namespace

std::string run_picture(const Plan& plan, std::string_view id) {
  return Picture(plan, plan.runnable(), id).draw();
}

}  // namespace firstdrop
