#include "plan/words.hpp"

namespace firstdrop {

std::string to_string(Verdict verdict) {
  return word_of(verdict);
}

}  // namespace firstdrop
