#include "output/run_curves.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cstddef>
#include <span>
#include <utility>

#include "output/stop_bounds.hpp"
#include "quantity/range_text.hpp"

namespace firstdrop {
namespace {

// With more ice changes than this, drawings count them instead of showing each.
constexpr std::size_t few_changes = 8;

// The timeline up to the stop.
using Course = std::span<const TimelinePoint>;

Course course_of(const RunPlan& run) {
  const auto end =
      std::partition_point(run.timeline.begin(), run.timeline.end(),
                           [&](const TimelinePoint& point) { return point.at <= run.times.stop; });
  return {run.timeline.begin(), end};
}

template <class Value>
std::vector<CurvePoint> points_from(Duration first, Course course, const Value& value) {
  std::vector<CurvePoint> points;
  for (const TimelinePoint& point : course) {
    if (point.at >= first) points.push_back({point.at, value(point).si()});
  }
  return points;
}

Volume highest(const std::vector<CurvePoint>& points) {
  double most = 0.0;
  for (const CurvePoint& point : points) most = std::max(most, point.si);
  return Volume::from_si(most);
}

Curve level(std::string name, CurveAxis axis, Line line, double si) {
  Curve curve;
  curve.name = std::move(name);
  curve.letter = '-';
  curve.axis = axis;
  curve.line = line;
  curve.points = {{Duration(), si}};
  return curve;
}

Curve pot_water_curve(const RunPlan& run, Course course, Units units) {
  Curve curve;
  curve.name = "pot water";
  curve.letter = 'w';
  curve.points =
      points_from(Duration(), course, [](const TimelinePoint& p) { return p.pot_water; });
  curve.labels = {{"pot water " + text(run.water.first_fill, units), LabelPlace::along}};
  curve.end = {run.water.left_at_stop.si(), text(run.water.left_at_stop, units)};
  return curve;
}

Curve reserve_level(const RunPlan& run, Units units) {
  Curve curve = level("reserve", CurveAxis::water, Line::danger, run.water.reserve.si());
  const std::string reserve = text(run.water.reserve, units);
  curve.labels = {{"reserve " + reserve + ", must stay", LabelPlace::across}};
  curve.end = {run.water.reserve.si(), reserve};
  return curve;
}

// From an early run, over the level that ends the run, to a late run.
std::optional<Band> hydrosol_band(const Uncertainty& s) {
  if (s.hydrosol.high <= Volume() || s.stop.low <= s.first_drop.low) return std::nullopt;
  // In a run by the clock, a late run may end before its first drop.
  const Duration last = std::min(s.first_drop.high, s.stop.high);
  const double high = s.hydrosol.high.si();
  return Band{{{s.first_drop.low, 0.0}, {s.stop.low, high}, {s.stop.high, high}},
              {{last, 0.0}, {s.stop.high, s.hydrosol.low.si()}}};
}

Curve hydrosol_curve(const RunPlan& run, Course course, Units units) {
  const Range<Volume>& hydrosol = run.uncertainty.hydrosol;
  Curve curve;
  curve.name = "hydrosol";
  curve.letter = 'h';
  curve.line = Line::dashed;
  curve.points =
      points_from(run.times.first_drop, course, [](const TimelinePoint& p) { return p.hydrosol; });
  curve.band = hydrosol_band(run.uncertainty);
  curve.labels = {{"hydrosol " + with_span(hydrosol, units), LabelPlace::edges}};
  if (curve.band) curve.labels.push_back({"hatched: 8 of 10 runs", LabelPlace::in_band});
  curve.end = {hydrosol.typical.si(), text(hydrosol.typical, units)};
  return curve;
}

// A straight line, because the heater goes on making the same amount of steam.
Curve left_on_curve(const RunPlan& run, Units units) {
  Curve curve;
  curve.name = "pot water if the heat stays on";
  curve.line = Line::dotted;
  curve.points = {{run.times.stop, run.water.left_at_stop.si()}};
  if (run.times.reserve > run.times.stop) {
    curve.points.push_back({run.times.reserve, run.water.reserve.si()});
  }
  curve.labels = {{text(run.water.left_at_stop, units) + " left", LabelPlace::beside_start}};
  curve.dots = false;
  curve.shown.on_terminal = false;  // its time axis ends at the stop
  return curve;
}

Curve oil_curve(const RunPlan& run, Course course, Units units) {
  const Duration first = run.times.first_drop;
  const Range<Volume>& oil = run.uncertainty.oil_volume;
  Curve curve;
  curve.name = "oil";
  curve.letter = 'o';
  curve.axis = CurveAxis::oil;
  curve.points = points_from(first, course, [](const TimelinePoint& p) { return p.oil->typical; });
  Band band{points_from(first, course, [](const TimelinePoint& p) { return p.oil->high; }),
            points_from(first, course, [](const TimelinePoint& p) { return p.oil->low; })};
  // In a run by the clock, an early run has oil before the first drop of the nominal one.
  if (!run.stop.hydrosol) {
    band.upper.insert(band.upper.begin(), {std::min(run.uncertainty.first_drop.low, first), 0.0});
  }
  curve.band = std::move(band);
  curve.labels = {{"oil " + with_span(oil, units), LabelPlace::beside_end}};
  curve.end = {oil.typical.si(), text(oil.typical, units)};
  curve.shown = {highest(curve.band->upper) >= a_drop_of_oil,
                 highest(curve.points) >= millilitres(0.005)};
  return curve;
}

bool ice_between(const std::vector<IceChange>& changes, Duration a, Duration b) {
  return std::any_of(changes.begin(), changes.end(),
                     [&](const IceChange& change) { return change.at > a && change.at <= b; });
}

Curve coolant_curve(const RunPlan& run, Course course) {
  const std::vector<IceChange>& changes = run.cooling.ice_changes;
  // Whether the timeline has the coolant before and after each ice change. With very many changes
  // it doesn't, and then no line is drawn across a change.
  const bool followed = std::any_of(course.begin(), course.end(), [](const TimelinePoint& point) {
    return point.event == "ice";
  });
  Curve curve;
  curve.name = "coolant";
  curve.letter = 'c';
  curve.axis = CurveAxis::coolant;
  curve.labels = {{"coolant", LabelPlace::across}};
  // With very many changes, such moments would be a cloud of dots that shows nothing.
  curve.dots = changes.size() <= few_changes;
  for (std::size_t i = 0; i < course.size(); ++i) {
    if (!course[i].coolant) continue;
    const bool joined =
        followed || curve.points.empty() || !ice_between(changes, course[i - 1].at, course[i].at);
    curve.points.push_back({course[i].at, course[i].coolant->kelvin(), joined});
  }
  curve.shown.on_terminal = false;  // too little room for one more axis
  return curve;
}

Curve coolant_limit_level(Temperature limit, Units units) {
  Curve curve = level("coolant limit", CurveAxis::coolant, Line::limit, limit.kelvin());
  curve.labels = {{"limit " + text(limit, units), LabelPlace::after_stop}};
  curve.shown.on_terminal = false;  // as the coolant itself
  return curve;
}

Temperature coolant_limit(const Plan& plan) {
  return plan.recipe.still->condenser.coolant_limit.typical();
}

std::vector<Curve> curves_of(const Plan& plan, const RunPlan& run, Course course) {
  const Units units = plan.recipe.units;
  std::vector<Curve> curves = {pot_water_curve(run, course, units), reserve_level(run, units),
                               hydrosol_curve(run, course, units), left_on_curve(run, units)};
  if (run.has_oil) curves.push_back(oil_curve(run, course, units));
  Curve coolant = coolant_curve(run, course);
  if (!coolant.points.empty()) {
    curves.push_back(coolant_limit_level(coolant_limit(plan), units));
    curves.push_back(std::move(coolant));
  }
  return curves;
}

RunMark stop_mark(const Plan& plan, const RunPlan& run) {
  const StopBounds bounds = stop_bounds(plan);
  const std::string stop = "stop " + text(run.times.stop);
  const std::string full =
      fmt::format("{}; {}: off by {}", stop, bounds.in_any_case ? "in any case" : "jug not checked",
                  text(bounds.by));
  return {run.times.stop, MarkKind::stop, {full, full, stop}, stop, {}, false, {}};
}

RunMark planned_mark(Duration at, const std::string& words, bool shares_flag = false) {
  return {at, MarkKind::planned, {words}, words, {}, shares_flag, {}};
}

RunMark reserve_mark(const TimesPlan& times) {
  const std::string reserve = text(times.reserve);
  RunMark mark;
  mark.at = times.reserve;
  mark.kind = MarkKind::if_left_on;
  mark.words = {fmt::format("at reserve if left on {}, worst {}", reserve,
                            text(whole_minutes_down(times.reserve_worst))),
                "at reserve " + reserve};
  mark.shown.on_terminal = false;  // its time axis ends at the stop
  return mark;
}

std::vector<RunMark> ice_marks(const std::vector<IceChange>& changes, Units units) {
  std::vector<RunMark> marks;
  for (const IceChange& change : changes) {
    RunMark mark;
    mark.at = change.at;
    mark.kind = MarkKind::ice;
    if (changes.size() <= few_changes) {
      mark.words = {"ice " + text(ice_up(change.ice, units), units), "ice"};
    }
    mark.words.push_back(marks.empty() ? fmt::format("ice, {} times", changes.size()) : "");
    mark.moment = "ice " + text(change.at);
    mark.axis = CurveAxis::coolant;
    marks.push_back(std::move(mark));
  }
  return marks;
}

std::vector<RunMark> marks_of(const Plan& plan, const RunPlan& run) {
  const TimesPlan& times = run.times;
  std::vector<RunMark> marks = {
      stop_mark(plan, run), planned_mark(times.first_drop, "first drop " + text(times.first_drop)),
      planned_mark(times.boil, "boils " + text(times.boil), true), reserve_mark(times),
      planned_mark(Duration(), "heat on")};
  std::vector<RunMark> ice = ice_marks(run.cooling.ice_changes, plan.recipe.units);
  std::move(ice.begin(), ice.end(), std::back_inserter(marks));
  return marks;
}

std::string coolant_sentence(const RunPlan& run, Course course, Temperature limit, Units units) {
  std::string words = fmt::format("The coolant starts at {} and ends at {}; its limit is {}",
                                  text(*course.front().coolant, units),
                                  text(*course.back().coolant, units), text(limit, units));
  const auto& ice = run.cooling.ice_changes;
  if (ice.size() == 1) words += fmt::format("; ice goes in after about {}", text(ice[0].at));
  if (ice.size() > 1) {
    words += fmt::format("; ice goes in {} times, first after about {}, last after about {}",
                         ice.size(), text(ice.front().at), text(ice.back().at));
  }
  return words + ". ";
}

bool on_paper(const std::vector<Curve>& curves, CurveAxis axis) {
  return std::any_of(curves.begin(), curves.end(), [&](const Curve& curve) {
    return curve.axis == axis && curve.shown.on_paper;
  });
}

std::string described(const Plan& plan, const RunPlan& run, Course course,
                      const std::vector<Curve>& curves) {
  const Units units = plan.recipe.units;
  const Uncertainty& s = run.uncertainty;
  const TimesPlan& t = run.times;
  std::string words = fmt::format(
      "Times count from the start of heating. {} of water in the pot boils after {}; the first "
      "drop comes after {}{}. ",
      text(run.water.first_fill, units), text(t.boil), text(t.first_drop),
      span_in_brackets(s.first_drop, units));
  std::string and_oil;
  if (on_paper(curves, CurveAxis::oil))
    and_oil = " and " + with_span(s.oil_volume, units) + " of oil on it";
  else if (run.has_oil)
    and_oil = " and less than a drop of oil that separates from it";
  words += fmt::format("By the stop after {}{} there are {} of hydrosol{}. ", text(t.stop),
                       span_in_brackets(s.stop, units), with_span(s.hydrosol, units), and_oil);
  if (run.water.left_at_stop > Volume()) {
    words += fmt::format("The pot then has {} left. ", text(run.water.left_at_stop, units));
  }
  const auto start = parse_local_minute(plan.recipe.start);
  words += bounds_in_words(plan, time_of_day_if_known(start, stop_bounds(plan).by)) + " ";
  words += left_on_in_words(plan) + " ";
  if (on_paper(curves, CurveAxis::coolant))
    words += coolant_sentence(run, course, coolant_limit(plan), units);
  return words + "Ranges in brackets cover 8 runs in 10.";
}

}  // namespace

double AxisUnit::of(double si) const {
  if (volume) return volume->of(Volume::from_si(si));
  const double degrees = in_celsius(Temperature::from_kelvin(si));
  return fahrenheit ? degrees * 1.8 + 32.0 : degrees;
}

AxisUnit axis_unit(CurveAxis axis, double most, Units units) {
  if (axis == CurveAxis::coolant) {
    const bool us = units == Units::us;
    return {us ? "°F" : "°C", std::nullopt, us};
  }
  const MarkUnit unit = mark_unit(Volume::from_si(most), units);
  return {unit.name, unit, false};
}

RunCurves run_curves(const Plan& plan, bool Shown::*where) {
  const RunPlan& run = plan.runnable();
  const Course course = course_of(run);
  RunCurves list;
  list.title = plan.recipe.title;
  list.units = plan.recipe.units;
  list.start = parse_local_minute(plan.recipe.start);
  list.stop = run.times.stop;
  list.late_stop = run.uncertainty.stop.high;
  list.curves = curves_of(plan, run, course);
  list.marks = marks_of(plan, run);
  list.in_words = described(plan, run, course, list.curves);
  if (run.has_oil && !on_paper(list.curves, CurveAxis::oil)) {
    list.notes.push_back({CurveAxis::water, "oil: less than a drop separates"});
  }
  std::erase_if(list.curves, [&](const Curve& curve) { return !(curve.shown.*where); });
  std::erase_if(list.marks, [&](const RunMark& mark) { return !(mark.shown.*where); });
  return list;
}

}  // namespace firstdrop
