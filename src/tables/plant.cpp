#include "firstdrop/tables/plant.hpp"

#include <algorithm>

namespace firstdrop {

bool regulated_in_food(HarmfulSubstance substance) {
  switch (substance) {
    case HarmfulSubstance::estragole:
    case HarmfulSubstance::menthofuran:
    case HarmfulSubstance::methyleugenol:
    case HarmfulSubstance::pulegone:
    case HarmfulSubstance::safrole:
    case HarmfulSubstance::thujone:
      return true;
    case HarmfulSubstance::camphor:
    case HarmfulSubstance::cineole:
    case HarmfulSubstance::menthol:
    case HarmfulSubstance::phenols:
    case HarmfulSubstance::pinocamphone:
      break;
  }
  return false;
}

bool has_oil_figures(const Plant& plant) {
  return std::any_of(plant.states.begin(), plant.states.end(),
                     [](const auto& entry) { return entry.second.oil_content.has_value(); });
}

std::string in_words(const Unsuited& unsuited) {
  return unsuited.usual_way.empty() ? unsuited.why : unsuited.why + " " + unsuited.usual_way;
}

bool is_refused(const Plant& plant) {
  return plant.unsuited && plant.unsuited->refused;
}

OilPlace oil_place(const Plant& plant) {
  const Density water = kilograms_per_cubic_metre(998);
  const Range<Density>& oil = plant.oil_density->range;
  if (oil.low > water) return OilPlace::sinks;
  return oil.high > water ? OilPlace::near_water : OilPlace::floats;
}

Cut default_cut(const Plant& plant, State state) {
  if (plant.loaded) return *plant.loaded;
  if (plant.form == PlantForm::flowers) return Cut::whole;
  if (plant.form) return plant.form == PlantForm::seed ? Cut::crushed : Cut::chopped;
  const auto& densities = plant.states.at(state).bulk_density;
  const bool has_chopped =
      std::any_of(densities.begin(), densities.end(),
                  [](const BulkDensity& density) { return density.cut == Cut::chopped; });
  return has_chopped || densities.empty() ? Cut::chopped : densities.front().cut;
}

}  // namespace firstdrop
