// What the chapters of an explanation are made of.
#pragma once

#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "firstdrop/quantity/source.hpp"
#include "output/explained_figure.hpp"
#include "output/shown_amount.hpp"
#include "quantity/equation.hpp"

namespace firstdrop {

using Figures = std::vector<ExplainedFigure>;

/// Adds figures to a list, in order.
template <class... More>
void add(Figures& figures, More&&... more) {
  (figures.push_back(std::forward<More>(more)), ...);
}

/// Adds a list to a list.
inline void append(Figures& figures, Figures more) {
  for (ExplainedFigure& figure : more) figures.push_back(std::move(figure));
}

/// The numbers of a range in a unit.
template <class T>
Range<double> in_unit(const ShownUnit<T>& unit, const Range<T>& range) {
  return {unit.number(range.low), unit.number(range.typical), unit.number(range.high)};
}

/// A figure from a table, with its range and evidence.
template <class T>
ExplainedFigure given(std::string symbol, std::string name, const ShownUnit<T>& unit,
                      const Cited<std::type_identity_t<T>>& figure) {
  const Range<double> range = in_unit(unit, figure.range);
  ExplainedFigure given{std::move(symbol),
                        std::move(name),
                        {range.typical, std::string(unit.symbol)},
                        std::nullopt,
                        "",
                        "",
                        figure.evidence};
  if (range.low < range.high) given.range = range;
  return given;
}

/// A figure from the recipe, or one found by search or by a rule. `rule` says which.
template <class T>
ExplainedFigure by_rule(std::string symbol, std::string name, const ShownUnit<T>& unit,
                        std::type_identity_t<T> value, std::string rule) {
  return {std::move(symbol),
          std::move(name),
          amount_in(unit, value),
          std::nullopt,
          "",
          std::move(rule),
          {}};
}
/// The same for a figure that elsewhere has an equation.
template <class T>
ExplainedFigure by_rule(const Equation<T>& figure, std::type_identity_t<T> value,
                        std::string rule) {
  return by_rule(std::string(figure.symbol), std::string(figure.name), figure.unit, value,
                 std::move(rule));
}

/// A figure with its equation, whose right-hand side depends on the plan.
template <class T>
ExplainedFigure worked(const Equation<T>& equation, std::type_identity_t<T> value,
                       std::string text) {
  return {std::string(equation.symbol),
          std::string(equation.name),
          amount_in(equation.unit, value),
          std::nullopt,
          std::move(text),
          "",
          {"", {std::string(equation.source.key)}, Known::computed}};
}
/// A figure with its equation.
template <class T>
ExplainedFigure worked(const Equation<T>& equation, std::type_identity_t<T> value) {
  return worked(equation, value, std::string(equation.text));
}

/// The figure with another symbol.
inline ExplainedFigure as(ExplainedFigure figure, std::string symbol) {
  figure.symbol = std::move(symbol);
  return figure;
}

/// The figure with a range, in the figure's unit.
inline ExplainedFigure with_range(ExplainedFigure figure, const Range<double>& range) {
  figure.range = range;
  return figure;
}

}  // namespace firstdrop
