#include "model/sensitivity.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace firstdrop {
namespace {

// Sixteen classes follow every curve of the model well enough. More would leave too few samples in
// each (tests/bench/convergence shows the error).
constexpr std::size_t most_classes = 16;
constexpr std::size_t least_in_class = 8;
// The estimate can't tell smaller shares from zero, and they are no use as advice.
constexpr double least_share = 0.01;

double percentile(std::vector<double> values, double p) {
  const auto place = static_cast<std::ptrdiff_t>(p * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), values.begin() + place, values.end());
  return values[static_cast<std::size_t>(place)];
}

/// Replaces infinite outcomes by the largest finite one (or zero).
void bound_by_finite(std::vector<double>& outcomes) {
  double most = 0.0;
  for (const double outcome : outcomes) {
    if (std::isfinite(outcome)) most = std::max(most, outcome);
  }
  for (double& outcome : outcomes) outcome = std::min(outcome, most);
}

}  // namespace

Sensitivities first_order_sensitivity(const std::vector<SamplePoint>& points,
                                      std::vector<double> outcomes, double clipped) {
  const std::size_t count = outcomes.size();
  const std::size_t classes = std::min(most_classes, count / least_in_class);
  if (classes < 2) return {};
  bound_by_finite(outcomes);
  const double low = percentile(outcomes, clipped);
  const double high = percentile(outcomes, 1.0 - clipped);
  double mean = 0.0;
  for (double& outcome : outcomes) {
    outcome = std::clamp(outcome, low, high);
    mean += outcome / static_cast<double>(count);
  }
  double total = 0.0;
  for (const double outcome : outcomes) total += (outcome - mean) * (outcome - mean);
  // Differences this small are the rounding of equal outcomes.
  const double rounding = 1e-12 * std::abs(mean);
  if (total <= static_cast<double>(count) * rounding * rounding) return {};

  // Takes all parameters of a sample at once, in the order in which they lie in memory.
  struct Class {
    double sum = 0.0;
    double count = 0.0;
  };
  std::array<std::array<Class, most_classes>, parameter_count> all_classes{};
  for (std::size_t s = 0; s < count; ++s) {
    for (std::size_t i = 0; i < parameter_count; ++i) {
      const double place = points[s][static_cast<Parameter>(i)] * static_cast<double>(classes);
      // Converting to int takes one instruction.
      const auto at = static_cast<std::size_t>(static_cast<int>(place));
      Class& c = all_classes[i][std::min(at, classes - 1)];
      c.sum += outcomes[s];
      c.count += 1.0;
    }
  }

  Sensitivities sensitivities;
  for (std::size_t i = 0; i < parameter_count; ++i) {
    const auto parameter = static_cast<Parameter>(i);
    double between = 0.0;
    std::size_t filled = 0;
    for (std::size_t c = 0; c < classes; ++c) {
      const auto& [sum, in_class] = all_classes[i][c];
      if (in_class == 0.0) continue;
      ++filled;
      const double apart = sum / in_class - mean;
      between += in_class * apart * apart;
    }
    // Even for a parameter without effect, the means of the classes differ by chance. Subtract
    // that.
    const double within = (total - between) / static_cast<double>(count - filled);
    const double by_chance = static_cast<double>(filled - 1) * within;
    const double share = (between - by_chance) / total;
    if (share >= least_share) sensitivities.push_back({parameter, fraction(std::min(share, 1.0))});
  }
  std::stable_sort(sensitivities.begin(), sensitivities.end(),
                   [](const Sensitivity& a, const Sensitivity& b) { return a.share > b.share; });
  return sensitivities;
}

std::string how_to_know(Parameter parameter) {
  switch (parameter) {
    case Parameter::bulk_density:
      return "weigh the herb of one filled column, and enter it as own.bulk_density";
    case Parameter::moisture:
      return "dry a weighed handful, weigh it again, and enter it as moisture in your own plant "
             "file";
    case Parameter::oil_content:
    case Parameter::recovery:
      return "measure all the oil from one full run, and enter it as own.oil_content";
    case Parameter::half_life:
    case Parameter::fast_share:
    case Parameter::flow_effect:
      return "note the oil every ten minutes of a run, and enter it as release in your own plant "
             "file";
    case Parameter::hydrosol_oil:
      return "have the oil in a litre of hydrosol measured, and enter it as hydrosol_oil in your "
             "own "
             "plant file";
    case Parameter::mixing:
      return "separate the oil after each litre and measure it; a recipe can't use that yet";
    case Parameter::oil_density:
      return "weigh a measured millilitre of the oil, and enter it as oil_density in your own "
             "plant file";
    case Parameter::heater:
    case Parameter::heat_loss:
      return "time 100 mL of distillate and the time to boil, and enter them as "
             "own.distillate_rate and "
             "own.boil_time";
    case Parameter::dry_specific_heat:
    case Parameter::condensing:
    case Parameter::bath_loss:
    case Parameter::particle_size:
    case Parameter::particle_density:
      return "nothing that can be measured at the bench";
    case Parameter::hold_up:
    case Parameter::film_hold_up:
    case Parameter::wall_hold_up:
      return "weigh charge and still before the run, and again after it when they have drained";
    case Parameter::uncondensed_loss:
      return "weigh all water before and after a run: what is missing has left as vapour";
    case Parameter::fill_error:
      return "weigh the water instead of reading a jug";
  }
  return {};
}

}  // namespace firstdrop
