#include "firstdrop/readers/blend.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "base/text_layout.hpp"
#include "firstdrop/base/error.hpp"
#include "readers/field_bounds.hpp"
#include "readers/plant_parameters.hpp"
#include "tables/words.hpp"

namespace firstdrop {
namespace {

constexpr std::size_t most_plants = 8;  // ours; more can only be a slip

using Parts = std::vector<BlendPart>;

std::vector<State> common_states(const Parts& parts) {
  std::vector<State> common;
  for (const auto& entry : parts.front().plant->states) {
    const bool in_all = std::all_of(parts.begin(), parts.end(), [&](const BlendPart& part) {
      return part.plant->states.contains(entry.first);
    });
    if (in_all) common.push_back(entry.first);
  }
  return common;
}

std::string percent_text(Fraction share) {
  return fmt::format("{:.3g} %", in_percent(share));
}

// --- mixing figures

/// One plant's figure, and its weight in the mean.
template <class T>
struct Weighed {
  std::string plant;
  double weight = 0.0;  // of all; the weights sum to 1
  Cited<T> figure;
};

/// Sources of all figures, and a basis that says what was mixed.
template <class T>
Evidence mixed_evidence(const std::vector<Weighed<T>>& parts) {
  Evidence evidence;
  std::vector<std::string> texts;
  evidence.known = Known::computed;
  for (const Weighed<T>& part : parts) {
    texts.push_back(fmt::format("{} {}: {}", percent_text(fraction(part.weight)), part.plant,
                                part.figure.evidence.basis));
    for (const std::string& source : part.figure.evidence.sources)
      if (std::find(evidence.sources.begin(), evidence.sources.end(), source) ==
          evidence.sources.end())
        evidence.sources.push_back(source);
    evidence.known = std::max(evidence.known, part.figure.evidence.known);
  }
  evidence.basis = "mixed of " + joined(texts, "; ");
  return evidence;
}

/// The weighted mean, each percentile from those of the parts.
template <class T>
Cited<T> mean(const std::vector<Weighed<T>>& parts) {
  const auto at = [&](T Range<T>::*percentile) {
    double sum = 0.0;
    for (const Weighed<T>& part : parts) sum += part.weight * (part.figure.range.*percentile).si();
    return T::from_si(sum);
  };
  return {{at(&Range<T>::low), at(&Range<T>::typical), at(&Range<T>::high),
           parts.front().figure.range.by_ratio},
          mixed_evidence(parts)};
}

/// Density of parts that keep their own volumes.
Cited<Density> mean_of_volumes(const std::vector<Weighed<Density>>& parts) {
  const auto at = [&](Density Range<Density>::*percentile) {
    double volume = 0.0;  // of a kilogram
    for (const Weighed<Density>& part : parts)
      volume += part.weight / (part.figure.range.*percentile).si();
    return Density::from_si(1.0 / volume);
  };
  return {{at(&Range<Density>::low), at(&Range<Density>::typical), at(&Range<Density>::high),
           parts.front().figure.range.by_ratio},
          mixed_evidence(parts)};
}

/// The weighted mean of figures that don't depend on each other: the squares of their distances
/// from the median add up.
Cited<Fraction> independent_mean(const std::vector<Weighed<Fraction>>& parts) {
  double typical = 0.0;
  double below = 0.0;
  double above = 0.0;
  for (const Weighed<Fraction>& part : parts) {
    const Range<Fraction>& range = part.figure.range;
    typical += part.weight * range.typical;
    below = std::hypot(below, part.weight * (range.typical - range.low));
    above = std::hypot(above, part.weight * (range.high - range.typical));
  }
  return {{fraction(typical - below), fraction(typical), fraction(typical + above), true},
          mixed_evidence(parts)};
}

/// One entry for each plant, with a figure that `of` gives.
template <class T, class Of>
std::vector<Weighed<T>> weighed(const Parts& parts, const Of& of) {
  std::vector<Weighed<T>> all;
  for (const BlendPart& part : parts) all.push_back({part.plant->name, part.share, of(part.plant)});
  return all;
}

// --- oil

Cited<Fraction> content_if_known(const Plant& plant, State state, const Tables& tables) {
  if (!has_oil_figures(plant)) return {Range<Fraction>::exactly(fraction(0)), {"no oil known", {}}};
  return oil_content_as_received(plant, state, tables);
}

OilContent mixed_oil(const Parts& parts, State state, const Tables& tables) {
  OilContent mixed;
  mixed.by_mass = independent_mean(weighed<Fraction>(
      parts, [&](const Plant& plant) { return content_if_known(plant, state, tables); }));
  return mixed;
}

/// The parts with oil, weighed by their shares of it.
template <class T, class Of>
std::vector<Weighed<T>> weighed_by_oil(const Parts& parts, const std::vector<Fraction>& of_oil,
                                       const Of& of) {
  std::vector<Weighed<T>> all;
  for (std::size_t i = 0; i < parts.size(); ++i)
    if (of_oil[i] > fraction(0))
      all.push_back({parts[i].plant->name, of_oil[i], of(*parts[i].plant)});
  return all;
}

std::vector<Constituent> mixed_constituents(const Parts& parts,
                                            const std::vector<Fraction>& of_oil) {
  std::map<std::string, std::vector<Weighed<Fraction>>> by_liquid;
  for (std::size_t i = 0; i < parts.size(); ++i)
    for (const Constituent& one : parts[i].plant->constituents)
      by_liquid[one.liquid].push_back({parts[i].plant->name, of_oil[i], one.share});
  std::vector<Constituent> all;
  for (auto& [liquid, shares] : by_liquid) all.push_back({liquid, mean(shares)});
  std::stable_sort(all.begin(), all.end(), [](const Constituent& a, const Constituent& b) {
    return a.share.typical() > b.share.typical();
  });
  return all;
}

void mix_oil(Plant& blend, const Tables& tables) {
  const Parts& parts = blend.blend;
  const State state = blend.states.begin()->first;
  const Cut cut = *blend.loaded;
  for (auto& [of_state, figures] : blend.states)
    figures.oil_content = mixed_oil(parts, of_state, tables);
  const std::vector<Fraction> of_oil = oil_shares(blend, state, Method::steam, tables);
  blend.oil_density = mean_of_volumes(weighed_by_oil<Density>(
      parts, of_oil, [](const Plant& plant) { return *plant.oil_density; }));
  blend.constituents = mixed_constituents(parts, of_oil);
  const bool measured = std::any_of(parts.begin(), parts.end(), [](const BlendPart& part) {
    return part.plant->hydrosol_oil.has_value();
  });
  if (measured)
    blend.hydrosol_oil = mean(weighed_by_oil<Density>(
        parts, of_oil, [&](const Plant& plant) { return hydrosol_oil_of(plant, tables).figure; }));
  const auto most = std::max_element(of_oil.begin(), of_oil.end());
  const Plant& leading = *parts[static_cast<std::size_t>(most - of_oil.begin())].plant;
  for (const Method method : {Method::steam, Method::water_and_steam, Method::hydro}) {
    blend.release[method] = release_of(leading, method, cut, tables).release;
    std::vector<Weighed<Fraction>> recovery =
        weighed_by_oil<Fraction>(parts, of_oil, [&](const Plant& plant) {
          return recovery_of(plant, method, oil_content_of(plant, state, tables).distilled, tables)
              .figure;
        });
    blend.recovery[method] = mean(recovery);
  }
  // A smaller part stays dissolved in the rest (from memory: a freezing point falls in a mixture).
  Fraction freezing;
  std::optional<Cited<Temperature>> highest;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const auto& freezes = parts[i].plant->oil_freezes;
    if (!freezes) continue;
    freezing += of_oil[i];
    if (!highest || freezes->typical() > highest->typical()) highest = freezes;
  }
  if (freezing >= fraction(0.5)) blend.oil_freezes = highest;
}

// --- words

/// What each plant says, after its name: "Lavender: … Sage: …".
template <class Of>
std::string of_each(const Parts& parts, const Of& of) {
  std::vector<std::string> texts;
  for (const BlendPart& part : parts)
    if (const std::string text = of(*part.plant); !text.empty())
      texts.push_back(fmt::format("{}: {}", capitalised(part.plant->name), text));
  return joined(texts, " ");
}

template <class Of>
std::vector<std::string> texts_of(const Parts& parts, const Of& of) {
  std::vector<std::string> texts;
  for (const BlendPart& part : parts) {
    const std::string text = of(*part.plant);
    if (!text.empty() && std::find(texts.begin(), texts.end(), text) == texts.end())
      texts.push_back(text);
  }
  return texts;
}

void name(Plant& blend) {
  const Parts& parts = blend.blend;
  const auto all = [&](std::string Plant::*member) {
    return texts_of(parts, [&](const Plant& plant) { return plant.*member; });
  };
  blend.key = joined(all(&Plant::key), "+");
  blend.name = in_a_row(all(&Plant::name), "and");
  blend.latin = in_a_row(all(&Plant::latin), "and");
  blend.part = in_a_row(all(&Plant::part), "and");
  blend.note = of_each(parts, [](const Plant& plant) { return plant.note; });
}

/// The lowest of all oils; none if one of them isn't known, because it may be lower.
std::optional<Cited<Temperature>> lowest_flash_point(const Parts& parts) {
  std::optional<Cited<Temperature>> lowest;
  for (const BlendPart& part : parts) {
    if (!has_oil_figures(part.plant)) continue;
    const auto& flash = part.plant->flash_point;
    if (!flash) return std::nullopt;
    if (!lowest || flash->range.low < lowest->range.low) lowest = flash;
  }
  return lowest;
}

/// Those of each plant after its name. What is said of several plants is said once.
std::vector<Hazard> hazards_of_all(const Parts& parts) {
  std::vector<Hazard> all;
  std::vector<std::vector<std::string>> names;
  for (const BlendPart& part : parts) {
    for (const Hazard& hazard : part.plant->hazards) {
      const auto same = std::find_if(all.begin(), all.end(), [&](const Hazard& other) {
        return other.text == hazard.text && other.harms == hazard.harms;
      });
      const auto place = static_cast<std::size_t>(same - all.begin());
      if (same == all.end()) {
        all.push_back(hazard);
        names.emplace_back();
      }
      names[place].push_back(part.plant->name);
    }
  }
  for (std::size_t i = 0; i < all.size(); ++i)
    all[i].text = fmt::format("{}: {}", capitalised(in_a_row(names[i], "and")), all[i].text);
  return all;
}

void join_advice(Plant& blend) {
  const Parts& parts = blend.blend;
  blend.wants_cohobation = std::any_of(parts.begin(), parts.end(), [](const BlendPart& part) {
    return part.plant->wants_cohobation;
  });
  blend.flash_point = lowest_flash_point(parts);
  blend.hazards = hazards_of_all(parts);
  UsualCut cut;
  cut.sign = of_each(parts, [&](const Plant& plant) {
    if (!plant.usual_cut) return std::string();
    const Evidence& more = plant.usual_cut->evidence;
    cut.evidence.sources.insert(cut.evidence.sources.end(), more.sources.begin(),
                                more.sources.end());
    cut.evidence.known = std::max(cut.evidence.known, more.known);
    return plant.usual_cut->sign;
  });
  if (!cut.sign.empty()) blend.usual_cut = std::move(cut);
  const auto& first = parts.front().plant->best_method;
  const bool agree = std::all_of(parts.begin(), parts.end(), [&](const BlendPart& part) {
    const auto& best = part.plant->best_method;
    return best && first && best->method == first->method;
  });
  if (agree) {
    blend.best_method = first;
    blend.best_method->why =
        of_each(parts, [](const Plant& plant) { return plant.best_method->why; });
  }
}

}  // namespace

