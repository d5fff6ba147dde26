#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "plan/describe_run.hpp"

namespace firstdrop {
namespace {

const std::string before_ice = "before ice";
const std::string ice = "ice";

struct Moment {
  Duration at;
  std::string event;
};

// Everything that happens, not in order.
std::vector<Moment> events(const Run& run, Duration stop, const RunPlan& plan) {
  // With more ice changes than this, none is listed, so that the timeline stays readable.
  constexpr std::size_t most_marked = 24;
  std::vector<Moment> moments = {{seconds(0), "heat on"},
                                 {run.boil(), "boils"},
                                 {run.first_drop(), "first drop"},
                                 {stop, "stop"}};
  if (plan.cooling.ice_changes.size() <= most_marked) {
    for (const IceChange& change : plan.cooling.ice_changes) {
      moments.push_back({change.at, before_ice});
      moments.push_back({change.at, ice});
    }
  }
  for (const ReceiverChange& change : plan.receiver_changes) {
    moments.push_back({change.at, "next receiver"});
  }
  return moments;
}

// About twelve moments at round minutes, where nothing else is near.
void add_plain(std::vector<Moment>& moments, Duration stop) {
  static constexpr std::array<double, 7> steps = {2, 5, 10, 15, 20, 30, 60};
  const double wanted = in_minutes(stop) / 12.0;
  const auto step = std::find_if(steps.begin(), steps.end(), [&](double s) { return s >= wanted; });
  const Duration every = minutes(step == steps.end() ? 120.0 : *step);
  for (Duration t = every; t < stop; t += every) {
    const auto near = [&](const Moment& m) { return std::abs((m.at - t) / every) < 0.25; };
    if (std::none_of(moments.begin(), moments.end(), near)) moments.push_back({t, ""});
  }
}

TimelinePoint point_at(const Planning& p, const Run& run, const Cooling& cooling,
                       const Moment& moment) {
  TimelinePoint point;
  point.at = moment.at;
  point.event = moment.event;
  point.phase = run.phase_at(moment.at);
  point.pot_water = p.water.as_volume(run.water_at(moment.at).left);
  point.pot = run.pot_temperature(moment.at);
  point.hydrosol = run.hydrosol_at(moment.at);
  if (cooling.vessel) {
    // Rounding could put the change itself on either side, so look a moment before or after it.
    const Duration aside = seconds(1e-3);
    const Duration at = moment.event == before_ice ? moment.at - aside
                        : moment.event == ice      ? moment.at + aside
                                                   : moment.at;
    const Duration condensing = std::max(at - run.first_drop(), seconds(0));
    point.coolant = cooling.vessel->temperature_at(condensing);
  }
  return point;
}

}  // namespace

std::vector<TimelinePoint> timeline(const Planning& p, const Run& nominal, Duration stop,
                                    const Cooling& cooling, const RunPlan& plan) {
  std::vector<Moment> moments = events(nominal, stop, plan);
  add_plain(moments, stop);
  std::stable_sort(moments.begin(), moments.end(),
                   [](const Moment& a, const Moment& b) { return a.at < b.at; });
  std::vector<TimelinePoint> points;
  points.reserve(moments.size());
  for (const Moment& moment : moments) points.push_back(point_at(p, nominal, cooling, moment));
  return points;
}

}  // namespace firstdrop
