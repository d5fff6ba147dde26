#include "firstdrop/spread.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

namespace firstdrop {
namespace {

// M. Roberts' generalised golden ratio: the root of x^(d+1) = x + 1; its inverse powers make a
// low-discrepancy additive recurrence in d dimensions (from memory).
double generalised_golden_ratio(std::size_t dimensions) {
  double x = 1.5;
  for (int i = 0; i < 60; ++i) x = std::pow(1.0 + x, 1.0 / static_cast<double>(dimensions + 1));
  return x;
}

// One step of the SplitMix64 generator (S. Vigna, public domain; from memory), as a number in [0,
// 1).
double split_mix(std::uint64_t& state) {
  state += 0x9e3779b97f4a7c15U;
  std::uint64_t z = state;
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
  z ^= z >> 31U;
  return static_cast<double>(z >> 11U) * 0x1.0p-53;
}

class Sequence {
 public:
  explicit Sequence(std::uint64_t seed) {
    const double ratio = generalised_golden_ratio(input_count);
    double step = 1.0;
    for (std::size_t i = 0; i < input_count; ++i) {
      step /= ratio;
      step_.at(i) = step;
      at_.at(i) = split_mix(seed);
    }
  }

  Point next() {
    Point point = Point::typical();
    for (std::size_t i = 0; i < input_count; ++i) {
      at_.at(i) += step_.at(i);
      at_.at(i) -= std::floor(at_.at(i));
      point.set(static_cast<Input>(i), at_.at(i));
    }
    return point;
  }

 private:
  std::array<double, input_count> step_{};
  std::array<double, input_count> at_{};
};

template <class T>
Range<T> percentiles(std::vector<T>& values) {
  if (values.empty()) return {};
  std::sort(values.begin(), values.end());
  const auto at = [&](double p) {
    const double place = p * static_cast<double>(values.size() - 1);
    const auto below = static_cast<std::size_t>(place);
    const std::size_t above = std::min(below + 1, values.size() - 1);
    return values[below] + (values[above] - values[below]) * (place - std::floor(place));
  };
  return {at(0.1), at(0.5), at(0.9)};
}

}  // namespace

Spread spread_of(const Inputs& inputs, const Decision& decision, const GoalOfRun& goal, int samples,
                 const std::vector<Mark>& marks) {
  std::vector<std::vector<Volume>> oil_course(marks.size());
  std::vector<Volume> hydrosol;
  std::vector<Density> dissolved_oil;
  std::vector<Mass> in_charge;
  std::vector<Mass> vaporised;
  std::vector<Mass> dissolved;
  std::vector<Mass> in_receiver;
  std::vector<Volume> oil_volume;
  std::vector<Density> oil_density;
  std::vector<Fraction> oil_share;
  std::vector<Duration> first_drop;
  std::vector<Duration> stop;
  const auto count = static_cast<std::size_t>(samples);
  for (auto* v : {&in_charge, &vaporised, &dissolved, &in_receiver}) v->reserve(count);
  for (auto* v : {&hydrosol, &oil_volume}) v->reserve(count);
  for (auto* v : {&dissolved_oil, &oil_density}) v->reserve(count);
  for (auto* v : {&first_drop, &stop}) v->reserve(count);
  oil_share.reserve(count);

  // A goal that was aimed at exactly must not be missed by rounding.
  constexpr double slack = 1.0 - 1e-9;
  int met = 0;
  Sequence sequence(inputs.recipe.seed);
  for (int i = 0; i < samples; ++i) {
    const Point point = sequence.next();
    const Run run(values_at(inputs, point, decision.charge, decision.first_fill));
    const Mass oil = oil_in_charge(inputs, point, decision.charge);
    const Density density = inputs.oil_density.range.at(point[Input::oil_density]);
    in_charge.push_back(oil);
    oil_density.push_back(density);
    if (run.failure()) {
      hydrosol.push_back(litres(0));
      vaporised.push_back(grams(0));
      dissolved.push_back(grams(0));
      in_receiver.push_back(grams(0));
      oil_volume.push_back(litres(0));
      oil_share.push_back(fraction(0));
      for (auto& oils : oil_course) oils.push_back(litres(0));
      continue;
    }
    const Duration end = stop_time(run, decision.stop);
    const Volume collected = run.hydrosol_at(end);
    const Mass over = run.oil_vaporised_at(end);
    const Mass parted = run.oil_in_receiver_at(end);
    hydrosol.push_back(collected);
    if (collected > litres(0)) dissolved_oil.push_back((over - parted) / collected);
    vaporised.push_back(over);
    dissolved.push_back(over - parted);
    in_receiver.push_back(parted);
    oil_volume.push_back(parted / density);
    oil_share.push_back(oil > grams(0) ? over / oil : fraction(0));
    for (std::size_t m = 0; m < marks.size(); ++m) {
      const Duration reached = decision.stop.hydrosol && marks[m].running
                                   ? run.time_of_hydrosol(marks[m].hydrosol)
                                   : marks[m].time;
      oil_course[m].push_back(run.oil_in_receiver_at(std::min(reached, end)) / density);
    }
    first_drop.push_back(run.first_drop());
    stop.push_back(end);
    const bool missed =
        (goal.hydrosol && collected < *goal.hydrosol * slack) ||
        (goal.oil && parted < *goal.oil * slack) ||
        (goal.oil_volume && parted / density < *goal.oil_volume * slack) ||
        (goal.oil_share && over < run.values().oil_recoverable * *goal.oil_share * slack);
    if (!missed) ++met;
  }

  Spread spread;
  spread.samples = samples;
  for (auto& oils : oil_course) spread.oil_course.push_back(percentiles(oils));
  spread.hydrosol = percentiles(hydrosol);
  spread.dissolved_oil = percentiles(dissolved_oil);
  spread.oil_in_charge = percentiles(in_charge);
  spread.oil_vaporised = percentiles(vaporised);
  spread.oil_dissolved = percentiles(dissolved);
  spread.oil_in_receiver = percentiles(in_receiver);
  spread.oil_volume = percentiles(oil_volume);
  spread.oil_density = percentiles(oil_density);
  spread.oil_share = percentiles(oil_share);
  spread.first_drop = percentiles(first_drop);
  spread.stop = percentiles(stop);
  if (goal.hydrosol || goal.oil || goal.oil_volume || goal.oil_share) {
    spread.chance_of_goal = fraction(static_cast<double>(met) / samples);
  }
  return spread;
}

}  // namespace firstdrop
