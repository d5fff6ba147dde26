/// @file
/// Every figure of a plan with its equation, what goes into it, and its source, in reading order:
/// a figure is explained before another uses it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "firstdrop/plan/plan.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/tables/finding.hpp"
#include "firstdrop/tables/tables.hpp"

namespace firstdrop {

/// One figure. Its value is the plan's own: at the typical point of all ranges, in the worst
/// credible case (symbols ending in _w), or over the samples (symbols beginning with p_, in
/// "Ranges"). Where there is an equation, whoever puts the values of the earlier figures into it
/// gets this one.
struct ExplainedFigure {
  std::string symbol;                  ///< letters, digits and underscores; each once
  std::string name;                    ///< in words
  Amount value;                        ///< as the plan has it
  std::optional<Range<double>> range;  ///< in the unit of `value`; 10th, 50th, 90th percentile
  /// Right-hand side in ASCII, over symbols explained before: + - * / ^ ( ), ln, exp, min, max, pi,
  /// and the property functions that property_functions() names. Empty for what is given.
  std::string equation;
  /// For what no formula gives: how it was found or where it was given.
  std::string rule;
  Evidence evidence;  ///< of the figure, or of its equation; without basis or sources: none
};

/// Figures of one step of the plan.
struct Chapter {
  std::string title;                     ///< in words
  std::vector<ExplainedFigure> figures;  ///< each after those that it is made from
};

/// Explains a plan that make_plan() made with this library, whose sources must be whole. A plan
/// without a run (see Plan::run) is explained as far as it goes; one in brief (Detail::brief) lacks
/// what is explained. Throws as make_plan() does.
std::vector<Chapter> explain(const Plan& plan, const Tables& tables);

/// plan_json() with the explanation of every figure under the key "explain".
std::string plan_json(const Plan& plan, const std::vector<Chapter>& explained);

/// A function of water that equations name, with its units, e.g. latent_heat(°C) in kJ/kg.
struct PropertyFunction {
  std::string name;     ///< as equations have it
  std::string meaning;  ///< in words, with units
  std::string source;   ///< key in the source table
};
/// All of them.
const std::vector<PropertyFunction>& property_functions();

/// An equation of the model and the source it comes from.
struct CitedEquation {
  std::string what;    ///< in words
  std::string source;  ///< key in the source table
};
/// All equations that explain() cites, for whoever asks what rests on a source.
const std::vector<CitedEquation>& cited_equations();

}  // namespace firstdrop
