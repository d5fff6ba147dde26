/// @file
/// What one recipe puts into the model: the parameter selected for each uncertain quantity, with
/// its range and its evidence, and what the site fixes. model/parameters_at.hpp turns them into the
/// values of a run.
#pragma once

#include <cstddef>
#include <optional>
#include <unordered_map>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/tables.hpp"
#include "model/sample_point.hpp"
#include "model/selected_parameters.hpp"
#include "physics/release.hpp"

namespace firstdrop {

/// How many times the heat that a figure of its heater says a run may have.
struct HeatMargin {
  double least = 1.0;  ///< 1 or less
  double most = 1.0;   ///< 1 or more
};

/// What goes into the model.
struct ModelParameters {
  Recipe recipe;  ///< as it was asked for

  // Fixed by the site.
  Pressure ambient;                 ///< given, or by altitude
  Temperature boiling;              ///< of water at that pressure
  SpecificEnergy latent_heat;       ///< at that temperature
  SpecificEnergy boiling_enthalpy;  ///< of the water there
  SpecificHeat water_heat;          ///< mean from room to boiling
  SpecificHeat distillate_heat;     ///< mean from the ice point to boiling
  Density fill_density;             ///< of water at room temperature
  Temperature poured;               ///< of what is poured into the pot
  Density pour_density;             ///< of water at that temperature
  Temperature coolant;              ///< as it comes or is filled in

  /// The figures that serve; uncertain, but for a few that are exact enough.
  Shared<SelectedParameters> selected;

  // Measured on the bench; beat heater efficiency. In the worst case they only add to it.
  std::optional<Range<VolumeFlow>> own_rate;     ///< of distillate
  Fraction own_rate_setting = fraction(1);       ///< of the heater, when that rate was taken
  std::optional<Range<Duration>> own_boil_time;  ///< from heat on
  Fraction own_boil_setting = fraction(1);       ///< of the heater, when that time was taken
  Mass own_boil_water;                           ///< in the pot when that time was taken

  double mains = 1.0;  ///< power drawn at the voltage that was measured, over the nameplate's
  /// By the mains, and by a dial that gives more than it says, of heaters at the 10th and 90th
  /// percentile of the tables' range.
  HeatMargin of_tables;
  HeatMargin of_reading;  ///< the same of the bench's own reading

  std::optional<CodistillationLimit>
      codistillation;  ///< none where less than half of the oil is known well enough
};

/// Chooses the figures for a recipe, and checks it as far as a reader of files would have: amounts
/// that are to be above zero, parts of the still that the method needs, a state that the plant has,
/// a room of 0 to 50 °C, a coolant of 0 to 60 °C, water that is poured in at 0 °C to 1 K below
/// boiling; and what select_parameters() checks.
/// Throws InputError, its pointers those of a recipe's file, when the recipe does not hold
/// together, asks for what the tables cannot give, or when its own figures are not enough (a time
/// to boil without its water).
ModelParameters model_parameters(Recipe recipe, const Tables& tables);

/// Gathers the inputs of many recipes, and keeps what the next may have in common with those
/// before, since to find it takes longer than to plan with it: the figures of a plant in a still,
/// the water at the site, what steam can carry there. The same inputs as by model_parameters(). Not
/// for two threads at once.
class ParameterCache {
 public:
  /// The library must be the same, and stay, in all calls. Throws as model_parameters() does.
  ModelParameters gather(Recipe recipe, const Tables& tables);

  /// What follows from pressure and room temperature.
  struct Water {
    Pressure ambient;                 ///< of the two, the first
    Temperature room;                 ///< and the second
    Temperature boiling;              ///< as ModelParameters::boiling, and so on
    SpecificEnergy latent_heat;       ///< as in Inputs
    SpecificEnergy boiling_enthalpy;  ///< as in Inputs
    SpecificHeat water_heat;          ///< as in Inputs
    SpecificHeat distillate_heat;     ///< as in Inputs
    Density fill_density;             ///< as in Inputs
  };

 private:
  /// What figures are chosen by.
  struct Key {
    const Plant* plant = nullptr;  ///< where it stands, as the next
    const Still* still = nullptr;
    State state = State::fresh;
    Cut cut = Cut::chopped;
    Method method = Method::steam;
    std::optional<Density> bulk_density;  ///< the recipe's own, as the next
    std::optional<Fraction> oil_content;
    bool operator==(const Key& other) const = default;
  };
  struct Hash {
    std::size_t operator()(const Key& key) const;
  };
  struct Place {
    // Held, so that no other plant or still can come to stand where they are.
    Shared<Plant> plant;
    Shared<Still> still;
    Shared<SelectedParameters> selected;
    std::optional<Pressure> limit_at = {};
    std::optional<CodistillationLimit> codistillation = {};  ///< at that pressure
  };
  using Places = std::unordered_map<Key, Place, Hash>;
  Place& place_for(const Recipe& recipe, const Tables& tables);

  Places places_;
  Places places_with_own_;  ///< whose recipe has figures of its own
  std::optional<Water> water_;
};

}  // namespace firstdrop
