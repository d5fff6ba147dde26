#include <fmt/core.h>

#include <algorithm>

#include "model/parameters_at.hpp"
#include "model/plant_parameters.hpp"
#include "output/explain_chapters.hpp"
#include "output/explain_figures.hpp"
#include "physics/basis.hpp"
#include "physics/release.hpp"
#include "physics/run.hpp"
#include "physics/water.hpp"

namespace firstdrop {
namespace {

ExplainedFigure density_of_oil(const ExplainedRun& e) {
  return given("rho_oil", "density of the oil", shown_in::grams_per_millilitre,
               e.selected().oil_density);
}

ExplainedFigure stated_end(const ExplainedRun& e) {
  return given("e_run", "share of what a still can get that has come when it is stopped",
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
    add(figures,
        given("kept", "oil that drying keeps", shown_in::percent, e.defaults().drying_retention));
  }
  add(figures, converted_content(e, equations::oil_content_text(steps)));
  return figures;
}

Figures content_of_recipe(const ExplainedRun& e) {
  Figures figures;
  add(figures,
      by_rule("w_own", "oil of a full run here, of the charge", shown_in::percent,
              *e.recipe().own.oil_content, "measured on this bench"),
      stated_end(e), converted_content(e, std::string(equations::own_oil_content)));
  return figures;
}

Figures oil_in_charge_figures(const ExplainedRun& e) {
  Figures figures = e.selected().oil_content_in_table ? content_in_table(e) : content_of_recipe(e);
  const bool dry = e.selected().oil_per == OilPer::dry_matter;
  add(figures,
      worked(dry ? equations::oil_of_dry_matter : equations::oil_as_received,
             oil_in_charge(e.parameters(), SamplePoint::medians(), e.plan.charge.mass)),
      given("r", "share of it that this still can get", shown_in::percent, e.selected().recovery),
      worked(equations::oil_recoverable, e.nominal.values().oil_recoverable));
  return figures;
}

Figures release_figures(const ExplainedRun& e) {
  const SelectedParameters& selected = e.selected();
  const Release& here = e.nominal.release();
  Figures figures;
  add(figures, given("t_half", "time that half of it takes", shown_in::minutes, selected.half_life),
      given("f", "share of it that comes in the fast stage", shown_in::percent,
            selected.fast_share),
      given("slow", "rate of the slow stage, of that of the fast one", shown_in::percent,
            selected.slow_rate),
      by_rule("k_ref", "rate of the fast stage at the flow q_ref", shown_in::per_minute,
              e.nominal.values().release.fast_rate, std::string(equations::rate_of_half_life)),
      worked(equations::steam_per_charge, e.run.rates.steam_per_charge),
      given("q_ref", "the same in published runs", shown_in::per_hour, selected.reference_flow),
      given("B_1", "resistance of the steam over the plant's at q_ref, fast stage",
            shown_in::percent, selected.flow_on_fast),
      given("B_2", "the same of the slow stage", shown_in::percent, selected.flow_on_slow),
      worked(equations::fast_rate, here.fast_rate), worked(equations::slow_rate, here.slow_rate),
      worked(equations::released,
             released(here, std::max(e.run.times.stop - e.nominal.first_drop(), seconds(0)))));
  return figures;
}

// The constituents of the oil.
Figures constituents(const ExplainedRun& e) {
  Figures figures;
  for (const Constituent& constituent : e.recipe().plant->constituents) {
    const Liquid& liquid = e.tables.liquids.at(constituent.liquid);
    add(figures,
        given(equations::symbol_of('s', liquid), liquid.name + " in the oil", shown_in::percent,
              constituent.share),
        given(equations::symbol_of('M', liquid), "its molar mass", shown_in::grams_per_mole,
              liquid.molar_mass));
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
  moles.name = liquid.name + ", " + moles.name;
  ExplainedFigure pressure =
      by_rule(equations::symbol_of('p', liquid),
              fmt::format("its vapour pressure when pure (fit holds from {:.0f} to {:.0f} °C)",
                          in_celsius(fit.valid_from), in_celsius(fit.valid_to)),
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
      by_rule("cov_bound", "share of the oil whose vapour pressure is known here",
              shown_in::percent, limit.share_covered, "sum of their shares, above"),
      by_rule("T_mix", "oil and water boil together at", shown_in::celsius, limit.boiling,
              fmt::format("where their vapour pressures, worked out next, sum to p; from {:.0f} % "
                          "of the oil, the rest taken to be like it{}",
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
        given(equations::symbol_of('c', liquid), "what water dissolves of pure " + liquid.name,
              shown_in::milligrams_per_litre, *liquid.water_solubility));
  }
  add(figures,
      worked(equations::solubility_covered, solubility.share_covered,
             equations::solubility_covered_text(parts)),
      worked(equations::oil_solubility, solubility.dissolved,
             equations::oil_solubility_text(parts)),
      given("sat", "share of it that measured hydrosols hold", shown_in::ratio("g/g"),
            e.defaults().hydrosol_saturation),
      given("c_any", "oil in the hydrosol of any plant", shown_in::milligrams_per_litre,
            e.defaults().hydrosol_oil),
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
      by_rule("t_sat", "distilling until what comes over no longer saturates its own water",
              shown_in::minutes, saturated - run.first_drop(),
              "where the oil coming over in a litre has fallen to c_h, or the stop"),
      worked(equations::hydrosol_while_saturated, hydrosol_then),
      by_rule("m_sat", "oil vaporised by then", shown_in::grams, vaporised_then,
              "as m_vap, after t_sat"),
      worked(equations::dissolved_as_it_comes,
             v.hydrosol_oil * hydrosol_then + oil.vaporised - vaporised_then),
      given("mix", "share of oil and water that stay mixed in the receiver", shown_in::percent,
            e.selected().mixing),
      worked(equations::oil_dissolved, oil.vaporised - oil.separated),
      worked(equations::oil_separated, oil.separated));
  return figures;
}

Figures volume_of_oil(const ExplainedRun& e) {
  Figures figures;
  if (!steps_from_table(e).from_volume) add(figures, density_of_oil(e));
  if (e.recipe().plant->flash_point) {
    add(figures,
        given("T_flash", "its flash point", shown_in::celsius, *e.recipe().plant->flash_point));
  }
  add(figures, worked(equations::oil_volume, e.run.nominal.oil_volume));
  return figures;
}

Figures what_more_would_bring(const ExplainedRun& e) {
  Figures figures;
  if (e.run.codistillation_limit_until) {
    add(figures, by_rule("t_bound", "until then steam sets the pace, not the plant",
                         shown_in::minutes, *e.run.codistillation_limit_until,
                         "while m_rec times the share released is more than b * V times the time "
                         "since first drop"));
  }
  add(figures, worked(equations::hydrosol_more, e.run.more.hydrosol),
      by_rule("m_more", "oil in the receiver by a quarter hour more", shown_in::grams,
              e.run.more.oil,
              "oil parted a quarter hour after the stop, by the same equations, less that at the "
              "stop"));
  return figures;
}

}  // namespace

Chapter explain_oil(const ExplainedRun& e) {
  const std::optional<CodistillationLimit>& limit = e.parameters().codistillation;
  const OilBalance oil = e.nominal.oil_at(e.run.times.stop);
  Figures figures = oil_in_charge_figures(e);
  append(figures, release_figures(e));
  if (limit || e.selected().oil_solubility) append(figures, constituents(e));
  if (limit) append(figures, steam_carries(e, *limit));
  add(figures, vaporised(e, oil.vaporised));
  append(figures, hydrosol_holds(e));
  append(figures, dissolved_and_separated(e, oil));
  append(figures, volume_of_oil(e));
  append(figures, what_more_would_bring(e));
  return {"The oil", std::move(figures)};
}

}  // namespace firstdrop
