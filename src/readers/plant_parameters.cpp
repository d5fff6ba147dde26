#include "readers/plant_parameters.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text_layout.hpp"
#include "firstdrop/base/error.hpp"
#include "physics/basis.hpp"

namespace firstdrop {
namespace {

template <class T>
Evidence combine(const Evidence& a, const Cited<T>& b, const std::string& how) {
  Evidence e = a;
  e.basis += "; " + how;
  for (const std::string& source : b.evidence.sources) {
    if (std::find(e.sources.begin(), e.sources.end(), source) == e.sources.end()) {
      e.sources.push_back(source);
    }
  }
  e.known = std::max(a.known, b.evidence.known);
  return e;
}

// A converted figure counts as computed at best, even if the original was read.
Evidence computed_from(Evidence evidence) {
  evidence.known = std::max(evidence.known, Known::computed);
  return evidence;
}

template <class T, class Map>
auto mapped(const Range<T>& range, Map map) -> Range<decltype(map(range.low))> {
  return {map(range.low), map(range.typical), map(range.high), range.by_ratio};
}

// Multiplies a figure by a factor, percentile by percentile. The range is wider than for
// independent factors, which is the safe side.
template <class T>
Cited<T> scaled(const Cited<T>& figure, const Cited<Fraction>& factor, const std::string& how) {
  return {{figure.range.low * double(factor.range.low),
           figure.range.typical * double(factor.range.typical),
           figure.range.high * double(factor.range.high), figure.range.by_ratio},
          combine(figure.evidence, factor, how)};
}

template <class T>
Cited<T> divided(const Cited<T>& figure, const Cited<Fraction>& factor, const std::string& how) {
  return {{figure.range.low / double(factor.range.high),
           figure.range.typical / double(factor.range.typical),
           figure.range.high / double(factor.range.low), figure.range.by_ratio},
          combine(figure.evidence, factor, how)};
}

// Multiplies a figure by an independent factor. Both are seldom at their ends together. So the
// logarithms of the ratios between end and median add as squares.
Range<Fraction> by_factor(const Range<Fraction>& figure, const Range<Fraction>& factor) {
  const auto ends = [&](Fraction one, Fraction other) {
    return std::hypot(std::log(one / figure.typical), std::log(other / factor.typical));
  };
  const Fraction typical = figure.typical * double(factor.typical);
  return {typical * std::exp(-ends(figure.low, factor.low)), typical,
          typical * std::exp(ends(figure.high, factor.high)), figure.by_ratio};
}

Range<Fraction> inverse(const Range<Fraction>& factor) {
  return {1.0 / factor.high, 1.0 / factor.typical, 1.0 / factor.low};
}

const PlantState* defaults_of(const Plant& plant, State state, const Tables& tables) {
  if (!plant.form) return nullptr;
  const auto form = tables.forms.find(*plant.form);
  if (form == tables.forms.end()) return nullptr;
  const auto found = form->second.states.find(state);
  return found == form->second.states.end() ? nullptr : &found->second;
}

std::string class_words(const Plant& plant) {
  return "class default for " + spaced(to_string(*plant.form));
}

InputError missing(const Plant& plant, State state, const char* what) {
  return InputError(Fault{"", fmt::format("/plant/states/{}/{}", to_string(state), what),
                          fmt::format("no {} for {} {}", what, to_string(state), plant.name),
                          "a figure, or the plant's form, so that a default can be used", "", 0,
                          0});
}

Cited<Fraction> by_mass(const OilContent& content, const Cited<Density>& oil_density) {
  if (content.by_mass) return *content.by_mass;
  const Cited<SpecificVolume>& figure = *content.by_volume;
  const Density density = oil_density.range.typical;
  return {mapped(figure.range, [&](SpecificVolume share) { return oil_by_mass(share, density); }),
          computed_from(combine(figure.evidence, oil_density, "by volume, times oil density"))};
}

Cited<Fraction> whole_content(const OilContent& content, const Cited<Density>& oil_density,
                              const Tables& tables) {
  const Cited<Fraction> figure = by_mass(content, oil_density);
  return content.distilled == Distilled::to_exhaustion
             ? figure
             : to_exhaustion(figure, tables.design_defaults);
}

}  // namespace

ChosenBulkDensity bulk_density_of(const Plant& plant, State state, Cut cut, const Tables& tables) {
  const std::vector<BulkDensity> none;
  const auto own = plant.states.find(state);
  const PlantState* defaults = defaults_of(plant, state, tables);
  const auto& of_plant = own == plant.states.end() ? none : own->second.bulk_density;
  const auto& of_form = defaults ? defaults->bulk_density : none;
  const auto of_cut = [&](const std::vector<BulkDensity>& figures) {
    return std::find_if(figures.begin(), figures.end(),
                        [&](const BulkDensity& figure) { return figure.cut == cut; });
  };
  // The form's default for this cut is less of a guess than the plant's figure for another cut.
  if (const auto found = of_cut(of_plant); found != of_plant.end()) return {{found->density, ""}};
  if (const auto found = of_cut(of_form); found != of_form.end()) {
    return {{found->density, fmt::format("bulk density ({})", class_words(plant))}};
  }
  if (of_plant.empty() && of_form.empty()) throw missing(plant, state, "bulk_density");
  const auto& cut_density = tables.design_defaults.cut_density;
  // From chopped where possible, because that takes one factor less.
  const auto& figures = of_plant.empty() ? of_form : of_plant;
  const auto chopped = std::find_if(figures.begin(), figures.end(), [](const BulkDensity& figure) {
    return figure.cut == Cut::chopped;
  });
  const BulkDensity& other = chopped == figures.end() ? figures.front() : *chopped;
  const Cited<Density> as_chopped =
      divided(other.density, cut_density.at(other.cut), "from " + to_string(other.cut));
  Cited<Density> as_cut = scaled(as_chopped, cut_density.at(cut), "to " + to_string(cut));
  as_cut.evidence = computed_from(as_cut.evidence);
  return {{as_cut,
           fmt::format("bulk density of {} material, scaled to {}{}", to_string(other.cut),
                       to_string(cut), of_plant.empty() ? " (" + class_words(plant) + ")" : "")},
          &other};
}

std::optional<Chosen<Fraction>> moisture_if_known(const Plant& plant, State state,
                                                  const Tables& tables) {
  const auto own = plant.states.find(state);
  if (own != plant.states.end() && own->second.moisture) {
    return Chosen<Fraction>{*own->second.moisture, ""};
  }
  const PlantState* defaults = defaults_of(plant, state, tables);
  if (!defaults || !defaults->moisture) return std::nullopt;
  return Chosen<Fraction>{*defaults->moisture, fmt::format("moisture ({})", class_words(plant))};
}

Chosen<Fraction> moisture_of(const Plant& plant, State state, const Tables& tables) {
  if (auto known = moisture_if_known(plant, state, tables)) return *std::move(known);
  throw missing(plant, state, "moisture");
}

ChosenCustomaryHydrosol customary_hydrosol_of(const Plant& plant, State state,
                                              const Tables& tables) {
  const DesignDefaults& defaults = tables.design_defaults;
  const auto fresh = moisture_if_known(plant, State::fresh, tables);
  if (!fresh) return {defaults.hydrosol_per_dry_fruit};
  const auto dry_share = [](const Chosen<Fraction>& moisture) {
    return 1.0 - moisture.figure.typical();
  };
  const Fraction as_fresh =
      fraction(dry_share(moisture_of(plant, state, tables)) / dry_share(*fresh));
  ChosenCustomaryHydrosol chosen{plant.hydrosol_per_fresh.value_or(defaults.hydrosol_per_fresh),
                                 as_fresh};
  Range<SpecificVolume>& range = chosen.figure.range;
  range = {range.low * as_fresh, range.typical * as_fresh, range.high * as_fresh, range.by_ratio};
  return chosen;
}

Chosen<Fraction> hold_up_of(const Plant& plant, const Tables& tables) {
  if (plant.form) {
    const auto form = tables.forms.find(*plant.form);
    if (form != tables.forms.end() && form->second.hold_up) {
      return {*form->second.hold_up, fmt::format("water held ({})", class_words(plant))};
    }
  }
  return {tables.design_defaults.hold_up, ""};
}

OilContentSteps oil_content_steps(const OilContent& content, State from, State to) {
  return {!content.by_mass, content.distilled == Distilled::to_stated_end,
          from != to && content.per == OilPer::as_received,
          to == State::dried && from != State::dried, from == State::dried && to != State::dried};
}

std::string equations::oil_content_text(const OilContentSteps& steps) {
  std::string text = "w_table";
  if (steps.from_volume) text += " * rho_oil";
  if (steps.to_exhaustion) text += " / (e_run / 100)";
  if (steps.to_dry_matter) text += " / (1 - x_table / 100)";
  if (steps.less_drying_loss) text += " * kept / 100";
  if (steps.before_drying_loss) text += " / (kept / 100)";
  return text;
}

ChosenOilContent oil_content_of(const Plant& plant, State state, const Tables& tables) {
  const auto own = plant.states.find(state);
  if (own != plant.states.end() && own->second.oil_content) {
    const OilContent& content = *own->second.oil_content;
    return {{whole_content(content, *plant.oil_density, tables), ""},
            content.per,
            content.distilled,
            &content,
            state};
  }
  for (const auto& [other_state, other] : plant.states) {
    if (!other.oil_content) continue;
    const OilContentSteps steps = oil_content_steps(*other.oil_content, other_state, state);
    Cited<Fraction> content = whole_content(*other.oil_content, *plant.oil_density, tables);
    if (steps.to_dry_matter) {
      const Cited<Fraction> moisture = moisture_of(plant, other_state, tables).figure;
      content.range = mapped(content.range, [&](Fraction share) {
        return per_dry_matter(share, moisture.range.typical);
      });
      content.evidence = combine(content.evidence, moisture, "per dry matter");
    }
    const Cited<Fraction>& kept = tables.design_defaults.drying_retention;
    if (steps.less_drying_loss) {
      content.range = by_factor(content.range, kept.range);
      content.evidence = combine(content.evidence, kept, "less loss on drying");
    }
    if (steps.before_drying_loss) {
      content.range = by_factor(content.range, inverse(kept.range));
      content.evidence = combine(content.evidence, kept, "before loss on drying");
    }
    content.evidence = computed_from(content.evidence);
    return {{content, fmt::format("oil content of {} material, converted by its dry matter",
                                  to_string(other_state))},
            OilPer::dry_matter,
            other.oil_content->distilled,
            &*other.oil_content,
            other_state};
  }
  throw InputError(Fault{"", "/plant", "no oil content for " + plant.name,
                         "an oil_content in one of its states, or own.oil_content", "", 0, 0});
}

Cited<Fraction> oil_content_as_received(const Plant& plant, State state, const Tables& tables) {
  const ChosenOilContent chosen = oil_content_of(plant, state, tables);
  Cited<Fraction> content = chosen.figure;
  if (chosen.per == OilPer::as_received) return content;
  const Fraction moisture = moisture_of(plant, state, tables).figure.typical();
  Range<Fraction>& range = content.range;
  range = {per_as_received(range.low, moisture), per_as_received(range.typical, moisture),
           per_as_received(range.high, moisture), range.by_ratio};
  return content;
}

Cited<Fraction> to_exhaustion(const Cited<Fraction>& yield, const DesignDefaults& defaults) {
  return {by_factor(yield.range, inverse(defaults.stated_end.range)),
          computed_from(combine(yield.evidence, defaults.stated_end, "to exhaustion"))};
}

Chosen<Fraction> recovery_of(const Plant& plant, Method method, Distilled distilled,
                             const Tables& tables) {
  if (distilled == Distilled::to_stated_end) {
    return {{Range<Fraction>::exactly(fraction(1)),
             {"a still's yield has its recovery in it", {}, Known::computed}},
            ""};
  }
  const auto own = plant.recovery.find(method);
  if (own != plant.recovery.end()) return {own->second, ""};
  return {tables.design_defaults.recovery.at(method),
          "recovery (default for " + to_string(method) + ")"};
}

std::string release_class_of(const Plant& plant, Cut cut) {
  if (plant.release_class != "seed") return plant.release_class;
  return cut == Cut::whole ? "whole-seed" : "crushed-seed";
}

ChosenRelease release_of(const Plant& plant, Method method, Cut cut, const Tables& tables) {
  // Methods by nearness. A method without a figure takes that of the nearest one.
  static constexpr std::array<std::array<Method, 3>, 3> order = {{
      {Method::steam, Method::water_and_steam, Method::hydro},
      {Method::water_and_steam, Method::steam, Method::hydro},
      {Method::hydro, Method::water_and_steam, Method::steam},
  }};
  const std::string class_key = release_class_of(plant, cut);
  const auto found = tables.release_classes.find(class_key);
  for (const Method other : order.at(static_cast<std::size_t>(method))) {
    const std::string of_method = other == method ? std::string() : " for " + to_string(other);
    // Published seed figures are for crushed or milled seed, and don't hold for whole seed.
    const bool of_this_cut = class_key != "whole-seed" || found == tables.release_classes.end();
    const auto own = plant.release.find(other);
    if (own != plant.release.end() && of_this_cut) {
      const bool whole_seed = plant.form == PlantForm::seed && cut == Cut::whole;
      std::string default_used = of_method.empty() ? "" : "release" + of_method;
      if (whole_seed) default_used = "release" + of_method + " of crushed seed";
      return {own->second, other, default_used};
    }
    if (found == tables.release_classes.end()) continue;
    const auto by_class = found->second.by_method.find(other);
    if (by_class == found->second.by_method.end()) continue;
    return {by_class->second, other,
            fmt::format("release{} (class default for {})", of_method, spaced(class_key))};
  }
  throw InputError(Fault{"", "/plant", "no release figures for " + plant.name,
                         "a half_life for steam, water-and-steam or hydro, or a release_class", "",
                         0, 0});
}

std::vector<Fraction> oil_shares(const Plant& blend, State state, Method method,
                                 const Tables& tables) {
  std::vector<Fraction> shares;
  double sum = 0.0;
  for (const BlendPart& part : blend.blend) {
    const Plant& plant = part.plant;
    double oil = 0.0;
    if (has_oil_figures(plant)) {
      const Distilled distilled = oil_content_of(plant, state, tables).distilled;
      oil = part.share * oil_content_as_received(plant, state, tables).typical() *
            recovery_of(plant, method, distilled, tables).figure.typical();
    }
    shares.push_back(fraction(oil));
    sum += oil;
  }
  for (Fraction& share : shares) share = fraction(share / sum);
  return shares;
}

std::vector<OilPart> oil_parts(const Plant& plant, const Tables& tables) {
  std::vector<OilPart> parts;
  for (const Constituent& constituent : plant.constituents) {
    parts.push_back({&tables.liquids.at(constituent.liquid), constituent.share.range.typical});
  }
  return parts;
}

std::string codistillation_limit_left_out(const Plant& plant, const Tables& tables,
                                          const CodistillationLimit& bound) {
  std::string words;
  for (const Constituent& constituent : plant.constituents) {
    const Liquid& liquid = tables.liquids.at(constituent.liquid);
    const bool counts = std::any_of(bound.parts.begin(), bound.parts.end(),
                                    [&](const OilPart& part) { return part.liquid == &liquid; });
    if (counts) continue;
    words += (words.empty() ? "" : ", ") + liquid.name;
    const auto& fit = liquid.vapour_pressure;
    if (!fit) {
      words += " (no vapour pressure equation)";
    } else {
      words += fmt::format(" (its equation holds from {:.0f} to {:.0f} °C)",
                           in_celsius(fit->valid_from), in_celsius(fit->valid_to));
    }
  }
  return words;
}

ChosenHydrosolOil hydrosol_oil_of(const Plant& plant, const Tables& tables) {
  if (plant.hydrosol_oil) return {{*plant.hydrosol_oil, ""}, std::nullopt};
  return worked_out_hydrosol_oil(plant, tables);
}

ChosenHydrosolOil worked_out_hydrosol_oil(const Plant& plant, const Tables& tables) {
  const Cited<Density>& of_any = tables.design_defaults.hydrosol_oil;
  const auto dissolves = oil_solubility(oil_parts(plant, tables));
  if (!dissolves) return {{of_any, "oil in the hydrosol (default for all plants)"}, std::nullopt};
  const Cited<Fraction>& saturation = tables.design_defaults.hydrosol_saturation;
  const Fraction rest = std::max(fraction(1.0 - dissolves->share_covered), fraction(0));
  const auto both = [&](Fraction share, Density any) {
    return dissolves->dissolved * share + any * rest;
  };
  Cited<Density> figure;
  figure.range = {both(saturation.range.low, of_any.range.low),
                  both(saturation.range.typical, of_any.range.typical),
                  both(saturation.range.high, of_any.range.high), saturation.range.by_ratio};
  figure.evidence = combine(saturation.evidence, of_any, "");
  for (const Constituent& constituent : plant.constituents) {
    const Liquid& liquid = tables.liquids.at(constituent.liquid);
    if (!liquid.water_solubility) continue;
    figure.evidence = combine(figure.evidence, constituent.share, "");
    figure.evidence = combine(figure.evidence, *liquid.water_solubility, "");
  }
  figure.evidence = computed_from(figure.evidence);
  figure.evidence.basis = fmt::format(
      "worked out: water could dissolve {:.0f} mg/L of the constituents with a known solubility "
      "({:.0f} % of the oil), and measured hydrosols reach a share of that; the rest of the oil "
      "counts with the default for all plants; shares and solubilities are medians, and their "
      "ranges aren't in this one",
      in_milligrams_per_litre(dissolves->dissolved), in_percent(dissolves->share_covered));
  return {{figure, "oil in the hydrosol (worked out from solubilities)"}, dissolves};
}

}  // namespace firstdrop
