// What a drawing needs before its first line: round marks on an axis, how wide a text will be, and
// places for labels that hide nothing. Lengths are in the drawing's own unit, y grows downwards.
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
  bool overlaps(const Frame& other) const;  ///< touching edges do not
};

/// Whether the straight line from `a` to `b` has a point inside of the frame.
bool crosses(const Frame& frame, Spot a, Spot b);

/// The stretches of slanting lines, `apart` from each other, that are inside of a polygon: those
/// that rise to the right, or fall. Lines of all polygons of a drawing are in step.
struct Stretch {
  Spot from;
  Spot to;
};
std::vector<Stretch> hatching(const std::vector<Spot>& polygon, bool rising, double apart);

/// Marks at steps of 1, 2 or 5 times a power of ten that cover low to high (or low + 1 if
/// that is not above low), ends included, in at most `most` (2 or more) marks.
std::vector<double> round_marks(double low, double high, std::size_t most);

/// Marks on a time axis from 0 up to `end` minutes, at most `most` (2 or more) of them, at steps
/// that a clock has: 1, 2, 5, 10, 15, 20 or 30 min, or whole hours.
std::vector<double> minute_marks(double end, std::size_t most);

/// Decimals that tell marks at this step apart.
int decimals_for(double step);

/// Names of such marks; the unit stands at the last.
std::vector<std::string> mark_names(const std::vector<double>& marks, std::string_view unit);

/// Upper bound of a line's width for letters of `size`: the advances of a wide sans serif (DejaVu
/// Sans, its hmtx table), and a full em for every character that is not in them.
double line_width(std::string_view text, double size);

/// Where labels go in a panel: over no other label, and over no line as long as there is room.
class LabelPlaces {
 public:
  explicit LabelPlaces(const Frame& panel) : panel_(panel) {}

  void keep_off(const Frame& frame) { taken_.push_back(frame); }
  void keep_off(Spot a, Spot b) { lines_.push_back({a, b}); }

  /// Takes the first of the top left corners at which a label of this size hides nothing; else the
  /// free place in the panel that is nearest to the first of them; else one that crosses a line.
  /// None when the panel is full.
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

/// A label over an axis, that points down to `x` on it.
struct Flag {
  double x = 0.0;
  double width = 0.0;
};
struct FlagPlace {
  double left = 0.0;
  int row = 0;  ///< from 0, next to the axis
};

/// Places for flags in `rows` rows between `left` and `right`, such that no flag overlaps another,
/// or a pole that stands between a flag of a higher row and the axis. The pole of each is under it,
/// or at its edge. `gap` is kept between neighbours. The first ones come first: where there is not
/// room for all, the last ones have no place.
std::vector<std::optional<FlagPlace>> place_flags(const std::vector<Flag>& flags, double left,
                                                  double right, int rows, double gap);

}  // namespace firstdrop
