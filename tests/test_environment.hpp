// Lets the environment set how many cases a test takes, so that nightly runs can take more.
#pragma once

#include <algorithm>
#include <cstdlib>

/// The whole number in an environment variable, 0 or more; `otherwise` if it isn't set.
inline long from_environment(const char* name, long otherwise) {
  const char* text = std::getenv(name);
  return text ? std::max(0L, std::atol(text)) : otherwise;
}
