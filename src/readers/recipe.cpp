#include "firstdrop/readers/recipe.hpp"

namespace firstdrop {

std::string to_string(Place place) {
  return place == Place::indoors ? "indoors" : "outdoors";
}

}  // namespace firstdrop
