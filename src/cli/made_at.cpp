#include "cli/made_at.hpp"

#include <cstdlib>

#include "cli/whole_number.hpp"

namespace firstdrop::cli {

std::chrono::sys_seconds made_at() {
  const char* epoch = std::getenv("SOURCE_DATE_EPOCH");
  if (epoch == nullptr) {
    return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  }
  constexpr long long end_of_9999 = 253402300799;
  return std::chrono::sys_seconds(
      std::chrono::seconds(whole_number<long long>(epoch, "SOURCE_DATE_EPOCH", 0, end_of_9999)));
}

}  // namespace firstdrop::cli
