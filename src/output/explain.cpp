#include "output/explain.hpp"

#include <utility>

#include "firstdrop/base/error.hpp"
#include "output/explain_chapters.hpp"
#include "physics/charge.hpp"
#include "physics/condenser.hpp"
#include "physics/release.hpp"
#include "physics/water.hpp"
#include "plan/workings.hpp"

namespace firstdrop {

std::vector<Chapter> explain(const Plan& plan, const Tables& tables) {
  if (!plan.workings) throw Error("Only a plan that make_plan() made in full can be explained.");
  const Workings& workings = *plan.workings;
  const ExplainedPlan of_plan{plan, workings, tables};
  std::vector<Chapter> chapters;
  for (const auto chapter : {explain_place, explain_charge}) chapters.push_back(chapter(of_plan));
  if (!plan.run || workings.runs->nominal.failure()) return chapters;
  const ExplainedRun of_run{of_plan, *plan.run, workings.runs->nominal, workings.runs->worst};
  for (const auto explain_chapter :
       {explain_pot, explain_column, explain_stop, explain_oil, explain_water, explain_worst_case,
        explain_steam, explain_coolant, explain_energy, explain_ranges, explain_sensitivities}) {
    Chapter chapter = explain_chapter(of_run);
    if (!chapter.figures.empty()) chapters.push_back(std::move(chapter));
  }
  return chapters;
}

const std::vector<PropertyFunction>& property_functions() {
  static const std::vector<PropertyFunction> functions = {
      equations::saturation_temperature, equations::saturation_pressure, equations::latent_heat,
      equations::mean_specific_heat,     equations::water_density,       equations::steam_density,
      equations::steam_viscosity,
  };
  return functions;
}

const std::vector<EquationSource>& equation_sources() {
  static const std::vector<EquationSource> sources = {
      cited::if97,       cited::sr1,        cited::steam_viscosity, cited::ice,
      cited::atmosphere, cited::balance,    cited::release,         cited::flow_effect,
      cited::raoult,     cited::solubility, cited::ergun,           cited::condenser,
  };
  return sources;
}

}  // namespace firstdrop
