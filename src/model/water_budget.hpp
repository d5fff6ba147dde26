// How much water a pot has room for, and how much a run needs for its worst credible case.
#pragma once

#include <optional>

#include "model/model_parameters.hpp"
#include "model/worst_case.hpp"
#include "physics/stop.hpp"

namespace firstdrop {

class WaterBudget {
 public:
  /// Keeps references: both must outlive it.
  WaterBudget(const ModelParameters& parameters, const DesignDefaults& defaults)
      : parameters_(parameters),
        defaults_(defaults),
        pot_(least_of(parameters.recipe.still->pot.volume)),
        fill_limit_(least_of(parameters.recipe.still->pot.fill_limit)),
        least_water_(as_mass(most_of(parameters.recipe.still->pot.minimum_water))) {}

  /// Room that the pieces of the charge take up in the water; none unless it lies in it (hydro).
  Volume pieces(Mass charge) const;
  /// The most water that may be poured in with this charge.
  Volume room(Mass charge) const;
  /// Water that must stay in the pot.
  Mass reserve(Mass charge, Mass fill) const;
  /// Water above the reserve in the worst credible case, when the pot boils for `lateness` past the
  /// stop (see longest_lateness()); below zero when there is less.
  Mass worst_margin(Mass charge, Mass fill, const Stop& stop, Duration lateness) const;
  /// The least first fill that keeps the worst case above its reserve; none when no fill that the
  /// pot has room for does.
  std::optional<Mass> least_fill(Mass charge, const Stop& stop, Duration lateness) const;
  /// The most hydrosol that a fill can give so, by the mark of a jug.
  Volume most_hydrosol(Mass charge, Mass fill, std::optional<Duration> clock,
                       Duration lateness) const;
  /// When the worst credible case is down to this, whatever ends the run: at no point of the ranges
  /// is it sooner. `worst` is its run by some stop, and its water is known to last until
  /// `at_least`.
  Duration worst_time_until(Mass left, Mass charge, Mass fill, const Run& worst,
                            Duration at_least) const;

  /// That of this charge; the one asked for last is kept.
  const WorstCase& worst_case(Mass charge) const;

  // At room temperature.
  Volume as_volume(Mass water) const { return water / parameters_.fill_density; }
  Mass as_mass(Volume water) const { return water * parameters_.fill_density; }
  // As it is poured in.
  Volume poured_volume(Mass water) const { return water / parameters_.pour_density; }
  Mass poured_mass(Volume water) const { return water * parameters_.pour_density; }

 private:
  bool hydro() const { return parameters_.recipe.method_used() == Method::hydro; }

  const ModelParameters& parameters_;
  const DesignDefaults& defaults_;
  Volume pot_;           // no larger than it may be
  Fraction fill_limit_;  // and filled no further
  Mass least_water_;     // that the still wants in its pot
  // Searches ask for many fills and stops of one charge.
  mutable std::optional<WorstCase> worst_case_;
  mutable Mass charge_;
};

}  // namespace firstdrop
