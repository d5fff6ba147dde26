#include "quantity/words.hpp"

namespace firstdrop {

std::string to_string(Known known) {
  return word_of(known);
}

std::string to_string(Units units) {
  return word_of(units);
}

}  // namespace firstdrop
