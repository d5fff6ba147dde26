#include <fmt/core.h>

#include <algorithm>

#include "model/parameters_at.hpp"
#include "output/explain_chapters.hpp"
#include "output/explain_figures.hpp"
#include "physics/basis.hpp"
#include "physics/release.hpp"
#include "physics/run.hpp"
#include "physics/water.hpp"
#include "readers/plant_parameters.hpp"

namespace firstdrop {
namespace {

ExplainedFigure density_of_oil(const ExplainedRun& e) {
  return given("rho_oil", "density of the oil", shown_in::grams_per_millilitre,
               e.selected().oil_density);
}

ExplainedFigure stated_end(const ExplainedRun& e) {
  return given("e_run", "share of the recoverable oil that has come when such a run is stopped",
               shown_in::percent, e.defaults().stated_end);
}

// The content as the plan uses it, with its equation.
ExplainedFigure converted_content(const ExplainedRun& e, std::string text) {
  const auto& equation = e.selected().oil_per == OilPer::dry_matter
                             ? equations::oil_of_dry_matter_share
                             : equations::oil_as_received_share;
  const Cited<Fraction>& content = e.selected().oil_content;
  return with_range(worked(equation, content.typical(), std::move(text)),
                    in_unit(equation.unit, content.range));
}

// The content as the plan uses it, where the table has it so.
ExplainedFigure content_as_given(const ExplainedRun& e) {
  ExplainedFigure content = converted_content(e, "");
  content.evidence = e.selected().oil_content.evidence;
  if (content.range->low >= content.range->high) content.range.reset();
  return content;
}

OilContentSteps steps_from_table(const ExplainedRun& e) {
  const SelectedParameters& selected = e.selected();
  if (!selected.oil_content_in_table) return {};
  return oil_content_steps(*selected.oil_content_in_table, selected.oil_content_state,
                           e.recipe().state);
}

// The figure in the table, and those that convert it.
Figures content_in_table(const ExplainedRun& e) {
  const OilContent& content = *e.selected().oil_content_in_table;
  const State state = e.selected().oil_content_state;
  const OilContentSteps steps = steps_from_table(e);
  if (!steps.any() && state == e.recipe().state) return {content_as_given(e)};
  const std::string name = "oil content in the table, ";
  Figures figures;
  if (steps.from_volume) {
    add(figures,
        given("w_table", name + "by volume, " + to_string(state),
              shown_in::millilitres_per_100_grams, *content.by_volume),
        density_of_oil(e));
  } else {
    add(figures, given("w_table", name + to_string(state), shown_in::percent, *content.by_mass));
  }
  if (steps.to_exhaustion) add(figures, stated_end(e));
  if (steps.to_dry_matter) {
    add(figures, given("x_table", "moisture of " + to_string(state) + " material",
                       shown_in::percent, moisture_of(e.recipe().plant, state, e.tables).figure));
  }
  if (steps.less_drying_loss || steps.before_drying_loss) {
    add(figures, given("kept", "share of the oil that drying keeps", shown_in::percent,
                       e.defaults().drying_retention));
  }
  add(figures, converted_content(e, equations::oil_content_text(steps)));
  return figures;
}

Figures content_of_recipe(const ExplainedRun& e) {
  const auto& own = *e.recipe().own.oil_content;
  constexpr auto basis = "measured on this bench";
  Figures figures;
  if (const auto* by_volume = std::get_if<SpecificVolume>(&own)) {
    add(figures,
        by_rule("w_own", "oil from a full run of your own, by volume per mass of the charge",
                shown_in::millilitres_per_100_grams, *by_volume, basis),
        density_of_oil(e), stated_end(e),
        converted_content(e, std::string(equations::own_oil_content_by_volume)));
  } else {
    add(figures,
        by_rule("w_own", "oil from a full run of your own, as a share of the charge",
                shown_in::percent, std::get<Fraction>(own), basis),
        stated_end(e), converted_content(e, std::string(equations::own_oil_content)));
  }
  return figures;
}

Figures oil_in_charge_figures(const ExplainedRun& e) {
  Figures figures = e.selected().oil_content_in_table ? content_in_table(e) : content_of_recipe(e);
  const bool dry = e.selected().oil_per == OilPer::dry_matter;
  add(figures,
      worked(dry ? equations::oil_of_dry_matter : equations::oil_as_received,
             oil_in_charge(e.parameters(), SamplePoint::medians(), e.plan.charge.mass)),
      given("r", "share of that oil that this still can get", shown_in::percent,
            e.selected().recovery),
      worked(equations::oil_recoverable, e.nominal.values().oil_recoverable));
  return figures;
}

// The plants of a blend that have oil, each with its share of it and its pace.
Figures paces_of_blend(const ExplainedRun& e) {
  Figures figures;
  auto pace = e.selected().blend_paces.begin();
  const auto end = e.selected().blend_paces.end();
  for (const BlendPart& part : e.recipe().plant->blend) {
    if (pace == end) break;
    if (!has_oil_figures(part.plant)) continue;
    const auto number = pace - e.selected().blend_paces.begin() + 1;
    add(figures,
        by_rule(fmt::format("o_{}", number),
                fmt::format("share of the recoverable oil that is in {}", part.plant->name),
                shown_in::percent, pace->of_oil,
                "by its share of the charge, its oil content and its recovery, at their medians"),
        by_rule(fmt::format("a_{}", number),
                fmt::format("how many times faster than at k_1 and k_2 {} lets its oil go",
                            part.plant->name),
                shown_in::ratio(""), fraction(pace->pace),
                "its half-life compared with t_half, that of the plant with the most oil"));
    ++pace;
  }
  return figures;
}

Figures release_figures(const ExplainedRun& e) {
  const SelectedParameters& selected = e.selected();
  const Release& here = e.nominal.release();
  const std::size_t plants = selected.blend_paces.size();
  Figures figures = paces_of_blend(e);
  const Fraction over =
      released(here, std::max(e.run.times.stop - e.nominal.first_drop(), seconds(0)));
  add(figures,
      given("t_half",
            plants == 0
                ? "time until half of the recoverable oil has come"
                : "time until half of the recoverable oil has come from the plant with most of it",
            shown_in::minutes, selected.half_life),
      given("f", "share of that oil that comes in the fast stage", shown_in::percent,
            selected.fast_share),
      given("slow", "rate of the slow stage, as a share of that of the fast stage",
            shown_in::percent, selected.slow_rate),
      by_rule("k_ref", "rate of the fast stage at the flow q_ref", shown_in::per_minute,
              e.nominal.values().release.fast_rate, std::string(equations::rate_of_half_life)),
      worked(equations::steam_per_charge, e.run.rates.steam_per_charge),
      given("q_ref", "the same flow in published runs", shown_in::per_hour,
            selected.reference_flow),
      given("B_1", "resistance of the steam divided by that of the plant at q_ref, fast stage",
            shown_in::percent, selected.flow_on_fast),
      given("B_2", "the same ratio for the slow stage", shown_in::percent, selected.flow_on_slow),
      worked(equations::fast_rate, here.fast_rate), worked(equations::slow_rate, here.slow_rate),
      plants == 0 ? worked(equations::released, over)
                  : worked(equations::released, over, equations::released_by_blend_text(plants)));
  return figures;
}

// The constituents of the oil.
Figures constituents(const ExplainedRun& e) {
  Figures figures;
  for (const Constituent& constituent : e.recipe().plant->constituents) {
    const Liquid& liquid = e.tables.liquids.at(constituent.liquid);
    add(figures,
        given(equations::symbol_of('s', liquid), "share of " + liquid.name + " in the oil",
              shown_in::percent, constituent.share),
        given(equations::symbol_of('M', liquid), "molar mass of " + liquid.name,
              shown_in::grams_per_mole, liquid.molar_mass));
  }
  return figures;
}

// Why part of the oil doesn't count towards what steam can carry.
std::string left_out(const ExplainedRun& e, const CodistillationLimit& limit) {
  const std::string words = codistillation_limit_left_out(e.recipe().plant, e.tables, limit);
  return words.empty() ? "" : "; left out: " + words;
}

// Of one constituent: its share of the moles, and its vapour pressure.
Figures vapour_pressure_figures(const OilPart& part, Fraction mole_share,
                                const CodistillationLimit& limit) {
  const Liquid& liquid = *part.liquid;
  const Antoine& fit = *liquid.vapour_pressure;
  ExplainedFigure moles =
      as(worked(equations::mole_share, mole_share, equations::mole_share_text(part, limit.parts)),
         equations::symbol_of('x', liquid));
  moles.name += " of " + liquid.name;
  ExplainedFigure pressure =
      by_rule(equations::symbol_of('p', liquid),
              fmt::format("vapour pressure of pure {} (the fit holds from {:.0f} to {:.0f} °C)",
                          liquid.name, in_celsius(fit.valid_from), in_celsius(fit.valid_to)),
              shown_in::pascals, vapour_pressure(liquid, limit.boiling), "");
  pressure.equation = equations::vapour_pressure_text(fit);
  pressure.evidence = fit.evidence;
  Figures figures;
  add(figures, std::move(moles), std::move(pressure));
  return figures;
}

Figures steam_carries(const ExplainedRun& e, const CodistillationLimit& limit) {
  Figures figures;
  add(figures,
      by_rule("cov_bound", "share of the oil with a known vapour pressure in this range",
              shown_in::percent, limit.share_covered,
              "sum of the shares above, of the constituents used below"),
      by_rule("T_mix", "temperature at which oil and water boil together", shown_in::celsius,
              limit.boiling,
              fmt::format("where their vapour pressures (below) add up to p; known for {:.0f} % of "
                          "the oil, and the rest is assumed to be like it{}",
                          in_percent(limit.share_covered), left_out(e, limit))),
      worked(equations::water_pressure, saturation_pressure(limit.boiling)));
  const std::vector<Fraction> shares = mole_shares(limit.parts);
  for (std::size_t i = 0; i < limit.parts.size(); ++i) {
    append(figures, vapour_pressure_figures(limit.parts[i], shares[i], limit));
  }
  const Duration distilling = std::max(e.run.times.stop - e.nominal.first_drop(), seconds(0));
  add(figures,
      worked(equations::both_pressures, e.plan.ambient,
             equations::both_pressures_text(limit.parts)),
      worked(equations::oil_per_steam, limit.oil_per_steam,
             equations::oil_per_steam_text(limit.parts)),
      worked(equations::oil_carried, e.nominal.vapour() * limit.oil_per_steam * distilling));
  return figures;
}

ExplainedFigure vaporised(const ExplainedRun& e, Mass vaporised) {
  const auto& equation = e.parameters().codistillation ? equations::oil_vaporised_within_limit
                                                       : equations::oil_vaporised;
  return e.run.times.stop > e.nominal.first_drop()
             ? worked(equation, vaporised)
             : by_rule(equation, vaporised, "none comes over before the first drop");
}

// The oil that the hydrosol holds, worked out from solubilities.
Figures dissolved_by_parts(const ExplainedRun& e, const OilSolubility& solubility) {
  const std::vector<OilPart>& parts = e.selected().oil_parts;
  Figures figures;
  for (const OilPart& part : parts) {
    const Liquid& liquid = *part.liquid;
    if (!liquid.water_solubility) continue;
    add(figures,
        given(equations::symbol_of('c', liquid), "solubility of pure " + liquid.name + " in water",
              shown_in::milligrams_per_litre, *liquid.water_solubility));
  }
  add(figures,
      worked(equations::solubility_covered, solubility.share_covered,
             equations::solubility_covered_text(parts)),
      worked(equations::oil_solubility, solubility.dissolved,
             equations::oil_solubility_text(parts)),
      given("sat", "share of that solubility that measured hydrosols reach", shown_in::ratio("g/g"),
            e.defaults().hydrosol_saturation),
      given("c_any", "oil in the hydrosol, default value for all plants",
            shown_in::milligrams_per_litre, e.defaults().hydrosol_oil),
      worked(equations::hydrosol_oil, e.selected().hydrosol_oil.typical()));
  return figures;
}

Figures hydrosol_holds(const ExplainedRun& e) {
  if (const auto& solubility = e.selected().oil_solubility) {
    return dissolved_by_parts(e, *solubility);
  }
  const auto& equation = equations::hydrosol_oil;
  return {given(std::string(equation.symbol), std::string(equation.name), equation.unit,
                e.selected().hydrosol_oil)};
}

// How the oil that has come over is shared between hydrosol and floating or sunken oil.
Figures dissolved_and_separated(const ExplainedRun& e, const OilBalance& oil) {
  const Run& run = e.nominal;
  const RunValues& v = run.values();
  const Duration saturated =
      std::min(run.saturated_until(), std::max(e.run.times.stop, run.first_drop()));
  const Mass vaporised_then = run.oil_vaporised_at(saturated);
  const Volume hydrosol_then = run.hydrosol_at(saturated);
  Figures figures;
  add(figures,
      by_rule("t_sat",
              "time from the first drop until the distillate no longer brings more oil than it can "
              "dissolve",
              shown_in::minutes, saturated - run.first_drop(),
              "until each litre brings only c_h of oil, or until the stop"),
      worked(equations::hydrosol_while_saturated, hydrosol_then),
      by_rule("m_sat", "oil vaporised by then", shown_in::grams, vaporised_then,
              "by the equation of m_vap, with t_sat instead of t_run"),
      worked(equations::dissolved_as_it_comes,
             v.hydrosol_oil * hydrosol_then + oil.vaporised - vaporised_then),
      given("mix", "share of oil and water that stay in contact in the receiver", shown_in::percent,
            e.selected().mixing),
      worked(equations::oil_dissolved, oil.vaporised - oil.separated),
      worked(equations::oil_separated, oil.separated));
  return figures;
}

Figures volume_of_oil(const ExplainedRun& e) {
  Figures figures;
  if (!steps_from_table(e).from_volume) add(figures, density_of_oil(e));
  if (e.recipe().plant->flash_point) {
    add(figures, given("T_flash", "flash point of the oil", shown_in::celsius,
                       *e.recipe().plant->flash_point));
  }
  add(figures, worked(equations::oil_volume, e.run.nominal.oil_volume));
  return figures;
}

Figures what_more_would_bring(const ExplainedRun& e) {
  Figures figures;
  if (e.run.codistillation_limit_until) {
    add(figures, by_rule("t_bound", "time until which the co-distillation limit holds the oil back",
                         shown_in::minutes, *e.run.codistillation_limit_until,
                         "until then, m_rec times the share released is more than b * V times the "
                         "time since the first drop"));
  }
  add(figures, worked(equations::hydrosol_more, e.run.more.hydrosol),
      by_rule(
          "m_more", "change of the separated oil from another 15 min", shown_in::grams,
          e.run.more.oil,
          "separated oil 15 min after the stop, by the same equations, minus that at the stop"));
  return figures;
}

}  // namespace

namespace {

// The same with a receiver for each fraction: the oil of one never meets the water of another.
Figures dissolved_in_fractions(const ExplainedRun& e, const OilCourse& course,
                               const OilBalance& oil) {
  Figures figures;
  add(figures, given("mix", "share of oil and water that stay in contact in a receiver",
                     shown_in::percent, e.selected().mixing));
  std::string dissolved;
  std::size_t number = 0;
  for (const FractionPlan& fraction : e.run.fractions) {
    ++number;
    const OilBalance one = course.between(fraction.from, fraction.to);
    const Volume hydrosol =
        e.nominal.hydrosol_at(fraction.to) - e.nominal.hydrosol_at(fraction.from);
    const Mass comes = course.dissolved_as_it_comes(fraction.from, fraction.to);
    const auto named = [&](const char* symbol) { return fmt::format("{}_{}", symbol, number); };
    const std::string in_it = fmt::format(" in fraction {}", number);
    add(figures,
        by_rule(named("V_f"), "hydrosol" + in_it, shown_in::millilitres, hydrosol,
                "from its beginning to its end, or to the stop"),
        by_rule(named("m_vap"), "oil that comes over" + in_it, shown_in::grams, one.vaporised,
                "oil vaporised by its end, less that by its beginning"),
        by_rule(named("m_come"),
                "oil that would dissolve" + in_it + " if separated oil never met later water",
                shown_in::grams, comes,
                "each millilitre dissolves at most c_h of what comes with it"),
        as(worked(equations::oil_dissolved, one.dissolved,
                  fmt::format("min(m_vap_{0}, (1 - mix / 100) * m_come_{0} + mix / 100 * "
                              "min(m_vap_{0}, c_h * V_f_{0} / 1e6))",
                              number)),
           named("m_diss")),
        as(worked(equations::oil_separated, one.separated,
                  fmt::format("m_vap_{0} - m_diss_{0}", number)),
           named("m_part")));
    dissolved += (number == 1 ? "" : " + ") + named("m_diss");
  }
  add(figures, worked(equations::oil_dissolved, oil.dissolved, dissolved),
      worked(equations::oil_separated, oil.separated));
  return figures;
}

}  // namespace

Chapter explain_oil(const ExplainedRun& e) {
  if (!e.run.has_oil) {
    Figures known;
    add(known, worked(equations::steam_per_charge, e.run.rates.steam_per_charge),
        worked(equations::hydrosol_more, e.run.more.hydrosol));
    return {"Steam and hydrosol", std::move(known)};
  }
  const std::optional<CodistillationLimit>& limit = e.parameters().codistillation;
  const OilCourse course(e.nominal, e.recipe().fraction_ends());
  const OilBalance oil = course.at(e.run.times.stop);
  Figures figures = oil_in_charge_figures(e);
  append(figures, release_figures(e));
  if (limit || e.selected().oil_solubility) append(figures, constituents(e));
  if (limit) append(figures, steam_carries(e, *limit));
  add(figures, vaporised(e, oil.vaporised));
  append(figures, hydrosol_holds(e));
  append(figures, e.run.fractions.empty() ? dissolved_and_separated(e, oil)
                                          : dissolved_in_fractions(e, course, oil));
  append(figures, volume_of_oil(e));
  append(figures, what_more_would_bring(e));
  return {"The oil", std::move(figures)};
}

}  // namespace firstdrop
