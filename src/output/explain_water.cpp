#include <algorithm>
#include <cmath>

#include "model/water_budget.hpp"
#include "model/worst_case.hpp"
#include "output/explain_chapters.hpp"
#include "output/explain_figures.hpp"
#include "physics/charge.hpp"
#include "physics/reserve.hpp"
#include "physics/run.hpp"
#include "plan/describe_run.hpp"
#include "plan/plan_equations.hpp"

namespace firstdrop {
namespace {

// Where the water is at the stop.
Figures water_at_stop(const ExplainedRun& e) {
  const Run& run = e.nominal;
  const RunValues& v = run.values();
  const SelectedParameters& selected = e.selected();
  const Duration stop = e.run.times.stop;
  const WaterBalance water = run.water_at(stop);
  const Mass by_charge = e.hydro() ? v.soaked : v.hold_up - selected.wall_hold_up.typical();
  Figures figures;
  add(figures,
      given("hold", "water that drained dry matter holds", shown_in::ratio("g/g"),
            selected.hold_up),
      given("film", "water that clings to a wet charge", shown_in::ratio("g/g"),
            selected.film_hold_up),
      worked(equations::soaked, by_charge),
      given("m_wall", "water that clings to the walls", shown_in::grams, selected.wall_hold_up),
      worked(equations::condensed, run.condensed_until(stop)),
      worked(e.hydro() ? equations::held_in_water : equations::held, water.held),
      worked(equations::uncondensed, water.uncondensed),
      worked(equations::held_volume, e.run.water.held),
      worked(equations::uncondensed_volume, e.run.water.uncondensed),
      worked(equations::left_at_stop, e.run.water.left_at_stop),
      worked(e.hydro() ? equations::pot_fill_with_charge : equations::pot_fill,
             e.run.water.pot_fill));
  return figures;
}

Figures reserve_figures(const ExplainedRun& e) {
  Figures figures;
  add(figures,
      given("reserve_share", "share of the first fill that must stay", shown_in::percent,
            e.defaults().reserve_share),
      given("V_min", "least water that this still needs in its pot", shown_in::millilitres,
            e.still().pot.minimum_water));
  if (e.hydro()) {
    add(figures, given("wet", "water that must stay around the charge",
                       shown_in::litres_per_kilogram, e.defaults().hydro_wetting));
  }
  add(figures,
      worked(e.hydro() ? equations::reserve_in_water : equations::reserve, e.run.water.reserve));
  return figures;
}

// When the pot is down to `left` if the heat stays on, at the time `at`.
ExplainedFigure falls_to(const ExplainedRun& e, const Equation<Duration>& equation, Duration at,
                         Mass left, const char* left_text) {
  const Run& run = e.nominal;
  const RunValues& v = run.values();
  const Mass caught = std::min(run.steam_made() * (run.first_drop() - run.boil()), v.hold_up);
  const Mass spare = v.first_fill - v.soaked - left;
  if (spare <= grams(0)) {
    return by_rule(equation, at, "there is no more water than that from the start");
  }
  if (spare <= caught) {
    return by_rule(equation, at,
                   "comes before the first drop, while steam still wets charge and walls");
  }
  const bool still_wetting = v.hold_up > caught && run.steam_made() > run.vapour();
  return worked(equation, at,
                equations::time_until_left_text({left_text, e.hydro(), still_wetting}));
}

const char* const at_worst_end =
    "as above, with each figure at the end of its range that empties the pot sooner; that end is "
    "as far beyond the 10th or 90th percentile as the percentile is from the median";

Figures figures_at_worst(const ExplainedRun& e) {
  const Run& run = e.worst;
  const RunValues& v = run.values();
  Figures figures;
  add(figures,
      by_rule("M_w", "least water that can have been poured in", shown_in::grams, v.first_fill,
              at_worst_end),
      by_rule("m_held_w", "most water that charge and walls can hold", shown_in::grams, v.soaked,
              "with this much, no heater leaves less in the pot; a weak heater has time to soak "
              "the charge, a strong one boils off more while you are late, and none does both"),
      by_rule("Q_w", "most heat into the pot", shown_in::watts, v.heat_boiling, at_worst_end),
      by_rule("U_w", "least heat loss of pot and column per kelvin", shown_in::watts_per_kelvin,
              v.pot_loss + v.column_loss, at_worst_end),
      worked(equations::worst_vapour, run.vapour()),
      by_rule("vent_w", "largest uncondensed vapour loss", shown_in::percent, v.uncondensed_loss,
              at_worst_end),
      worked(equations::worst_distillate, e.run.rates.distillate_most),
      by_rule("t_drop_w", "earliest first drop", shown_in::minutes, run.first_drop(),
              at_worst_end));
  return figures;
}

Figures worst_stop(const ExplainedRun& e) {
  const TimesPlan& times = e.run.times;
  const Duration late = times.stop_worst + longest_lateness(e.parameters());
  Figures figures;
  add(figures,
      by_rule("t_early", "earliest stop", shown_in::minutes, times.earliest_stop,
              "by level or clock, with the strongest heater and the least uncondensed vapour loss"),
      by_rule("t_stop_w", "stop in this case", shown_in::minutes, times.stop_worst,
              "at the same level in the receiver or by the clock, with these figures"),
      by_rule("late", "lateness that the plan allows for", shown_in::minutes,
              e.recipe().limits.absence, "limits.absence, or 15 min"),
      given("t_store", "how long the pot keeps boiling after the heat is off", shown_in::minutes,
            e.selected().stored_heat),
      by_rule("t_store_w", "longest time that the pot keeps boiling after the heat is off",
              shown_in::minutes, longest_after_heat(e.parameters()), at_worst_end),
      worked(equations::worst_left,
             Volume(e.worst.water_at(late).left / e.parameters().fill_density)));
  return figures;
}

// When the pot is down to `left` in the worst case, at the time `at`.
ExplainedFigure falls_at_worst(const ExplainedRun& e, const Equation<Duration>& equation,
                               Duration at, Mass left) {
  const Run& run = e.worst;
  const RunValues& v = run.values();
  if (std::abs((run.time_until_left(left) - at) / at) > 1e-9) {
    return by_rule(equation, at,
                   "by the same equation, with all the water that charge and walls can hold by "
                   "then, which is more than by the stop");
  }
  if (v.first_fill - v.soaked > left) return worked(equation, at);
  return by_rule(equation, at, "there may be no more water than that from the start");
}

}  // namespace

Chapter explain_water(const ExplainedRun& e) {
  const TimesPlan& times = e.run.times;
  Figures figures = water_at_stop(e);
  append(figures, reserve_figures(e));
  add(figures,
      falls_to(e, equations::reserve_reached, times.reserve,
               e.run.water.reserve * e.parameters().fill_density, "V_res * rho_w"),
      falls_to(e, equations::pot_dry, times.dry, grams(0), "0"),
      worked(equations::from_stop_to_reserve, times.reserve - times.stop),
      worked(equations::from_stop_to_dry, times.dry - times.stop),
      by_rule("m_rest", "error of the water balance", shown_in::grams, e.run.mass_residual,
              "from rounding only"),
      by_rule("E_rest", "error of the heat balance", shown_in::kilojoules, e.run.energy_residual,
              "from rounding only"));
  return {"The pot's water", std::move(figures)};
}

Chapter explain_worst_case(const ExplainedRun& e) {
  Chapter chapter{"The worst credible case for the pot's water", {}};
  if (e.worst.failure()) return chapter;
  Figures figures = figures_at_worst(e);
  append(figures, worst_stop(e));
  add(figures,
      falls_at_worst(e, equations::worst_reserve, e.run.times.reserve_worst,
                     e.run.water.reserve * e.parameters().fill_density),
      falls_at_worst(e, equations::worst_dry, e.run.times.dry_worst, grams(0)),
      worked(equations::latest, e.run.times.latest),
      worked(equations::absence, e.run.water.absence),
      worked(equations::after_heat_off, e.run.water.after_heat_off),
      by_rule("V_never", "level before which to turn the heat off", shown_in::millilitres,
              e.run.water.never_beyond,
              "the highest level at which the worst case, at any heat, still keeps its reserve "
              "after the heater has given off its stored heat; rounded down to a mark of the jug"));
  chapter.figures = std::move(figures);
  return chapter;
}

}  // namespace firstdrop
