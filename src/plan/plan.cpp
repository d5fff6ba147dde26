#include "firstdrop/plan/plan.hpp"

#include "firstdrop/base/error.hpp"

namespace firstdrop {

const RunPlan& Plan::runnable() const {
  if (!may_be_run()) throw RefusedError("this plan is refused, so it has no amounts to work from");
  return *run;
}

}  // namespace firstdrop
