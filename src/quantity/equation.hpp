/// @file
/// Equations as people read them in an explanation. Each stands beside the function that computes
/// its figure, in the namespace `equations`. Whoever changes one changes the other, too.
/// tests/unit/output/explain_test.cpp evaluates each equation and compares it with the plan.
#pragma once

#include <string_view>

#include "quantity/shown_in.hpp"

namespace firstdrop {

/// A source that equations rest on.
struct EquationSource {
  std::string_view key;       ///< in the source table
  std::string_view supports;  ///< what in the model rests on it, in words
};

namespace cited {

inline constexpr EquationSource balance{"heat-balance",
                                        "balances of mass and heat, and their closed forms"};

}  // namespace cited

/// An equation for one figure. The figure's value in `unit` is what `text` gives with the values of
/// earlier figures in theirs.
template <class T>
struct Equation {
  std::string_view symbol;  ///< of the figure: letters, digits and underscores
  std::string_view name;    ///< of the figure, in words
  ShownUnit<T> unit;        ///< of the figure
  /// Right-hand side in ASCII: symbols of earlier figures, + - * / ^ ( ), ln, exp, min, max, pi,
  /// and functions of PropertyFunction. Empty where it depends on the plan; then a function beside
  /// the equation writes it.
  std::string_view text;
  EquationSource source = cited::balance;  ///< of the equation itself
};

/// A property of water that equations use as a function, e.g. latent_heat(°C) in kJ/kg.
struct PropertyFunction {
  std::string_view name;     ///< as written in equations
  std::string_view meaning;  ///< in words, with units
  EquationSource source;     ///< of the formulation
};

}  // namespace firstdrop
