/// @file
/// Figures as an explanation has them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "firstdrop/quantity/source.hpp"
#include "firstdrop/tables/finding.hpp"

namespace firstdrop {

/// One figure. Its value is the plan's own: of the nominal run, of the worst credible case (symbols
/// ending in _w), or over the samples (symbols starting with p_, in "Ranges"). If it has an
/// equation, the values of earlier figures put into it give this value.
struct ExplainedFigure {
  std::string symbol;                  ///< letters, digits and underscores; unique
  std::string name;                    ///< in words
  Amount value;                        ///< as the plan has it
  std::optional<Range<double>> range;  ///< in the unit of `value`; 10th, 50th, 90th percentile
  /// Right-hand side in ASCII. It uses symbols explained before, + - * / ^ ( ), ln, exp, min, max,
  /// pi, and the functions of property_functions(). Empty for a figure that is given.
  std::string equation;
  /// For a figure without an equation: how it was found, or where it was given.
  std::string rule;
  Evidence evidence;  ///< of the figure or its equation; none if both basis and sources are empty
};

/// Figures of one step of the plan.
struct Chapter {
  std::string title;                     ///< in words
  std::vector<ExplainedFigure> figures;  ///< each comes after those that it uses
};

}  // namespace firstdrop
