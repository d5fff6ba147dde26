// Makes one plan without sampling, the way `firstdrop batch --brief` does.
#pragma once

#include "firstdrop/plan/planner.hpp"
#include "firstdrop/tables/tables.hpp"

inline firstdrop::Plan brief_plan(const firstdrop::Recipe& recipe,
                                  const firstdrop::Tables& tables) {
  // Like a batch, all calls share one maker, so it keeps the tables of the first call.
  static firstdrop::PlanMaker maker(tables);
  return maker.make(recipe, 0, firstdrop::Detail::brief);
}
