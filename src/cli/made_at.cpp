#include "cli/made_at.hpp"

#include <cstdint>
#include <cstdlib>
#include <ctime>

#include "cli/whole_number.hpp"

namespace firstdrop::cli {

std::chrono::sys_seconds made_at() {
  const char* epoch = std::getenv("SOURCE_DATE_EPOCH");
  if (epoch == nullptr) {
    return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  }
  constexpr std::int64_t end_of_9999 = 253402300799;
  return std::chrono::sys_seconds(
      std::chrono::seconds(whole_number<std::int64_t>(epoch, "SOURCE_DATE_EPOCH", 0, end_of_9999)));
}

LocalDay today() {
  const std::time_t seconds = std::chrono::system_clock::to_time_t(made_at());
  std::tm local{};
  localtime_r(&seconds, &local);
  return LocalDay(std::chrono::year(local.tm_year + 1900) /
                  std::chrono::month(static_cast<unsigned>(local.tm_mon + 1)) /
                  std::chrono::day(static_cast<unsigned>(local.tm_mday)));
}

}  // namespace firstdrop::cli
