#include "firstdrop/plan/plan.hpp"

#include "firstdrop/base/error.hpp"

namespace firstdrop {

std::string to_string(Verdict verdict) {
  switch (verdict) {
    case Verdict::go:
      return "go";
    case Verdict::caution:
      return "caution";
    case Verdict::refused:
      break;
  }
  return "refused";
}

const RunPlan& Plan::runnable() const {
  if (!may_be_run()) throw RefusedError("this plan is refused, so it has no amounts to work from");
  return *run;
}

}  // namespace firstdrop
