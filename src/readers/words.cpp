#include "readers/words.hpp"

namespace firstdrop {

std::string to_string(Place place) {
  return word_of(place);
}

}  // namespace firstdrop
