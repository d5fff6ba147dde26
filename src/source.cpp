#include "firstdrop/source.hpp"

namespace firstdrop {

std::string to_string(Known known) {
  switch (known) {
    case Known::measured:
      return "measured";
    case Known::read:
      return "read";
    case Known::computed:
      return "computed";
    case Known::common_practice:
      return "common-practice";
    case Known::from_memory:
      return "from-memory";
    case Known::own_invention:
      return "own-invention";
  }
  return {};
}

}  // namespace firstdrop
