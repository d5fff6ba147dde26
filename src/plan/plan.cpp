#include "firstdrop/plan/plan.hpp"

#include "firstdrop/base/error.hpp"

namespace firstdrop {

Verdict verdict_of(const std::vector<Finding>& worst_first) {
  const Level worst = worst_first.empty() ? Level::note : worst_first.front().level;
  return worst == Level::refuse    ? Verdict::refused
         : worst == Level::caution ? Verdict::caution
                                   : Verdict::go;
}

const RunPlan& Plan::runnable() const {
  if (!may_be_run()) throw RefusedError("this plan is refused, so it has no amounts to work from");
  return *run;
}

}  // namespace firstdrop
