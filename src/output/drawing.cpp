#include "output/drawing.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace firstdrop {
namespace {

// Advance widths of DejaVu Sans, for the characters from space to tilde, in thousandths of an em.
constexpr std::array<int, 95> advances = {
    318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361,  318, 337, 636, 636, 636,
    636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 531, 1000, 684, 686, 698, 770, 632,
    575, 775, 752, 295, 295, 656, 557, 863, 748, 787, 603, 787, 695, 635,  611, 732, 684, 989, 685,
    611, 685, 390, 337, 390, 838, 500, 500, 613, 635, 550, 635, 615, 352,  635, 634, 278, 278, 579,
    278, 974, 634, 612, 635, 635, 411, 521, 392, 634, 592, 818, 592, 592,  525, 636, 337, 636, 838};

// A mark that is missed only by rounding counts as reached.
constexpr double hair = 1e-9;

double distance(Spot a, Spot b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

}  // namespace

bool Frame::holds(const Frame& other) const {
  return other.left >= left - hair && other.right <= right + hair && other.top >= top - hair &&
         other.bottom <= bottom + hair;
}

bool Frame::overlaps(const Frame& other) const {
  return left < other.right - hair && other.left < right - hair && top < other.bottom - hair &&
         other.top < bottom - hair;
}

// Liang-Barsky clipping: the part of the line that is between all four edges.
bool crosses(const Frame& frame, Spot a, Spot b) {
  double from = 0.0;
  double to = 1.0;
  const auto clip = [&](double step, double room) {
    if (step == 0.0) return room > 0.0;
    const double at = room / step;
    if (step > 0.0)
      to = std::min(to, at);
    else
      from = std::max(from, at);
    return from < to;
  };
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  return clip(-dx, a.x - frame.left) && clip(dx, frame.right - a.x) && clip(-dy, a.y - frame.top) &&
         clip(dy, frame.bottom - a.y);
}

std::vector<Stretch> hatching(const std::vector<Spot>& polygon, bool rising, double apart) {
  if (polygon.size() < 3) return {};
  // On such a line, x + y is constant if it rises and x - y if it falls.
  const double sign = rising ? 1.0 : -1.0;
  const auto across = [&](Spot s) { return s.x + sign * s.y; };
  const auto [first, last] = std::minmax_element(
      polygon.begin(), polygon.end(), [&](Spot a, Spot b) { return across(a) < across(b); });
  const double step = apart * std::numbers::sqrt2;
  const double end = across(*last);
  std::vector<Stretch> stretches;
  for (double n = std::ceil(across(*first) / step); n * step < end; n += 1.0) {
    const double line = n * step;
    std::vector<Spot> edges;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Spot a = polygon[i];
      const Spot b = polygon[(i + 1) % polygon.size()];
      // A corner belongs to only one of its two edges.
      if ((across(a) < line) == (across(b) < line)) continue;
      const double share = (line - across(a)) / (across(b) - across(a));
      edges.push_back({a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)});
    }
    std::sort(edges.begin(), edges.end(), [](Spot a, Spot b) { return a.x < b.x; });
    for (std::size_t i = 0; i + 1 < edges.size(); i += 2)
      stretches.push_back({edges[i], edges[i + 1]});
  }
  return stretches;
}

std::vector<double> round_marks(double low, double high, std::size_t most) {
  if (!(high > low)) high = low + 1.0;
  const double wanted = (high - low) / static_cast<double>(most);
  double power = std::pow(10.0, std::floor(std::log10(wanted)) - 1.0);
  for (;; power *= 10.0) {
    for (const double digit : {1.0, 2.0, 5.0}) {
      const double step = digit * power;
      const double first = std::floor(low / step + hair);
      const double last = std::ceil(high / step - hair);
      if (last - first + 1.0 > static_cast<double>(most)) continue;
      std::vector<double> marks;
      for (double n = first; n <= last; n += 1.0) marks.push_back(n * step);
      return marks;
    }
  }
}

std::vector<double> minute_marks(double end, std::size_t most) {
  static constexpr std::array<double, 13> steps = {1,  2,   5,   10,  15,  20, 30,
                                                   60, 120, 180, 240, 360, 720};
  double step = 1440.0;
  for (const double s : steps) {
    if (std::floor(end / s + hair) + 1.0 > static_cast<double>(most)) continue;
    step = s;
    break;
  }
  while (std::floor(end / step + hair) + 1.0 > static_cast<double>(most)) step *= 2.0;
  std::vector<double> marks;
  for (double n = 0.0; n * step <= end + hair; n += 1.0) marks.push_back(n * step);
  return marks;
}

int decimals_for(double step) {
  return std::max(0, -static_cast<int>(std::floor(std::log10(step) + hair)));
}

