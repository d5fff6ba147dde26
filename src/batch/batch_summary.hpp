/// @file
/// What a whole batch takes and gives: sums over its plans, and what could not be planned.
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

/// What runs take and give together, as if all of them erred the same way.
struct RunSums {
  std::int64_t runs = 0;     ///< how many
  Mass herb;                 ///< of all of them, as the rest
  Volume water;              ///< first fills
  Range<Mass> ice;           ///< expected
  Range<Energy> energy;      ///< from the plug, or fuel
  Range<Volume> hydrosol;    ///< caught
  Range<Mass> oil;           ///< in the receiver
  Range<Volume> oil_volume;  ///< the same
  Range<Duration> heat_on;   ///< start of heating to stop
  /// No samples were taken: all of this is of nominal runs, and the ranges have no width.
  bool nominal = false;

  /// Adds those of other runs.
  void add(const RunSums& other);
};

/// What is summed up or counted of one plan, for all of its runs.
struct PlanOutcome : RunSums {
  std::string title;                                          ///< the recipe's
  Verdict verdict = Verdict::go;                              ///< the plan's
  std::vector<std::pair<std::string, std::string>> refusals;  ///< code and text
  /// The plant's name; empty, as the sums are, for a plan that may not be run.
  std::string plant;
};
/// Sums over the runs of a plan, as if all of them erred the same way.
PlanOutcome outcome_of(const Plan& plan);

/// A recipe that could not be planned.
struct BrokenRecipe {
  std::string file;       ///< as the person named it
  std::int64_t line = 0;  ///< 1-based; 0 when unknown
  std::string reason;     ///< one line
};

/// Grows with the kinds of plants and findings in a batch, not with its recipes.
struct BatchSummary : RunSums {
  static constexpr std::size_t most_plants = 200;  ///< the others are summed up together
  static constexpr std::size_t most_told = 3;      ///< of a kind

  /// What one plant takes.
  struct OfPlant {
    std::int64_t plans = 0;  ///< that may be run
    std::int64_t runs = 0;   ///< of them all
    Mass herb;               ///< for all of those
  };
  /// What was refused for one reason.
  struct Refused {
    std::int64_t plans = 0;  ///< how many
    /// Titles and texts, most_told of them.
    std::vector<std::pair<std::string, std::string>> first;
  };

  std::int64_t go = 0;       ///< plans of this verdict
  std::int64_t caution = 0;  ///< plans of this verdict
  std::int64_t refused = 0;  ///< plans of this verdict
  std::int64_t broken = 0;   ///< recipes that have no plan

  std::map<std::string, OfPlant> plants;    ///< by their names
  OfPlant other_plants;                     ///< beyond most_plants
  std::map<std::string, Refused> refusals;  ///< by the codes of their findings
  std::vector<BrokenRecipe> first_broken;   ///< most_told of them

  /// All plans, whatever their verdict.
  std::int64_t planned() const { return go + caution + refused; }
  /// Counts a plan, and adds it to the sums unless it is refused.
  void add(const PlanOutcome& outcome);
  /// Counts a recipe without a plan.
  void add(const BrokenRecipe& recipe);
};

/// The members of a JSON object, without its braces: how many plans of each verdict, and unless
/// they are alternatives to each other, their sums.
std::string summary_members(const BatchSummary& summary, bool with_sums);

}  // namespace firstdrop
