// How much water a pot has room for, and how much a run needs in its worst credible case.
#pragma once

#include <optional>

#include "model/model_parameters.hpp"
#include "model/worst_case.hpp"
#include "physics/stop.hpp"
#include "quantity/equation.hpp"

namespace firstdrop {

namespace equations {
// WaterBudget::poured_mass().
inline constexpr Equation<Mass> poured_mass{"M_fill", "mass of that water", shown_in::grams,
                                            "V_fill * rho_w"};
/// Of water that is warmer or colder than the room.
inline constexpr Equation<Mass> mass_as_poured{poured_mass.symbol, poured_mass.name,
                                               poured_mass.unit, "V_fill * rho_pour"};
// WaterBudget::room() keeps these below the pot's fill limit.
inline constexpr Equation<Fraction> pot_fill{"fill_pot", "share of the pot filled by water",
                                             shown_in::percent, "V_fill / V_pot * 100"};
inline constexpr Equation<Fraction> pot_fill_with_charge{
    "fill", "share of the pot filled by water and charge", shown_in::percent,
    "(V_fill + V_charge) / V_pot * 100"};
}  // namespace equations

class WaterBudget {
 public:
  /// Keeps references to both, which must outlive this object.
  WaterBudget(const ModelParameters& parameters, const DesignDefaults& defaults)
      : parameters_(parameters),
        defaults_(defaults),
        pot_(least_of(parameters.recipe.still->pot.volume)),
        fill_limit_(least_of(parameters.recipe.still->pot.fill_limit)),
        least_water_(as_mass(most_of(parameters.recipe.still->pot.minimum_water))) {}

  /// Volume of the charge's pieces in the water; zero unless the charge lies in it (hydro).
  Volume pieces(Mass charge) const;
  /// The most water that may be poured in with this charge.
  Volume room(Mass charge) const;
  /// Water that must stay in the pot.
  Mass reserve(Mass charge, Mass fill) const;
  /// Water above the reserve in the worst credible case, when the pot boils for `lateness` past the
  /// stop (see longest_lateness()). Negative if less than the reserve is left.
  Mass worst_margin(Mass charge, Mass fill, const Stop& stop, Duration lateness) const;
  /// The least first fill that keeps the reserve in the worst case. None if no fill that fits into
  /// the pot does.
  std::optional<Mass> least_fill(Mass charge, const Stop& stop, Duration lateness) const;
  /// The most hydrosol that this fill can give while it keeps the reserve in the worst case,
  /// rounded down to a mark of the jug.
  Volume most_hydrosol(Mass charge, Mass fill, std::optional<Duration> clock,
                       Duration lateness) const;
  /// Lower bound, over all sample points and whatever ends the run, on the time at which only
  /// `left` is in the pot. `worst` is the worst case's run by some stop. Its water is known to last
  /// until `at_least`.
  Duration worst_time_until(Mass left, Mass charge, Mass fill, const Run& worst,
                            Duration at_least) const;

  /// The worst case for this charge. The last one asked for is kept.
  const WorstCase& worst_case(Mass charge) const;

  // Conversions at room temperature.
  Volume as_volume(Mass water) const { return water / parameters_.fill_density; }
  Mass as_mass(Volume water) const { return water * parameters_.fill_density; }
  // Conversions at the temperature of the poured water.
  Volume poured_volume(Mass water) const { return water / parameters_.pour_density; }
  Mass poured_mass(Volume water) const { return water * parameters_.pour_density; }

 private:
  bool hydro() const { return parameters_.recipe.method_used() == Method::hydro; }

  const ModelParameters& parameters_;
  const DesignDefaults& defaults_;
  Volume pot_;           // lower bound
  Fraction fill_limit_;  // lower bound
  Mass least_water_;     // upper bound of the still's minimum
  // Kept, because searches ask for many fills and stops of one charge.
  mutable std::optional<WorstCase> worst_case_;
  mutable Mass charge_;
};

}  // namespace firstdrop
