// How many cases a test takes, where the environment says so: more of them in a night.
#pragma once

#include <algorithm>
#include <cstdlib>

/// The whole number in an environment variable, 0 or more; `otherwise` where it is not set.
inline long from_environment(const char* name, long otherwise) {
  const char* text = std::getenv(name);
  return text ? std::max(0L, std::atol(text)) : otherwise;
}
