#include "firstdrop/plan/plan.hpp"

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

}  // namespace firstdrop
