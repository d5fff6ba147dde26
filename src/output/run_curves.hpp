// What is drawn of a run: one list of curves and marks over time, for the picture on paper and for
// the chart on the terminal. Both show all of it, except where an entry says that one of them
// leaves it out. To draw something new, add it to this list.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "firstdrop/plan/plan.hpp"
#include "quantity/clock_time.hpp"
#include "quantity/volume_marks.hpp"

namespace firstdrop {

/// The vertical axes. On paper each is a panel of its own, in this order from the top. The terminal
/// has one plot for the first, and a line of characters for each curve of the others.
enum class CurveAxis {
  water,    ///< volumes of water and hydrosol
  oil,      ///< volumes of oil
  coolant,  ///< temperatures of the coolant
};

/// The unit of an axis and its values in it.
struct AxisUnit {
  const char* name = "";
  std::optional<MarkUnit> volume;  ///< none for temperatures
  bool fahrenheit = false;         ///< of temperatures
  /// The value, from one in SI.
  double of(double si) const;
};
/// The unit for an axis that ends near `most`, which is in SI.
AxisUnit axis_unit(CurveAxis axis, double most, Units units);

/// How a line is told apart from the others of its axis, in order from back to front.
enum class Line {
  danger,  ///< a level that must not be passed; one point, drawn across the whole axis
  limit,   ///< any other level; one point, drawn across the whole axis
  dashed,
  solid,
  dotted,
};
inline bool is_level(Line line) {
  return line == Line::danger || line == Line::limit;
}

/// Values are in SI (m³, K), so that curves of all axes can stand in one list.
struct CurvePoint {
  Duration at;         ///< from the start of heating
  double si = 0.0;     ///< the value
  bool joined = true;  ///< to the point before
};

/// Where eight runs in ten are. It is the area between two edges; from the last point of one, a
/// straight line leads to the last point of the other.
struct Band {
  std::vector<CurvePoint> upper;  ///< of early runs, or of those with most
  std::vector<CurvePoint> lower;  ///< of late runs, or of those with least
};

/// Where a label is put on paper, if there is room. The terminal has no labels, only end values.
enum class LabelPlace {
  along,         ///< the line up to the stop, as near to its start as possible
  across,        ///< along the line and what follows it, up to the end of the axis
  after_stop,    ///< along a level after the stop, otherwise before it
  edges,         ///< along the edges of the band, from the end of the upper one back
  in_band,       ///< under the lower edge of the band
  beside_start,  ///< above, below or beside the first point
  beside_end,    ///< to the right of the last point, otherwise before the first
};

struct CurveLabel {
  std::string text;
  LabelPlace place = LabelPlace::along;
};

/// A value that stands beside the end of a curve on the terminal.
struct EndValue {
  double si = 0.0;   ///< where it is on the axis: the median, where points are of the nominal run
  std::string text;  ///< "800 mL"
};

/// Where an entry is drawn.
struct Shown {
  bool on_paper = true;
  bool on_terminal = true;
};

struct Curve {
  std::string name;   ///< "pot water"
  char letter = '?';  ///< its own, for a terminal that has only ASCII
  CurveAxis axis = CurveAxis::water;
  Line line = Line::solid;
  std::vector<CurvePoint> points;  ///< of the nominal run, in order of time
  std::optional<Band> band;        ///< drawn on paper only
  std::vector<CurveLabel> labels;
  EndValue end;      ///< only for the terminal
  bool dots = true;  ///< whether a point that is joined to no other is drawn as a dot
  Shown shown;
};

enum class MarkKind {
  stop,        ///< the planned heat off
  planned,     ///< any other moment of the planned run
  ice,         ///< ice goes in
  if_left_on,  ///< what comes if the heat stays on
};

/// A moment with a flag.
struct RunMark {
  Duration at;  ///< from the start of heating
  MarkKind kind = MarkKind::planned;
  /// Its words on paper, from full to short. They get shorter for all marks at once, those of ice
  /// first, where not all of them have room. A mark without words has no flag.
  std::vector<std::string> words;
  /// Its words on the terminal: what and when. For many ice changes, the last of `words`.
  std::string moment;
  std::optional<CurveAxis> axis;  ///< where its line is drawn; none: through all panels
  /// Where it is drawn at the same place as the mark before it in the list, that one's flag has the
  /// words of both, with those of this mark first.
  bool shares_flag = false;
  Shown shown;
};

/// What is said on paper in place of a curve.
struct CurveNote {
  CurveAxis axis = CurveAxis::water;
  std::string text;
};

struct RunCurves {
  std::string title;                 ///< of the recipe; may be empty
  std::string in_words;              ///< the run in a few sentences, for those who see no picture
  Units units = Units::metric;       ///< of the axes
  std::optional<LocalMinute> start;  ///< of heating
  Duration stop;                     ///< of the nominal run; the terminal's time axis ends here
  Duration late_stop;                ///< P90
  /// Labels of the first ones get the best places. Of those with the same line, the first is drawn
  /// in front.
  std::vector<Curve> curves;
  std::vector<RunMark> marks;  ///< the most important first, because they get the best places
  std::vector<CurveNote> notes;
};

/// What is shown on paper (`&Shown::on_paper`) or on the terminal. Throws RefusedError for a plan
/// that is refused or has no run.
RunCurves run_curves(const Plan& plan, bool Shown::*where);

/// The words of each mark's flag, where marks share flags. `own_words` gives a mark's own words,
/// and `same_place` says whether two marks are drawn at the same place.
template <class OwnWords, class SamePlace>
std::vector<std::string> flag_words(const std::vector<RunMark>& marks, const OwnWords& own_words,
                                    const SamePlace& same_place) {
  std::vector<std::string> flags;
  for (const RunMark& mark : marks) {
    flags.push_back(own_words(mark));
    if (!mark.shares_flag || flags.size() < 2) continue;
    std::string& before = flags[flags.size() - 2];
    if (!same_place(mark, marks[flags.size() - 2])) continue;
    before = flags.back() + ", " + before;
    flags.back().clear();
  }
  return flags;
}

}  // namespace firstdrop
