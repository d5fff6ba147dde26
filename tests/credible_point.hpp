// Which quantiles of a charge and its walls can occur together.
#pragma once

#include <cmath>
#include <vector>

#include "model/sample_point.hpp"

namespace credible_point {

/// How far a quantile's value is on the way from the median to the bound at its end, as a share of
/// it.
inline double way_to_bound(double place) {
  const double from_middle = std::abs(place - 0.5);
  return from_middle <= 0.4 ? 0.5 * from_middle / 0.4 : 0.5 + 0.5 * (from_middle - 0.4) / 0.1;
}
/// The quantile whose value is at this share of the way to the upper or the lower bound.
inline double place_on_way(double way, bool most) {
  const double from_middle = way <= 0.5 ? 0.4 * way / 0.5 : 0.4 + 0.1 * (way - 0.5) / 0.5;
  return most ? 0.5 + from_middle : 0.5 - from_middle;
}

/// Moves a point to one that can occur. The driest charge, the most water that it soaks up or that
/// clings to it, and the walls that hold most don't occur together. The squared shares of the ways
/// to those bounds add up to no more than one.
inline firstdrop::SamplePoint credible(firstdrop::SamplePoint point) {
  using firstdrop::Parameter;
  struct Wet {
    Parameter input;
    bool most;
  };
  for (const auto& together :
       {std::vector<Wet>{{Parameter::moisture, false},
                         {Parameter::hold_up, true},
                         {Parameter::wall_hold_up, true}},
        std::vector<Wet>{{Parameter::film_hold_up, true}, {Parameter::wall_hold_up, true}}}) {
    double squares = 0.0;
    for (const Wet& one : together) {
      if ((point[one.input] > 0.5) != one.most) continue;
      const double way = way_to_bound(point[one.input]);
      squares += way * way;
    }
    if (squares <= 1.0) continue;
    for (const Wet& one : together) {
      if ((point[one.input] > 0.5) != one.most) continue;
      const double way = way_to_bound(point[one.input]) / std::sqrt(squares);
      point.set(one.input, place_on_way(way, one.most));
    }
  }
  return point;
}

}  // namespace credible_point
