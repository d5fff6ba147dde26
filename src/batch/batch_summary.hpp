/// @file
/// The summary of a batch: sums over its plans, refused plans and broken recipes.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "firstdrop/plan/plan.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

/// Sums of what several runs take and give. Ranges are summed with errors fully correlated.
struct RunSums {
  std::int64_t runs = 0;     ///< how many
  Mass herb;                 ///< for all of these runs, like every amount below
  Volume water;              ///< first fills of the pot
  Range<Mass> ice;           ///< in all; zero if no ice is needed
  Range<Energy> energy;      ///< from the socket, or of fuel
  Range<Volume> hydrosol;    ///< in the receiver
  Range<Mass> oil;           ///< in the receiver
  Range<Volume> oil_volume;  ///< the same oil by volume
  Range<Duration> heat_on;   ///< start of heating to stop
  /// Set if no samples were taken. Then all amounts are of nominal runs, and ranges have no width.
  bool nominal = false;

  /// Adds the sums of other runs.
  void add(const RunSums& other);
};

/// What the summary needs of one plan: the sums over its runs, and its verdict.
struct PlanOutcome : RunSums {
  std::string title;              ///< the recipe's
  Verdict verdict = Verdict::go;  ///< the plan's
  std::vector<Finding> refusals;  ///< why it is refused
  Units units = Units::metric;    ///< of the recipe, for texts
  /// The plant's name. For a refused plan it is empty, and the sums are zero.
  std::string plant;
};
/// The outcome of a plan. Ranges are summed over its runs with errors fully correlated.
PlanOutcome outcome_of(const Plan& plan);

/// A recipe that could not be planned.
struct BrokenRecipe {
  std::string file;         ///< as the person named it
  std::int64_t line = 0;    ///< 1-based; 0 when unknown
  std::string reason;       ///< one line
  std::int64_t column = 0;  ///< 1-based; 0 when unknown
};

/// The summary of a batch. Its size depends on how many different plants and findings there are,
/// not on how many recipes.
struct BatchSummary : RunSums {
  static constexpr std::size_t most_plants = 200;  ///< any others are added up in other_plants
  static constexpr std::size_t most_told = 3;      ///< examples kept of each kind

  /// What all plans of one plant take.
  struct OfPlant {
    std::int64_t plans = 0;  ///< plans that may be run
    std::int64_t runs = 0;   ///< the runs of these plans
    Mass herb;               ///< for all of these runs
  };
  /// The plans that were refused for one reason.
  struct Refused {
    std::int64_t plans = 0;  ///< how many
    /// Title of the recipe and text of the finding, for the first plans: at most most_told.
    std::vector<std::pair<std::string, std::string>> first;
  };

  std::int64_t go = 0;       ///< plans of this verdict
  std::int64_t caution = 0;  ///< plans of this verdict
  std::int64_t refused = 0;  ///< plans of this verdict
  std::int64_t broken = 0;   ///< recipes without a plan

  std::map<std::string, OfPlant> plants;    ///< by the plant's name
  OfPlant other_plants;                     ///< all plants beyond the first most_plants
  std::map<std::string, Refused> refusals;  ///< by the code of the finding
  std::vector<BrokenRecipe> first_broken;   ///< at most most_told

  /// Number of plans with any verdict.
  std::int64_t planned() const { return go + caution + refused; }
  /// Counts a plan, and adds it to the sums unless it is refused.
  void add(const PlanOutcome& outcome);
  /// Counts a recipe without a plan.
  void add(const BrokenRecipe& recipe);
};

}  // namespace firstdrop
