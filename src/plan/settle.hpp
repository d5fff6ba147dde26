// The decisions of a plan, one after another: charge, heater, stop, water. Each takes what was
// decided before it.
#pragma once

#include <optional>
#include <vector>

#include "firstdrop/plan/finding.hpp"
#include "firstdrop/plan/plan.hpp"
#include "model/outcomes.hpp"
#include "plan/planning.hpp"

namespace firstdrop {

/// What to do with a harvest that is slightly more than some full runs hold.
enum class Sharing {
  full_runs,  ///< the remainder is left over
  evenly,     ///< split it evenly over one more run
};

/// What one run is loaded with.
struct ChargeChoice {
  Mass charge;                     ///< of one run
  int runs = 1;                    ///< all alike
  Mass rest;                       ///< left over from the recipe's charge
  std::optional<Finding> refusal;  ///< why there can't be a run
};
/// Chooses the charge. For an oil goal the run is sized for `aim` times the oil wanted.
ChargeChoice choose_charge(const Planning& p, Sharing sharing, double aim);

/// Whether the heater brings steam to the condenser with this charge, and what its readings and its
/// weakest case say. The heater isn't enough if one of the findings refuses.
std::vector<Finding> check_heater(const Planning& p, Mass charge);

/// What ends one run, as the goal wants it.
struct StopChoice {
  Stop stop;
  StopRule rule = StopRule::hydrosol;
  GoalOfRun goal;                  ///< for the odds
  std::optional<Finding> refusal;  ///< why there can't be a run
};
/// Turns the goal into a level in the receiver or a clock time. It aims at `aim` times the oil
/// wanted, or at `aim` times the steam if the goal is a share of the oil.
StopChoice choose_stop(const Planning& p, const ChargeChoice& charge, double aim);

/// The water of one run.
struct WaterChoice {
  Mass fill;
  Mass most_charge;  ///< for the same fill and stop; zero if there's none beyond the
                     ///< charge itself
  Stop stop;         ///< as wanted, or earlier where the water ends the run
  StopRule rule = StopRule::hydrosol;
  std::optional<Finding> refusal;  ///< why there can't be a run
  /// The run is described all the same, because the recipe gives its water.
  bool refused_but_described = false;
};
/// Chooses the fill, and ends the run early if its water can't last longer.
WaterChoice choose_water(const Planning& p, const ChargeChoice& charge, const StopChoice& stop);
/// The largest charge below this one that leaves room for the water of the same stop (hydro). None
/// if there is none.
std::optional<Mass> lighter_charge(const Planning& p, Mass charge, const Stop& stop);

/// Everything that is decided before heating starts.
struct Settled {
  ChargeChoice charge;
  StopChoice stop;  ///< as the water allows it
  Mass fill;
  Mass most_charge;                ///< for the same water and stop; at least `charge`
  std::vector<Finding> heater;     ///< about the heater
  std::optional<Finding> refusal;  ///< about charge, stop or water
  bool refused = false;            ///< by the heater or for another reason
  bool has_run = false;            ///< whether the run can be described

  Decision decision(const Planning& p) const {
    return {charge.charge, fill, p.water.reserve(charge.charge, fill), stop.stop};
  }
};
/// Takes the decisions in order, up to the first that refuses.
Settled settle(const Planning& p, Sharing sharing, double aim);

}  // namespace firstdrop
