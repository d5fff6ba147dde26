#include "firstdrop/quantity/source.hpp"

#include <fmt/core.h>

#include <cmath>

namespace firstdrop {

double to_the_power(double base, double exponent) {
  return std::pow(base, exponent);
}

SourceCount counted(const std::set<std::string>& keys, const std::map<std::string, Source>& table) {
  SourceCount count;
  for (const std::string& key : keys) {
    const auto source = table.find(key);
    if (source == table.end() || source->second.seen.starts_with("none")) continue;
    ++count.real;
    if (source->second.seen.starts_with("whole")) ++count.in_full;
  }
  return count;
}

std::string in_words(const SourceCount& count) {
  const std::string sources =
      fmt::format("{} {}", count.real, count.real == 1 ? "source" : "sources");
  if (count.in_full == 0) return sources + " (none read in full)";
  if (count.in_full == count.real) return sources + " (read in full)";
  return fmt::format("{} ({} read in full, the others in part)", sources, count.in_full);
}

}  // namespace firstdrop
