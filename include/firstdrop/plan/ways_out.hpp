/// @file
/// What would do in place of a recipe that is refused.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/model/sampling.hpp"
#include "firstdrop/plan/plan.hpp"
#include "firstdrop/readers/recipe.hpp"

namespace firstdrop {

struct Tables;

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
