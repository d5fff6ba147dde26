#include "firstdrop/tables/plant.hpp"

#include <algorithm>

#include "tables/words.hpp"

namespace firstdrop {

std::string to_string(State state) {
  return word_of(state);
}

std::string to_string(Cut cut) {
  return word_of(cut);
}

std::string to_string(PlantForm form) {
  return word_of(form);
}

std::string to_string(Harm harm) {
  return word_of(harm);
}

std::string to_string(Route route) {
  return word_of(route);
}

std::string to_string(AtRisk group) {
  return word_of(group);
}

std::string to_string(HarmfulSubstance substance) {
  return word_of(substance);
}

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

OilPlace oil_place(const Plant& plant) {
  const Density water = kilograms_per_cubic_metre(998);
  const Range<Density>& oil = plant.oil_density.range;
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
