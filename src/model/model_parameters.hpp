/// @file
/// What one recipe puts into the model: the parameter selected for each uncertain quantity, with
/// its range and its evidence, and the values that the site fixes. model/parameters_at.hpp turns
/// them into the values of a run.
#pragma once

#include <cstddef>
#include <optional>
#include <unordered_map>
#include <vector>

#include "firstdrop/model/still_doubt.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/tables.hpp"
#include "model/sample_point.hpp"
#include "model/selected_parameters.hpp"
#include "model/site_water.hpp"
#include "physics/release.hpp"

namespace firstdrop {

/// Lowest and highest heat of a run, as multiples of the heat that a figure of its heater gives.
struct HeatMargin {
  double least = 1.0;  ///< 1 or less
  double most = 1.0;   ///< 1 or more
};

/// The margin for the mains where nobody has measured their voltage. A burner has none.
HeatMargin mains_margin(const Still& still, const DesignDefaults& defaults);
/// How much more heat than it says a dial at this setting gives, as a multiple.
double dial_margin(Fraction setting, const DesignDefaults& defaults);

/// All inputs of the model for one recipe. Those of SiteWater are fixed by the site.
struct ModelParameters : SiteWater {
  Recipe recipe;  ///< as given

  // Fixed by the site.
  Temperature poured;    ///< of the water poured into the pot
  Density pour_density;  ///< of water at that temperature
  Temperature coolant;   ///< from the tap, or as filled in

  /// The selected parameters. They are uncertain, except for a few that are exact enough.
  Shared<SelectedParameters> selected;

  // Measured on the bench. They replace the heater's efficiency. In the worst case, whichever gives
  // more heat counts.
  std::optional<Range<VolumeFlow>> own_rate;     ///< of distillate
  Fraction own_rate_setting = fraction(1);       ///< of the heater, when that rate was measured
  std::optional<Range<Duration>> own_boil_time;  ///< from the start of heating
  Fraction own_boil_setting = fraction(1);       ///< of the heater, when that time was measured
  Mass own_boil_water;                           ///< in the pot, when that time was measured

  double mains = 1.0;  ///< power drawn at the measured voltage, over that at the nameplate's
  /// Margin for the mains, and for a dial that gives more than it says. It applies to heaters at
  /// the P10 and P90 of the tables' range.
  HeatMargin of_tables;
  HeatMargin of_reading;  ///< the same for the bench's own reading

  /// None if vapour pressures are known for less than half of the oil.
  std::optional<CodistillationLimit> codistillation;
  std::vector<StillDoubt> still_doubts;  ///< figures of the still that look like slips
};

/// Selects the parameters for a recipe and checks it as the reader of a file would. Amounts must be
/// above zero. The still must have the parts that the method needs, and the plant must have the
/// state. The room must be at 0 to 50 °C, the coolant at 0 to 60 °C, and the poured water at 0 °C
/// to 1 K below boiling. select_parameters() checks the rest.
/// Throws InputError, with pointers as in a recipe's file, if the recipe contradicts itself or asks
/// for what the tables can't give. It also throws if the recipe's own figures aren't enough (a time
/// to boil without its water).
ModelParameters model_parameters(Recipe recipe, const Tables& tables);

/// Gathers the model parameters of many recipes. It caches what the next recipe may share with
/// earlier ones, because finding it takes longer than planning with it. Cached are the selected
/// parameters of a plant in a still, the water at the site, and the co-distillation limit. Gives
/// the same parameters as model_parameters(). Not for two threads at once.
class ParameterCache {
 public:
  /// All calls must pass the same tables, which must outlive the cache. Throws as
  /// model_parameters() does.
  ModelParameters gather(Recipe recipe, const Tables& tables);

 private:
  /// What the selected parameters depend on.
  struct Key {
    const Plant* plant = nullptr;  ///< its address, as for `still`
    const Still* still = nullptr;
    State state = State::fresh;
    Cut cut = Cut::chopped;
    Method method = Method::steam;
    std::optional<Density> bulk_density;  ///< the recipe's own, as `oil_content`
    std::optional<std::variant<Fraction, SpecificVolume>> oil_content;
    bool operator==(const Key& other) const = default;
  };
  struct Hash {
    std::size_t operator()(const Key& key) const;
  };
  struct Entry {
    // Kept alive, so that no other plant or still can take their addresses.
    Shared<Plant> plant;
    Shared<Still> still;
    Shared<SelectedParameters> selected;
    std::vector<StillDoubt> still_doubts;
    std::optional<Pressure> limit_at = {};
    std::optional<CodistillationLimit> codistillation = {};  ///< at that pressure
  };
  using Entries = std::unordered_map<Key, Entry, Hash>;
  Entry& entry_for(const Recipe& recipe, const Tables& tables);

  Entries entries_;
  Entries entries_with_own_;  ///< for recipes with figures of their own
  std::optional<SiteWater> water_;
};

}  // namespace firstdrop
