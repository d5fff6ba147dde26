#include "firstdrop/stop.hpp"

#include <algorithm>
#include <cmath>

#include "turning_point.hpp"

namespace firstdrop {
namespace {

// By then all but a ten-thousandth of the oil is over.
constexpr Fraction all_but_nothing = fraction(0.9999);

}  // namespace

std::string to_string(StopRule rule) {
  switch (rule) {
    case StopRule::hydrosol:
      return "hydrosol";
    case StopRule::oil:
      return "oil";
    case StopRule::oil_share:
      return "oil_share";
    case StopRule::time:
      return "time";
    case StopRule::oil_rate:
      return "oil_rate";
    case StopRule::reserve:
      return "reserve";
    case StopRule::cooling:
      break;
  }
  return "cooling";
}

Duration stop_time(const Run& run, const Stop& stop) {
  if (!stop.hydrosol) return *stop.clock;
  const Duration by_volume = run.time_of_hydrosol(*stop.hydrosol);
  return stop.clock ? std::min(by_volume, *stop.clock) : by_volume;
}

Duration time_of_low_gain(const Run& run, Fraction gain) {
  const Mass least = run.values().oil_recoverable * gain;
  // Oil over time is concave, so the gain only ever falls.
  const auto still_gains = [&](Duration t) {
    return (run.oil_vaporised_at(t + quarter_hour) - run.oil_vaporised_at(t) - least).si();
  };
  const double gains_at_first = still_gains(run.first_drop());
  if (gains_at_first < 0.0) return run.first_drop();
  if (least <= grams(0)) return run.time_of_oil_share(all_but_nothing);  // no oil at all
  // Where the plant sets the pace the gain falls by half in each half-time.
  const RunValues& v = run.values();
  const double by_then = std::exp(-(v.release.rate * quarter_hour));
  const Mass at_first = v.oil_recoverable * ((1.0 - v.release.washed) * (1.0 - by_then));
  const Duration by_plant = run.first_drop() + std::log(at_first / least) / v.release.rate;
  const auto held_back = run.steam_bound_until();
  if (!held_back || by_plant >= *held_back) return std::max(by_plant, run.first_drop());
  return turning_point(run.first_drop(), *held_back, still_gains, gains_at_first).first_no;
}

Duration time_of_most_oil(const Run& run) {
  // Oil vaporised is concave in time and what the hydrosol could take is a straight line, so their
  // difference rises to one maximum. (Cut off at zero, as in the receiver, it would have flats.)
  const RunValues& v = run.values();
  const MassFlow kept = v.hydrosol_oil * run.distillate_rate();
  const Duration end = run.time_of_oil_share(all_but_nothing);
  if (kept <= MassFlow()) return end;
  // While steam holds the oil back, as much comes as it can carry; of what is washed off at once at
  // least for a moment.
  auto held_back = run.steam_bound_until();
  if (held_back && *run.oil_bound() <= kept) return run.first_drop();
  if (run.oil_bound() && v.release.washed > fraction(0) && !held_back) {
    held_back = run.first_drop() + seconds(1);
  }
  // Then the plant sets the pace, which falls by half in each half-time.
  const MassFlow at_first = v.oil_recoverable * (1.0 - v.release.washed) * v.release.rate;
  const double times = at_first / kept;
  Duration crest = run.first_drop();
  if (times > 1.0) crest += std::log(times) / v.release.rate;
  return std::min(std::max(crest, held_back.value_or(crest)), end);
}

std::optional<Duration> time_of_oil(const Run& run, Mass oil) {
  const auto lacking = [&](Duration t) { return (oil - run.oil_in_receiver_at(t)).si(); };
  const Duration most = time_of_most_oil(run);
  const double at_most = lacking(most);
  if (at_most > 0.0) return std::nullopt;
  const double at_first = lacking(run.first_drop());
  if (at_first <= 0.0) return run.first_drop();  // washed off at once
  return turning_point(run.first_drop(), most, lacking, at_first, at_most).first_no;
}

}  // namespace firstdrop
