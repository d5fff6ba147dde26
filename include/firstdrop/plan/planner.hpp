/// @file
/// From a recipe to a plan.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/model/uncertainty.hpp"
#include "firstdrop/plan/plan.hpp"
#include "firstdrop/readers/recipe.hpp"

namespace firstdrop {

class ParameterCache;
struct Tables;

/// Plans a recipe. A recipe that can't or must not be run gives a plan whose verdict is `refused`,
/// with findings that say why; ways_out() finds what would do.
/// Any number of threads may plan with the same tables. The same recipe, tables and number of
/// samples give the same plan to the last bit. Throws InputError for a recipe that no file could
/// hold: an amount out of its bounds, parts of the still that the method needs and that aren't
/// there, figures that don't go together, or something that the tables can't give. Its pointers are
/// those of a recipe's file.
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
  ParameterCache* cache_;  ///< owned; by pointer, because its header is private
};

/// A change of a refused recipe, or two.
struct WayOut {
  std::string text;  ///< an order without a full stop: "come at most 8 min late (limits.absence)"
  Recipe recipe;     ///< so changed; its plan may be run
};

/// Up to three changes of the recipe of a refused plan, each of which gives a plan that may be run:
/// what costs the person least comes first, another still last. Each is the smallest of its kind
/// that was found to do, on a mark of scale, jug or clock, and was planned as a whole with this
/// library and number of samples. Where no single change does, two at once; none where those don't,
/// either, and for a plan that is not refused. Costs some hundred plans: for what people read.
/// Throws nothing but std::bad_alloc.
std::vector<WayOut> ways_out(const Plan& refused, const Tables& tables,
                             const Sampling& sampling = default_samples);

/// Puts the texts of its ways out into a plan that is refused.
void add_ways_out(Plan& plan, const Tables& tables, const Sampling& sampling = default_samples);

}  // namespace firstdrop
