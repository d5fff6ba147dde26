// Includes Catch2, v2 (Debian 12) or v3, with the matchers under the same names.
#pragma once

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Matchers::ContainsSubstring;
#else
#include <catch2/catch.hpp>
inline auto ContainsSubstring(const std::string& text) {
  return Catch::Matchers::Contains(text);
}
#endif
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
