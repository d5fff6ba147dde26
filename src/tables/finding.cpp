#include "firstdrop/tables/finding.hpp"

#include "tables/words.hpp"

namespace firstdrop {

std::string to_string(Level level) {
  return word_of(level);
}

}  // namespace firstdrop
