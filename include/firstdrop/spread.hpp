// Uncertainty: what the run gives when the inputs are not quite the typical ones.
#pragma once

#include <optional>
#include <vector>

#include "firstdrop/inputs.hpp"
#include "firstdrop/quantity.hpp"
#include "firstdrop/source.hpp"
#include "firstdrop/stop.hpp"

namespace firstdrop {

/// What has been decided before the heat goes on, and does not vary.
struct Decision {
  Mass charge;      ///< of one run
  Mass first_fill;  ///< nominal
  Stop stop;
};

/// What counts as the goal met, in one run.
struct GoalOfRun {
  std::optional<Volume> hydrosol;
  std::optional<Mass> oil;  ///< in the receiver
  std::optional<Volume> oil_volume;
  std::optional<Fraction> oil_share;
};

/// 10th, 50th and 90th percentile of one run's outcomes.
struct Spread {
  std::vector<Range<Volume>> oil_course;  ///< oil in the receiver at each of the marks
  Range<Volume> hydrosol;
  Range<Density> dissolved_oil;  ///< per volume of hydrosol
  Range<Mass> oil_in_charge;
  Range<Mass> oil_vaporised;
  Range<Mass> oil_dissolved;  ///< in the hydrosol
  Range<Mass> oil_in_receiver;
  Range<Volume> oil_volume;  ///< in the receiver
  Range<Density> oil_density;
  Range<Fraction> oil_share;  ///< vaporised, of the oil in the charge
  Range<Duration> first_drop;
  Range<Duration> stop;
  std::optional<Fraction> chance_of_goal;
  int samples = 0;
};

/// A moment of the typical run to follow through the spread: from first drop on, in a run that ends
/// by the level in the receiver, it is that level, otherwise that time.
struct Mark {
  Volume hydrosol;
  Duration time;
  bool running = false;  ///< from first drop on
};

inline constexpr int default_samples = 512;

/// Carries every input's range through the run by quasi-random sampling: a Kronecker (additive
/// recurrence) sequence on the powers of the generalised golden ratio, shifted by the recipe's
/// seed. The same inputs give the same result to the last bit. Samples in which no distillate comes
/// count as nothing gained, and not at all in the times. Needs samples > 0.
Spread spread_of(const Inputs& inputs, const Decision& decision, const GoalOfRun& goal,
                 int samples = default_samples, const std::vector<Mark>& marks = {});

}  // namespace firstdrop
