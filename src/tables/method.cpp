#include "firstdrop/tables/still.hpp"

namespace firstdrop {

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
