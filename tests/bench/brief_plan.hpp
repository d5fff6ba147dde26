// One plan without sampling, as everything in this folder takes it: the way `firstdrop batch
// --brief` plans.
#pragma once

#include "firstdrop/plan/planner.hpp"
#include "firstdrop/tables/tables.hpp"

inline firstdrop::Plan brief_plan(const firstdrop::Recipe& recipe,
                                  const firstdrop::Tables& tables) {
  // One batch of all that is planned with this library.
  static firstdrop::PlanMaker maker(tables);
  return maker.make(recipe, 0, firstdrop::Detail::brief);
}
