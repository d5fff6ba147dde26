#include "firstdrop/plan/plan.hpp"

#include "firstdrop/base/error.hpp"
#include "plan/words.hpp"

namespace firstdrop {

std::string to_string(Verdict verdict) {
  return word_of(verdict);
}

const RunPlan& Plan::runnable() const {
  if (!may_be_run()) throw RefusedError("this plan is refused, so it has no amounts to work from");
  return *run;
}

}  // namespace firstdrop
