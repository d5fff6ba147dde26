#include "firstdrop/quantity/quantity_text.hpp"

namespace firstdrop {

std::string to_string(Units units) {
  return units == Units::us ? "us" : "metric";
}

}  // namespace firstdrop
