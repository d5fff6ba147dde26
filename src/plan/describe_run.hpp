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
#include "quantity/equation.hpp"

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
namespace equations {
inline constexpr Equation<Duration> latest{
    "t_late", "time by which to turn the heat off if nobody has seen the level", shown_in::minutes,
    "max(min(t_res_w - t_store_w, t_stop_w + late), 0)"};
inline constexpr Equation<Volume> absence{
    "V_absence", "part of the fill that covers a late stop and stored heat", shown_in::millilitres,
    "V_w * (late + t_store_w) / rho_w"};
inline constexpr Equation<Volume> after_heat_off{"V_after",
                                                 "hydrosol that still comes after the heat is off",
                                                 shown_in::millilitres, "D * t_store"};

inline constexpr Equation<Energy> energy{"E", "energy from the socket", shown_in::kilowatt_hours,
                                         "P / 1000 * s / 100 * t_stop / 60"};
inline constexpr Equation<Energy> energy_of_gas{energy.symbol, "energy of the gas", energy.unit,
                                                energy.text};
/// The right-hand side of both at a measured mains voltage.
inline constexpr std::string_view energy_at_measured_mains =
    "P / 1000 * s / 100 * k_mains / 100 * t_stop / 60";
// In the recipe's currency.
inline constexpr Equation<double> energy_cost{"cost_e", "cost of energy", shown_in::plain(""),
                                              "E * price_e"};
inline constexpr Equation<double> plant_cost{"cost_m", "cost of the charge", shown_in::plain(""),
                                             "m / 1000 * price_m"};
}  // namespace equations

/// Describes the charge. Its `run` is the plan's, if it has one, as it was described.
ChargePlan describe_charge(const Planning& p, const Settled& settled, const DescribedRun& run);

/// The nominal run from the start of heating to its stop: all events, and about twelve moments in
/// between.
std::vector<TimelinePoint> timeline(const Planning& p, const Run& nominal, Duration stop,
                                    const Cooling& cooling, const RunPlan& plan);

}  // namespace firstdrop
