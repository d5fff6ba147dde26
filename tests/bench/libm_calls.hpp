// The functions of libm whose calls in a plan are counted and timed.
#pragma once

#include <array>
#include <cmath>
#include <string>

struct LibmFunction {
  const char* name;
  double (*one)(double);          ///< null if it takes two arguments
  double (*two)(double, double);  ///< null if it takes one argument
};

inline constexpr std::array libm_functions = {
    LibmFunction{"exp", ::exp, nullptr},     LibmFunction{"exp2", ::exp2, nullptr},
    LibmFunction{"expm1", ::expm1, nullptr}, LibmFunction{"log", ::log, nullptr},
    LibmFunction{"log2", ::log2, nullptr},   LibmFunction{"log10", ::log10, nullptr},
    LibmFunction{"log1p", ::log1p, nullptr}, LibmFunction{"cbrt", ::cbrt, nullptr},
    LibmFunction{"pow", nullptr, ::pow},
};
