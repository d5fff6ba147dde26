#include "firstdrop/stop.hpp"

#include <algorithm>

#include "bisection.hpp"

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
    return run.oil_vaporised_at(t + quarter_hour) - run.oil_vaporised_at(t) >= least;
  };
  if (!still_gains(run.first_drop())) return run.first_drop();
  return turning_point(run.first_drop(), run.time_of_oil_share(all_but_nothing), still_gains)
      .first_no;
}

Duration time_of_most_oil(const Run& run) {
  // Oil vaporised is concave in time and what the hydrosol could take is a straight line, so their
  // difference rises to one maximum. (Cut off at zero, as in the receiver, it would have flats.)
  const auto parted = [&](Duration t) {
    return run.oil_vaporised_at(t) - run.values().hydrosol_oil * run.hydrosol_at(t);
  };
  const auto rises = [&](Duration t) { return parted(t + seconds(1)) > parted(t); };
  const Duration end = run.time_of_oil_share(all_but_nothing);
  if (rises(end)) return end;
  return turning_point(run.first_drop(), end, rises).first_no;
}

std::optional<Duration> time_of_oil(const Run& run, Mass oil) {
  const Duration most = time_of_most_oil(run);
  if (run.oil_in_receiver_at(most) < oil) return std::nullopt;
  return turning_point(run.first_drop(), most,
                       [&](Duration t) { return run.oil_in_receiver_at(t) < oil; })
      .first_no;
}

}  // namespace firstdrop
