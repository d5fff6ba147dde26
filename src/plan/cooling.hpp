// The cooling of a plan: coolant and ice for the typical run, and whether the condenser holds at
// the hottest plate, also when the person comes late.
#pragma once

#include <optional>
#include <vector>

#include "firstdrop/plan/plan.hpp"
#include "model/model_parameters.hpp"
#include "model/outcomes.hpp"
#include "model/worst_case.hpp"
#include "physics/condenser.hpp"

namespace firstdrop {

/// So long before the stop the ice of the finding ice-before-stop goes in: time to do it in (common
/// practice, no source).
inline constexpr Duration ice_before_stop = minutes(5);

/// What goes into the still.
struct Loading {
  Mass charge;
  Mass first_fill;
};

struct Cooling {
  CoolingPlan plan;
  std::optional<CoolantRun> vessel;  ///< ice bath or reservoir, from first drop on
  std::optional<Duration> ends;      ///< from heat on: the coolant is too warm before the stop
  std::optional<CoolingRule> rule;   ///< none: the coolant cannot do it at all
  Temperature coldest;               ///< coolant of the run
  std::vector<Finding> findings;
};

/// `typical` and `hot` are runs of the same recipe and loading without failure, ended by `stop`: by
/// the typical and by upper_heater_values(). In brief the cautions
/// come without words.
Cooling plan_cooling(const ModelParameters& parameters, const DesignDefaults& defaults,
                     const Run& nominal, const Run& hot, const Loading& loading, const Stop& stop,
                     Detail detail = Detail::full);

/// All the ice to have ready: every piece as it is weighed out, rounded up (ice_up), so that the
/// last one is not short. Needs a plan with ice.
Mass ice_to_have(const CoolingPlan& plan, Units units);

}  // namespace firstdrop
