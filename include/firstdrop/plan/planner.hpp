/// @file
/// From a recipe to a plan.
#pragma once

#include "firstdrop/model/sampling.hpp"
#include "firstdrop/model/uncertainty.hpp"
#include "firstdrop/plan/plan.hpp"
#include "firstdrop/readers/recipe.hpp"

namespace firstdrop {

class ParameterCache;
struct Tables;

/// Plans a recipe. A recipe that can't or must not be run gives a plan whose verdict is `refused`,
/// with findings that say why; ways_out() finds what would do.
/// Any number of threads may plan with one library. The same recipe, library and number of samples
/// give the same plan to the last bit.
/// Throws InputError as model_parameters() does, when the recipe does not hold together; RangeError
/// for an altitude out of range, and for a pressure at which water boils below 50 or above 120 °C.
Plan make_plan(Recipe recipe, const Tables& tables, const Sampling& sampling = default_samples,
               Detail detail = Detail::full);

/// Plans many recipes one after another, and keeps what they have in common. The same plans as by
/// make_plan(). One for each thread.
class PlanMaker {
 public:
  /// Keeps a reference: the library must stay.
  explicit PlanMaker(const Tables& tables);
  PlanMaker(const PlanMaker&) = delete;
  PlanMaker& operator=(const PlanMaker&) = delete;
  ~PlanMaker();
  /// As make_plan(), which says what it throws.
  Plan make(Recipe recipe, const Sampling& sampling = default_samples,
            Detail detail = Detail::full);

 private:
  const Tables& tables_;
  ParameterCache*
      shelf_;  ///< its own, by pointer: inputs.hpp and the header memory take long to compile
};

}  // namespace firstdrop
