// The cooling of a plan: coolant and ice for the nominal run, and whether the condenser copes in
// the upper-bound heater case, also when the person comes late.
#pragma once

#include <optional>
#include <vector>

#include "firstdrop/plan/finding.hpp"
#include "firstdrop/plan/plan.hpp"
#include "model/model_parameters.hpp"
#include "model/outcomes.hpp"
#include "model/worst_case.hpp"
#include "physics/condenser.hpp"

namespace firstdrop {

/// What goes into the still.
struct Loading {
  Mass charge;
  Mass first_fill;
};

struct Cooling {
  CoolingPlan plan;
  std::optional<CoolantRun> vessel;  ///< ice bath or reservoir, from first drop on
  std::optional<Duration> ends;      ///< coolant too warm before the stop; from start of heating
  std::optional<CoolingRule> rule;   ///< none when the coolant can't cool the run at all
  Temperature coldest;               ///< coldest coolant of the run
  std::vector<Finding> findings;
};

/// Plans the cooling. `nominal` and `hot` are runs of the same recipe and loading, both without
/// failure and both ended by `stop`: the nominal run, and the run of upper_heater_values(). In
/// brief it leaves out the ice to have ready.
Cooling plan_cooling(const ModelParameters& parameters, const DesignDefaults& defaults,
                     const Run& nominal, const Run& hot, const Loading& loading, const Stop& stop,
                     Detail detail = Detail::full);

/// The ice that the nominal run takes. Each piece is rounded up as it is weighed out (ice_up), so
/// that the last one isn't short. Needs a plan with ice.
Mass ice_to_have(const CoolingPlan& plan, Units units);

}  // namespace firstdrop
