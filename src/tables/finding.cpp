#include "firstdrop/tables/finding.hpp"

namespace firstdrop {

std::string to_string(Level level) {
  switch (level) {
    case Level::note:
      return "note";
    case Level::caution:
      return "caution";
    case Level::refuse:
      break;
  }
  return "refuse";
}

}  // namespace firstdrop
