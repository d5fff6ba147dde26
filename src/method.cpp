#include "firstdrop/method.hpp"

namespace firstdrop {

std::string to_string(Method method) {
  switch (method) {
    case Method::steam:
      return "steam";
    case Method::water_and_steam:
      return "water-and-steam";
    case Method::hydro:
      return "hydro";
  }
  return {};
}

}  // namespace firstdrop
