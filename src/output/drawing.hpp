// What a drawing needs before its first line: round marks on an axis, the width of a text, and
// places where labels hide nothing. Lengths are in the drawing's own unit, and y grows downwards.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace firstdrop {

struct Spot {
  double x = 0.0;
  double y = 0.0;
};

struct Frame {
  double left = 0.0;
  double top = 0.0;
  double right = 0.0;
  double bottom = 0.0;
  double width() const { return right - left; }
  double height() const { return bottom - top; }
  bool holds(const Frame& other) const;
  bool overlaps(const Frame& other) const;  ///< touching edges don't count
};

/// Whether the straight line from `a` to `b` has a point inside the frame.
bool crosses(const Frame& frame, Spot a, Spot b);

/// Hatching: the parts of slanting lines that are inside a polygon. The lines are `apart` from each
/// other, and rise or fall to the right. Lines in all polygons of a drawing are aligned.
struct Stretch {
  Spot from;
  Spot to;
};
std::vector<Stretch> hatching(const std::vector<Spot>& polygon, bool rising, double apart);

/// Marks at steps of 1, 2 or 5 times a power of ten, at most `most` (2 or more). They cover low to
/// high, ends included. If high isn't above low, they cover low to low + 1.
std::vector<double> round_marks(double low, double high, std::size_t most);

/// Marks on a time axis from 0 to `end` minutes, at most `most` (2 or more). Steps are those of a
/// clock: 1, 2, 5, 10, 15, 20 or 30 min, or whole hours.
std::vector<double> minute_marks(double end, std::size_t most);

/// Decimals needed to tell marks at this step apart.
int decimals_for(double step);

/// Names of the marks; the last one has the unit.
std::vector<std::string> mark_names(const std::vector<double>& marks, std::string_view unit);

/// Upper bound of a line's width for letters of `size`. Uses the advance widths of a wide sans
/// serif (DejaVu Sans, its hmtx table), and a full em for every other character.
double line_width(std::string_view text, double size);

/// Finds places for labels in a panel. A label never covers another label. It covers a line only if
/// there is no other room.
class LabelPlaces {
 public:
  explicit LabelPlaces(const Frame& panel) : panel_(panel) {}

  void keep_off(const Frame& frame) { taken_.push_back(frame); }
  void keep_off(Spot a, Spot b) { lines_.push_back({a, b}); }

  /// Takes a place for a label of this size: the first of these top left corners where it hides
  /// nothing. Otherwise it takes the free place nearest to the first corner, and otherwise one that
  /// crosses a line. None when the panel is full.
  std::optional<Frame> take(double width, double height, const std::vector<Spot>& corners);

 private:
  struct Line {
    Spot a;
    Spot b;
  };
  bool is_free(const Frame& frame, bool of_lines) const;

  Frame panel_;
  std::vector<Frame> taken_;
  std::vector<Line> lines_;
};

/// A label above an axis that points down to `x` on it.
struct Flag {
  double x = 0.0;
  double width = 0.0;
};
struct FlagPlace {
  double left = 0.0;
  int row = 0;  ///< from 0, the row next to the axis
};

/// Places flags in `rows` rows between `left` and `right`. No flag overlaps another flag, or a pole
/// between the axis and a flag in a higher row. Each flag's pole is under it or at its edge.
/// Neighbours are at least `gap` apart. Where there isn't room for all, the last flags get no
/// place.
std::vector<std::optional<FlagPlace>> place_flags(const std::vector<Flag>& flags, double left,
                                                  double right, int rows, double gap);

}  // namespace firstdrop
