/// @file
/// Explains every figure of a plan: its equation, its inputs and its source. Figures are in reading
/// order, so that each is explained before another uses it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "firstdrop/plan/plan.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/tables/finding.hpp"
#include "firstdrop/tables/tables.hpp"

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

/// Explains a plan that make_plan() made with these tables. The tables must be complete: those read
/// with TablePart lack most of each source. A plan without a run (see Plan::run) is explained as
/// far as it goes. A plan in brief (Detail::brief) lacks figures that are explained here. Throws as
/// make_plan() does.
std::vector<Chapter> explain(const Plan& plan, const Tables& tables);

/// plan_json() with the explanation of every figure under the key "explain".
std::string plan_json(const Plan& plan, const std::vector<Chapter>& explained);

/// A property of water that equations use as a function, e.g. latent_heat(°C) in kJ/kg.
struct PropertyFunction {
  std::string name;     ///< as written in equations
  std::string meaning;  ///< in words, with units
  std::string source;   ///< key in the source table
};
/// All functions that equations may use.
const std::vector<PropertyFunction>& property_functions();

/// An equation of the model and the source it comes from.
struct CitedEquation {
  std::string what;    ///< in words
  std::string source;  ///< key in the source table
};
/// All equations that explain() cites, to find out which of them rest on a source.
const std::vector<CitedEquation>& cited_equations();

}  // namespace firstdrop
