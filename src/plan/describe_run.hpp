// Describes the run of a settled plan: water, times, rates, coolant, costs, uncertainty, timeline.
#pragma once

#include <optional>
#include <vector>

#include "firstdrop/plan/finding.hpp"
#include "firstdrop/plan/plan.hpp"
#include "plan/cooling.hpp"
#include "plan/planning.hpp"
#include "plan/settle.hpp"
#include "plan/workings.hpp"

namespace firstdrop {

/// A described run.
struct DescribedRun {
  std::optional<RunPlan> run;  ///< none if it would be too long
  Decision decision;           ///< as settled, or with the stop that coolant or clock allow
  std::optional<Temperature> coldest_coolant;  ///< of the run
  std::vector<Finding> findings;               ///< about the run and its cooling
  std::optional<RunWorkings> workings;         ///< none without a run, and in brief
};
/// Describes the run that was settled. Needs a run, which may be refused.
DescribedRun describe_run(const Planning& p, const Settled& settled);

/// Describes the charge. Its `run` is the plan's, if it has one, as it was described.
ChargePlan describe_charge(const Planning& p, const Settled& settled, const DescribedRun& run);

/// The nominal run from the start of heating to its stop: all events, and about twelve moments in
/// between.
std::vector<TimelinePoint> timeline(const Planning& p, const Run& nominal, Duration stop,
                                    const Cooling& cooling, const RunPlan& plan);

}  // namespace firstdrop