std::vector<std::string> mark_names(const std::vector<double>& marks, std::string_view unit) {
  const int decimals = decimals_for(marks[1] - marks[0]);
  std::vector<std::string> names;
  for (const double m : marks)
    names.push_back(std::abs(m) < 1e-9 ? "0" : fmt::format("{:.{}f}", m, decimals));
  names.back() += fmt::format(" {}", unit);
  return names;
}

double line_width(std::string_view text, double size) {
  double width = 0.0;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if ((byte & 0xC0U) == 0x80U) continue;  // continues a UTF-8 character
    width += byte >= 32 && byte < 127 ? advances[byte - 32U] / 1000.0 : 1.0;
  }
  return width * size;
}

bool LabelPlaces::is_free(const Frame& frame, bool of_lines) const {
  if (!panel_.holds(frame)) return false;
  if (std::any_of(taken_.begin(), taken_.end(), [&](const Frame& f) { return f.overlaps(frame); }))
    return false;
  return !of_lines || std::none_of(lines_.begin(), lines_.end(),
                                   [&](const Line& l) { return crosses(frame, l.a, l.b); });
}

std::optional<Frame> LabelPlaces::take(double width, double height,
                                       const std::vector<Spot>& corners) {
  const auto at = [&](Spot corner) {
    return Frame{corner.x, corner.y, corner.x + width, corner.y + height};
  };
  std::optional<Frame> found;
  for (const Spot corner : corners) {
    if (!is_free(at(corner), true)) continue;
    found = at(corner);
    break;
  }
  const Spot wish = corners.empty() ? Spot{panel_.left, panel_.top} : corners.front();
  for (const bool of_lines : {true, false}) {
    if (found) break;
    double nearest = std::numeric_limits<double>::infinity();
    for (double y = panel_.top; y + height <= panel_.bottom + hair; y += 1.0) {
      for (double x = panel_.left; x + width <= panel_.right + hair; x += 2.0) {
        const double away = distance({x, y}, wish);
        if (away >= nearest || !is_free(at({x, y}), of_lines)) continue;
        nearest = away;
        found = at({x, y});
      }
    }
  }
  if (found) taken_.push_back(*found);
  return found;
}

namespace {

class FlagPlacer {
 public:
  FlagPlacer(const std::vector<Flag>& flags, double left, double right, int rows, double gap)
      : flags_(flags), left_(left), right_(right), rows_(rows), gap_(gap), places_(flags.size()) {}

  std::vector<std::optional<FlagPlace>> place() {
    // As many of the first flags as fit together, then any others that still fit.
    std::size_t together = std::min(flags_.size(), at_once);
    while (!search(0, together)) --together;
    for (std::size_t i = together; i < flags_.size(); ++i) search(i, i + 1);
    return places_;
  }

 private:
  // How many places are searched together, and within how many tries. Where there is hardly any
  // room, a full search would take 9 tries for each flag, to the power of their number.
  static constexpr std::size_t at_once = 10;
  static constexpr int most_tries = 20000;

  bool search(std::size_t begin, std::size_t end) {
    tries_ = 0;
    return try_from(begin, end);
  }

  bool try_from(std::size_t i, std::size_t end) {
    if (i == end) return true;
    const Flag& flag = flags_[i];
    if (flag.width <= right_ - left_ && flag.x >= left_ - hair && flag.x <= right_ + hair) {
      for (int row = 0; row < rows_; ++row) {
        // Centred on its mark, to the right of it, or to the left.
        for (const double share : {0.5, 0.0, 1.0}) {
          const double at = std::clamp(flag.x - share * flag.width, left_, right_ - flag.width);
          const FlagPlace place{at, row};
          if (++tries_ > most_tries) return false;
          if (!fits(i, place)) continue;
          places_[i] = place;
          if (try_from(i + 1, end)) return true;
          places_[i].reset();
        }
      }
    }
    return false;
  }

  bool fits(std::size_t i, const FlagPlace& place) const {
    for (std::size_t k = 0; k < flags_.size(); ++k) {
      if (k == i || !places_[k]) continue;
      const FlagPlace& other = *places_[k];
      const double right = place.left + flags_[i].width;
      const double other_right = other.left + flags_[k].width;
      if (other.row == place.row && place.left < other_right + gap_ && other.left < right + gap_)
        return false;
      if (other.row > place.row && in_the_way(flags_[k].x, place.left, right)) return false;
      if (place.row > other.row && in_the_way(flags_[i].x, other.left, other_right)) return false;
    }
    return true;
  }

  static bool in_the_way(double pole, double left, double right) {
    return pole > left - 1.0 && pole < right + 1.0;
  }

  const std::vector<Flag>& flags_;
  double left_;
  double right_;
  int rows_;
  double gap_;
  int tries_ = 0;
  std::vector<std::optional<FlagPlace>> places_;
};

}  // namespace

std::vector<std::optional<FlagPlace>> place_flags(const std::vector<Flag>& flags, double left,
                                                  double right, int rows, double gap) {
  return FlagPlacer(flags, left, right, rows, gap).place();
}

}  // namespace firstdrop
