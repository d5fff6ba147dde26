// What a whole batch takes and gives: sums over its plans, and what could not be planned.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "firstdrop/plan.hpp"
#include "firstdrop/quantity.hpp"
#include "firstdrop/source.hpp"

namespace firstdrop {

/// Of one plan, for all of its runs, what is summed up or counted.
struct PlanOutcome {
  std::string title;
  Verdict verdict = Verdict::go;
  std::vector<std::pair<std::string, std::string>> refusals;  ///< code and text
  // Only of a plan that may be run:
  std::string plant;  ///< its name
  int runs = 0;
  Mass herb;
  Volume water;  ///< first fills
  Range<Mass> ice;
  Range<Energy> energy;
  Range<Volume> hydrosol;
  Range<Mass> oil;  ///< in the receiver
  Range<Volume> oil_volume;
  Range<Duration> heat_on;
};
PlanOutcome outcome_of(const Plan& plan);

/// A recipe that could not be planned.
struct BrokenRecipe {
  std::string file;
  long long line = 0;
  std::string reason;  ///< one line
};

/// Grows with the kinds of plants and findings in a batch, not with its recipes.
struct BatchSummary {
  static constexpr std::size_t most_plants = 200;  ///< the others are summed up together
  static constexpr std::size_t most_told = 3;      ///< of a kind

  struct OfPlant {
    std::int64_t plans = 0;
    std::int64_t runs = 0;
    Mass herb;
  };
  struct Refused {
    std::int64_t plans = 0;
    std::vector<std::pair<std::string, std::string>> first;  ///< titles and texts
  };

  std::int64_t go = 0;
  std::int64_t caution = 0;
  std::int64_t refused = 0;
  std::int64_t broken = 0;

  // Of the plans that may be run. The ranges are summed as if all runs erred the same way.
  std::int64_t runs = 0;
  Mass herb;
  Volume water;
  Range<Mass> ice;
  Range<Energy> energy;
  Range<Volume> hydrosol;
  Range<Mass> oil;
  Range<Volume> oil_volume;
  Range<Duration> heat_on;

  std::map<std::string, OfPlant> plants;    ///< by their names
  OfPlant other_plants;                     ///< beyond most_plants
  std::map<std::string, Refused> refusals;  ///< by the codes of their findings
  std::vector<BrokenRecipe> first_broken;

  std::int64_t planned() const { return go + caution + refused; }
  void add(const PlanOutcome& outcome);
  void add(const BrokenRecipe& recipe);
};

/// The members of a JSON object, without its braces: how many plans of each verdict, and unless
/// they are alternatives to each other, their sums.
std::string summary_members(const BatchSummary& summary, bool with_sums);

}  // namespace firstdrop
