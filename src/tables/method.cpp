#include "firstdrop/tables/still.hpp"
#include "tables/words.hpp"

namespace firstdrop {

std::string to_string(Method method) {
  return word_of(method);
}

const char* in_words(Method method) {
  switch (method) {
    case Method::steam:
      return "by steam";
    case Method::water_and_steam:
      return "over water on a grid";
    case Method::hydro:
      break;
  }
  return "in the water";
}

}  // namespace firstdrop
