#include <type_traits>

#include "model/ranged_outputs.hpp"
#include "output/explain_chapters.hpp"
#include "output/explain_figures.hpp"
#include "plan/plan_equations.hpp"

namespace firstdrop {
namespace {

template <class T>
ExplainedFigure over_samples(const char* symbol, const char* name, const ShownUnit<T>& unit,
                             const Range<T>& range) {
  return with_range(by_rule(symbol, name, unit, range.typical,
                            "median, 10th and 90th percentile over the samples"),
                    in_unit(unit, range));
}

Figures outcomes_of_run(const Uncertainty& s) {
  Figures figures;
  add(figures,
      by_rule("N", "samples", shown_in::plain(""), s.samples,
              "quasi-random, from the ranges of all figures above at once; each sample is a run "
              "worked out as above; the median of an outcome can differ from the nominal run"));
  for_each_range(s, [&](const auto& outcome, const auto& range) {
    add(figures, over_samples(outcome.symbol, outcome.name, outcome.unit, range));
  });
  return figures;
}

Figures hydrosol_of_run(const ExplainedRun& e) {
  const ChargePlan& charge = e.plan.charge;
  const Range<Volume>& hydrosol = e.run.uncertainty.hydrosol;
  Figures figures;
  add(figures, over_samples("p_h", "hydrosol", shown_in::millilitres, hydrosol),
      worked(equations::hydrosol_per_charge,
             in_litres(hydrosol.typical) / in_kilograms(charge.mass)),
      worked(equations::hydrosol_per_fresh,
             in_litres(hydrosol.typical) / in_kilograms(charge.as_fresh)));
  if (charge.runs > 1) {
    add(figures,
        worked(equations::hydrosol_of_all_runs, in_millilitres(hydrosol.typical) * charge.runs),
        worked(equations::time_of_all_runs, in_minutes(e.run.times.stop) * charge.runs));
  }
  return figures;
}

Figures oil_of_run(const Uncertainty& s) {
  Figures figures;
  add(figures,
      over_samples("p_conc", "oil in the hydrosol", shown_in::milligrams_per_litre,
                   s.dissolved_oil),
      over_samples("p_oil", "oil in the charge", shown_in::grams, s.oil_in_charge),
      over_samples("p_vap", "oil vaporised", shown_in::grams, s.oil_vaporised),
      over_samples("p_diss", "oil dissolved", shown_in::grams, s.oil_dissolved),
      over_samples("p_part", "oil separated", shown_in::grams, s.oil_in_receiver),
      over_samples("p_rho", "density of the oil", shown_in::grams_per_millilitre, s.oil_density),
      over_samples("p_vol", "volume of the separated oil", shown_in::millilitres, s.oil_volume),
      over_samples("p_share", "vaporised share of the oil in the charge", shown_in::percent,
                   s.oil_share));
  return figures;
}

// How often the goal is met.
Figures odds_of_goal(const ExplainedRun& e) {
  const auto& chance = e.run.uncertainty.chance_of_goal;
  const auto& confidence = e.recipe().confidence;
  Figures figures;
  if (chance) {
    add(figures, by_rule("chance", "chance of meeting the goal", shown_in::percent, *chance,
                         "share of the samples that meet it"));
  }
  if (!confidence) return figures;
  add(figures, by_rule("conf", "how often the goal must be met", shown_in::percent, *confidence,
                       "goal.confidence; charge, water and stop are sized for it"));
  if (e.run.allow) {
    add(figures, by_rule("t_allow", "time by which the stop has come that often", shown_in::minutes,
                         *e.run.allow, "over the samples, without a time limit"));
  }
  return figures;
}

Figures shares_of_variance(const std::string& symbol, const std::string& outcome,
                           const Sensitivities& sensitivities) {
  Figures figures;
  for (const Sensitivity& one : sensitivities) {
    add(figures, by_rule("s_" + symbol + "_" + to_string(one.parameter),
                         outcome + ": " + in_words(one.parameter), shown_in::percent, one.share,
                         "first-order sensitivity: the share of the variance that would go if this "
                         "figure were known; it is the correlation ratio over the samples, in "
                         "sixteen classes of the figure, minus what chance would give; outcomes "
                         "below P5 or above P95 count as P5 or P95"));
  }
  return figures;
}

}  // namespace

Chapter explain_ranges(const ExplainedRun& e) {
  Figures figures = outcomes_of_run(e.run.uncertainty);
  append(figures, hydrosol_of_run(e));
  if (e.run.has_oil) append(figures, oil_of_run(e.run.uncertainty));
  append(figures, odds_of_goal(e));
  return {"Ranges", std::move(figures)};
}

Chapter explain_sensitivities(const ExplainedRun& e) {
  const Uncertainty& s = e.run.uncertainty;
  Figures figures = shares_of_variance("oil", "oil", s.oil_from);
  append(figures, shares_of_variance("time", "time", s.time_from));
  append(figures, shares_of_variance("alone", "time from the stop to the reserve", s.reserve_from));
  return {"Where the uncertainty comes from", std::move(figures)};
}

}  // namespace firstdrop
