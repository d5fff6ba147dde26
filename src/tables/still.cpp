#include "firstdrop/tables/still.hpp"

#include "tables/words.hpp"

namespace firstdrop {

std::string to_string(HeaterKind kind) {
  return word_of(kind);
}

std::string to_string(CondenserKind kind) {
  return word_of(kind);
}

}  // namespace firstdrop
