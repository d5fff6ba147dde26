#include "firstdrop/tables/plant.hpp"

#include <algorithm>

namespace firstdrop {

std::string to_string(State state) {
  switch (state) {
    case State::fresh:
      return "fresh";
    case State::wilted:
      return "wilted";
    case State::dried:
      return "dried";
  }
  return {};
}

std::string to_string(Cut cut) {
  switch (cut) {
    case Cut::whole:
      return "whole";
    case Cut::chopped:
      return "chopped";
    case Cut::crushed:
      return "crushed";
    case Cut::ground:
      return "ground";
  }
  return {};
}

std::string to_string(PlantForm form) {
  switch (form) {
    case PlantForm::leafy_herb:
      return "leafy-herb";
    case PlantForm::leaf:
      return "leaf";
    case PlantForm::flowers:
      return "flowers";
    case PlantForm::needles:
      return "needles";
    case PlantForm::seed:
      return "seed";
    case PlantForm::wood:
      return "wood";
    case PlantForm::root:
      return "root";
    case PlantForm::peel:
      return "peel";
  }
  return {};
}

std::string to_string(Harm harm) {
  switch (harm) {
    case Harm::seizures:
      return "seizures";
    case Harm::coma:
      return "coma";
    case Harm::poisoning:
      return "poisoning";
    case Harm::lungs:
      return "lungs";
    case Harm::liver:
      return "liver";
    case Harm::harmful:
      return "harmful";
    case Harm::cancer:
      return "cancer";
    case Harm::reproduction:
      return "reproduction";
    case Harm::allergy:
      return "allergy";
    case Harm::irritation:
      return "irritation";
    case Harm::sunburn:
      return "sunburn";
    case Harm::fire:
      return "fire";
    case Harm::look_alike:
      return "look-alike";
  }
  return {};
}

std::string to_string(Route route) {
  switch (route) {
    case Route::swallowed:
      return "swallowed";
    case Route::breathed:
      return "breathed";
    case Route::on_skin:
      return "on-skin";
    case Route::in_eyes:
      return "in-eyes";
  }
  return {};
}

std::string to_string(AtRisk group) {
  switch (group) {
    case AtRisk::infants:
      return "infants";
    case AtRisk::children:
      return "children";
    case AtRisk::pregnancy:
      return "pregnancy";
    case AtRisk::epilepsy:
      return "epilepsy";
    case AtRisk::allergic:
      return "allergic";
    case AtRisk::pets:
      return "pets";
  }
  return {};
}

std::string to_string(HarmfulSubstance substance) {
  switch (substance) {
    case HarmfulSubstance::camphor:
      return "camphor";
    case HarmfulSubstance::cineole:
      return "cineole";
    case HarmfulSubstance::estragole:
      return "estragole";
    case HarmfulSubstance::menthofuran:
      return "menthofuran";
    case HarmfulSubstance::menthol:
      return "menthol";
    case HarmfulSubstance::methyleugenol:
      return "methyleugenol";
    case HarmfulSubstance::phenols:
      return "phenols";
    case HarmfulSubstance::pinocamphone:
      return "pinocamphone";
    case HarmfulSubstance::pulegone:
      return "pulegone";
    case HarmfulSubstance::safrole:
      return "safrole";
    case HarmfulSubstance::thujone:
      return "thujone";
  }
  return {};
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