std::optional<BlendFault> blend_fault(const Parts& parts) {
  if (parts.size() < 2 || parts.size() > most_plants)
    return BlendFault{counted(parts.size(), "plant", "plants"),
                      fmt::format("2 to {} plants", most_plants)};
  double sum = 0.0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const Plant& plant = *parts[i].plant;
    if (!plant.blend.empty()) return BlendFault{"a blend in a blend", "each plant by itself"};
    for (std::size_t other = 0; other < i; ++other)
      if (parts[other].plant->name == plant.name)
        return BlendFault{plant.name + " twice", "each plant once"};
    sum += parts[i].share;
  }
  if (!(std::abs(sum - 1.0) < 0.0015))  // three thirds, written as 33.3 %
    return BlendFault{fmt::format("shares of {} together", percent_text(fraction(sum))),
                      "shares of 100 % together"};
  if (common_states(parts).empty())
    return BlendFault{"no state that all of these plants have",
                      "plants that all have figures for fresh, or all for dried"};
  return std::nullopt;
}

Plant blended(Parts parts, const Tables& tables) {
  if (const auto fault = blend_fault(parts))
    throw InputError(Fault{"", "/plants", fault->found, fault->wanted, "", 0, 0});
  Plant blend;
  double sum = 0.0;
  for (const BlendPart& part : parts) sum += part.share;
  for (BlendPart& part : parts) part.share = fraction(part.share / sum);
  blend.blend = std::move(parts);
  const Parts& all = blend.blend;
  name(blend);
  const auto form = all.front().plant->form;
  if (std::all_of(all.begin(), all.end(),
                  [&](const BlendPart& part) { return part.plant->form == form; }))
    blend.form = form;
  const std::vector<State> states = common_states(all);
  const Cut cut = default_cut(all.front().plant, states.front());
  const bool one_cut = std::all_of(all.begin(), all.end(), [&](const BlendPart& part) {
    return default_cut(part.plant, states.front()) == cut;
  });
  blend.loaded = one_cut ? cut : Cut::chopped;
  for (const State state : states) {
    PlantState& mixed = blend.states[state];
    mixed.moisture = mean(weighed<Fraction>(
        all, [&](const Plant& plant) { return moisture_of(plant, state, tables).figure; }));
    for (const Word<Cut>& word : words_of<Cut>)
      mixed.bulk_density.push_back(
          {word.value, mean_of_volumes(weighed<Density>(all, [&](const Plant& plant) {
             Cited<Density> bulk = bulk_density_of(plant, state, word.value, tables).figure;
             // A range that was scaled twice can reach further than any material is dense.
             bulk.range.high =
                 std::min(bulk.range.high, grams_per_litre(bounds::bulk_density.high));
             return bulk;
           }))});
  }
  if (std::any_of(all.begin(), all.end(),
                  [](const BlendPart& part) { return part.plant->hydrosol_per_fresh.has_value(); }))
    blend.hydrosol_per_fresh = mean(weighed<SpecificVolume>(all, [&](const Plant& plant) {
      return plant.hydrosol_per_fresh.value_or(tables.design_defaults.hydrosol_per_fresh);
    }));
  if (std::any_of(all.begin(), all.end(),
                  [](const BlendPart& part) { return has_oil_figures(part.plant); }))
    mix_oil(blend, tables);
  join_advice(blend);
  return blend;
}

}  // namespace firstdrop
