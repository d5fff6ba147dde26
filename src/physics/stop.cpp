#include "physics/stop.hpp"

#include <algorithm>

#include "base/root.hpp"
#include "physics/words.hpp"

namespace firstdrop {
namespace {

// The share of the oil that counts as all of it: all but a ten-thousandth.
constexpr Fraction all_but_nothing = fraction(0.9999);

}  // namespace

std::string to_string(Phase phase) {
  return word_of(phase);
}

std::string to_string(StopRule rule) {
  return word_of(rule);
}

Duration stop_time(const Run& run, const Stop& stop) {
  if (!stop.hydrosol) return *stop.clock;
  const Duration by_volume = run.time_of_hydrosol(*stop.hydrosol);
  return stop.clock ? std::min(by_volume, *stop.clock) : by_volume;
}

Duration time_of_low_gain(const Run& run, Fraction gain) {
  const RunValues& v = run.values();
  const Mass least = v.oil_recoverable * gain;
  if (least <= grams(0)) return run.time_of_oil_share(all_but_nothing);  // no recoverable oil
  const auto still_gains = [&](Duration t) {
    return (run.oil_vaporised_at(t + quarter_hour) - run.oil_vaporised_at(t) - least).si();
  };
  const double gains_at_first = still_gains(run.first_drop());
  if (gains_at_first < 0.0) return run.first_drop();
  const Duration by_plant =
      run.first_drop() + time_of_gain(v.oil_recoverable, run.release(), quarter_hour, least);
  const auto held_back = run.codistillation_limit_until();
  if (!held_back || by_plant >= *held_back) return by_plant;
  return bracket_root(run.first_drop(), *held_back, still_gains, gains_at_first).first_no;
}

Duration time_of_balance(const Run& run, Rate allowance) {
  const auto worth_going_on = [&](Duration running) {
    return 1.0 - run.oil_share_at(run.first_drop() + running) - allowance * running;
  };
  const Duration end = 1.0 / allowance;
  return run.first_drop() + bracket_root(seconds(0), end, worth_going_on, 1.0).first_no;
}

Duration time_of_most_oil(const Run& run) {
  return std::min(run.saturated_until(), run.time_of_oil_share(all_but_nothing));
}

std::optional<Duration> time_of_oil(const Run& run, Mass oil) {
  // Until time_of_most_oil() the hydrosol is saturated, and the rest of the oil has separated.
  const auto lacking = [&](Duration t) {
    const Mass dissolved = run.values().hydrosol_oil * run.hydrosol_at(t);
    return (oil - run.oil_vaporised_at(t) + dissolved).si();
  };
  const Duration most = time_of_most_oil(run);
  const double at_most = lacking(most);
  if (at_most > 0.0) return std::nullopt;
  if (oil <= grams(0)) return run.first_drop();
  return bracket_root(run.first_drop(), most, lacking, oil.si(), at_most).first_no;
}

}  // namespace firstdrop
