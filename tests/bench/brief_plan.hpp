// One plan without sampling, as everything in this folder takes it.
#pragma once

#include "firstdrop/plan.hpp"

inline firstdrop::Plan brief_plan(const firstdrop::Recipe& recipe,
                                  const firstdrop::Library& library) {
  return firstdrop::make_plan(recipe, library, 1);
}
