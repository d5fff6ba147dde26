/// @file
/// Makes plans from recipes.
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
/// with findings that say why; ways_out() finds changes that help.
///
/// Any number of threads may plan with the same tables. The same recipe, tables and number of
/// samples give the same plan to the last bit.
///
/// Throws InputError for a recipe that no file could hold: an amount out of its bounds, parts of
/// the still that the method needs and that aren't there, figures that don't go together, or
/// something that the tables can't give. Its pointers are those of a recipe's file.
Plan make_plan(Recipe recipe, const Tables& tables, const Sampling& sampling = default_samples,
               Detail detail = Detail::full);

/// Plans many recipes one after another, and caches what they have in common. Gives the same plans
/// as make_plan(). Use one for each thread.
class PlanMaker {
 public:
  /// Keeps a reference to the tables, which must outlive it.
  explicit PlanMaker(const Tables& tables);
  PlanMaker(const PlanMaker&) = delete;
  PlanMaker& operator=(const PlanMaker&) = delete;
  ~PlanMaker();
  /// Plans as make_plan() does, with the same exceptions.
  Plan make(Recipe recipe, const Sampling& sampling = default_samples,
            Detail detail = Detail::full);

 private:
  const Tables& tables_;
  ParameterCache* cache_;  ///< owned; a pointer because the header of its type is private
};

/// One change of a refused recipe, or two together.
struct WayOut {
  std::string text;  ///< instruction, no full stop: "stop no more than 8 min late (limits.absence)"
  Recipe recipe;     ///< the recipe with the change; its plan may be run
};

/// Finds up to three changes of the recipe of a refused plan, each of which gives a plan that may
/// be run. The changes that cost the person least come first; another still comes last. Each is the
/// smallest change of its kind that was found to work, on a mark of scale, jug or clock. Each was
/// planned again with these tables and this number of samples.
///
/// Where no single change works, it tries two at once. Returns none where those don't work either,
/// and for a plan that isn't refused.
///
/// Costs some hundreds of plans, so use it only for text that people read. Throws nothing but
/// std::bad_alloc.
std::vector<WayOut> ways_out(const Plan& refused, const Tables& tables,
                             const Sampling& sampling = default_samples);

/// The measurements of the still that would let a refused plan go as it was asked for, if the still
/// turns out as usual: the quickest first, as instructions with a full stop. Each was planned with
/// the range that it would leave. Only a measured size counts at once. A still's heat counts after
/// three runs on two days, because one reading never lowers the worst case.
/// Empty for a plan that isn't refused, and where no measurement helps. Costs a few plans. Throws
/// nothing but std::bad_alloc.
std::vector<std::string> measurements_that_help(const Plan& refused, const Tables& tables,
                                                const Sampling& sampling = default_samples);

/// Fills a plan's `ways_out` and `measure_next` with the texts of ways_out() and
/// measurements_that_help(). They are empty for a plan that isn't refused.
void add_ways_out(Plan& plan, const Tables& tables, const Sampling& sampling = default_samples);

}  // namespace firstdrop
