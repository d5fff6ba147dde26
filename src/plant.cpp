#include "firstdrop/plant.hpp"

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

const std::vector<std::string>& hazard_subjects() {
  static const std::vector<std::string> subjects = {
      "allergy",       "animals",     "camphor",          "cineole",    "convulsions",
      "estragole",     "flammable",   "irritating",       "look-alike", "low-hazard",
      "methyleugenol", "phenols",     "photosensitivity", "pregnancy",  "pulegone",
      "safrole",       "sensitising", "swallowing",       "thujone"};
  return subjects;
}

OilPlace oil_place(const Plant& plant) {
  const Density water = kilograms_per_cubic_metre(998);
  const Range<Density>& oil = plant.oil_density.range;
  if (oil.low > water) return OilPlace::sinks;
  return oil.high > water ? OilPlace::near_water : OilPlace::floats;
}

Cut default_cut(const Plant& plant, State state) {
  if (plant.form) return plant.form == PlantForm::seed ? Cut::crushed : Cut::chopped;
  const auto& densities = plant.states.at(state).bulk_density;
  const bool has_chopped =
      std::any_of(densities.begin(), densities.end(),
                  [](const BulkDensity& density) { return density.cut == Cut::chopped; });
  return has_chopped || densities.empty() ? Cut::chopped : densities.front().cut;
}

}  // namespace firstdrop
