#include "cli/pages/plant_page.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <set>
#include <utility>
#include <vector>

#include "base/text_layout.hpp"
#include "cli/pages/terminal_page.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "physics/basis.hpp"
#include "quantity/numbers_text.hpp"
#include "quantity/unit_factors.hpp"
#include "readers/plant_parameters.hpp"

namespace firstdrop::cli {
namespace {

constexpr int fact_label_width = 10;
constexpr std::array all_methods = {Method::steam, Method::water_and_steam, Method::hydro};

// ---- the main facts of the entry

// What the oil content rests on; empty if the entry doesn't say.
std::string certainty_words(const Plant& plant) {
  for (const auto& [state, figures] : plant.states) {
    if (!figures.oil_content || !figures.oil_content->studies) continue;
    const OilContent& content = *figures.oil_content;
    const Evidence& evidence =
        content.by_mass ? content.by_mass->evidence : content.by_volume->evidence;
    const double studies = std::max(*content.studies, double(evidence.sources.size()));
    const double trials = content.trials.value_or(0);
    std::string words =
        fmt::format("A range is meant to hold 8 runs in 10. These come from {:.0f} {}. ", studies,
                    studies < 1.5 ? "study" : "studies");
    words += trials < 0.5
                 ? "In none of them did the authors distil the plant themselves."
                 : fmt::format("In {:.0f} the authors distilled the plant themselves.", trials);
    if (*content.studies < 2.5) {  // our choice
      words +=
          " That is few. Distil one full batch, weigh all its oil, and put its share of the "
          "herb's weight into the recipe as own.oil_content.";
    }
    return words;
  }
  return "";
}

Method best_method(const Plant& plant) {
  return plant.best_method ? plant.best_method->method : Method::steam;
}

// Oil from 1 kg or 1 lb of material, on an as-received basis, in a small still.
std::string oil_words(const Plant& plant, const Tables& tables, Units units) {
  std::string all;
  for (const auto& [state, figures] : plant.states) {
    const ChosenOilContent content = oil_content_of(plant, state, tables);
    const Fraction moisture = moisture_of(plant, state, tables).figure.typical();
    const Fraction recovery =
        recovery_of(plant, best_method(plant), content.distilled, tables).figure.typical();
    const auto grams_of = [&](Fraction share) {
      if (content.per == OilPer::dry_matter) share = per_as_received(share, moisture);
      const Mass herb = kilograms(units == Units::us ? kilogram_per_pound : 1);
      return text(herb * share * recovery, units);
    };
    const Range<Fraction>& range = content.figure.range;
    all += fmt::format("{}{} {} of oil ({} to {})", all.empty() ? "" : ", ", to_string(state),
                       grams_of(range.typical), grams_of(range.low), grams_of(range.high));
  }
  return all + " in a small still";
}

std::string release_words(const Plant& plant, const Tables& tables) {
  const ChosenRelease chosen = release_of(plant, best_method(plant), Cut::crushed, tables);
  const Range<Duration>& half = chosen.release.half_life.range;
  return fmt::format("half of it in about {} ({} to {}){}", text(half.typical), text(half.low),
                     text(half.high), plant.release_class == "seed" ? ", crushed" : "");
}

std::string place_words(const Plant& plant) {
  const OilPlace at = oil_place(plant);
  std::string place = at == OilPlace::sinks ? "sinks in the hydrosol"
                      : at == OilPlace::near_water
                          ? "is about as heavy as the hydrosol: floats, sinks or hangs"
                          : "floats on the hydrosol";
  if (plant.oil_freezes) {
    place +=
        fmt::format("; can set solid near {:.0f} °C", in_celsius(plant.oil_freezes->typical()));
  }
  if (plant.wants_cohobation) place += "; much of it stays in the water (cohobation)";
  return place;
}

std::string hydrosol_words(const Plant& plant, const Tables& tables) {
  const Range<Density> hydrosol = hydrosol_oil_of(plant, tables).figure.range;
  return fmt::format("keeps about {:.0f} mg of oil per litre ({:.0f} to {:.0f})",
                     in_milligrams_per_litre(hydrosol.typical),
                     in_milligrams_per_litre(hydrosol.low), in_milligrams_per_litre(hydrosol.high));
}

std::string usual_cut_words(const UsualCut& cut) {
  if (!cut.time) return cut.sign;
  return fmt::format("after {} to {}. {}", text(cut.time->range.low), text(cut.time->range.high),
                     cut.sign);
}

std::string harms_in_words(const Plant& plant) {
  std::set<Harm> harms;
  for (const Hazard& hazard : plant.hazards) harms.insert(hazard.harms.begin(), hazard.harms.end());
  std::vector<std::string> words;
  for (const Harm harm : harms) words.push_back(to_string(harm));
  return fmt::format("{}; see below", joined(words, ", "));
}

std::string facts(const Plant& plant, const Tables& tables, Units units) {
  const Look look = look_of_stdout("auto");
  TerminalPage page(look, fact_label_width);
  page.title("In short");
  page.row(units == Units::us ? "From 1 lb" : "From 1 kg", oil_words(plant, tables, units));
  if (const std::string sure = certainty_words(plant); !sure.empty()) page.row("How sure", sure);
  page.row("Comes", release_words(plant, tables));
  page.row("The oil", place_words(plant));
  page.row("Hydrosol", hydrosol_words(plant, tables));
  if (plant.best_method) page.row("Best", in_words(plant.best_method->method));
  if (plant.usual_cut) page.row("Stop", usual_cut_words(*plant.usual_cut));
  page.row("Hazards", harms_in_words(plant));
  return page.written();
}

// ---- the default values for figures that a plant's entry lacks

struct DefaultFigure {
  std::string name;
  std::string words;
  std::vector<std::string> sources;
};
using DefaultFigures = std::vector<DefaultFigure>;

void append_figures(DefaultFigures& to, DefaultFigures more) {
  std::move(more.begin(), more.end(), std::back_inserter(to));
}

// Three digits, never with an exponent.
std::string three_digits(double number) {
  return number >= 1000 ? fmt::format("{:.0f}", number) : fmt::format("{:.3g}", number);
}

// None for the plant's own figure, because its entry already shows it.
template <class T, class Unit>
DefaultFigures default_figure(const std::string& name, const Chosen<T>& chosen, Unit in_unit,
                              const char* unit) {
  if (chosen.default_used.empty()) return {};
  const Range<T>& range = chosen.figure.range;
  const Evidence& evidence = chosen.figure.evidence;
  const auto digits = [&](T value) { return three_digits(in_unit(value)); };
  const std::string basis = evidence.basis.empty() ? "" : "; " + evidence.basis;
  return {{name,
           fmt::format("{} ({} to {}) {}; {}{} {}", digits(range.typical), digits(range.low),
                       digits(range.high), unit, chosen.default_used, basis,
                       bracket(to_string(evidence.known), joined(evidence.sources, ", "))),
           evidence.sources}};
}

// Clears what is shown already, with another figure.
void clear_evidence(Evidence& evidence) {
  evidence.basis.clear();
  evidence.sources.clear();
}

// The cuts that the form has. A cut that neither has is scaled from another, so there is no figure
// to show.
DefaultFigures default_bulk_densities(const Plant& plant, State state, const Tables& tables) {
  if (!plant.form) return {};
  const FormDefaults& form = tables.forms.at(*plant.form);
  const auto found = form.states.find(state);
  if (found == form.states.end()) return {};
  DefaultFigures all;
  for (const BulkDensity& density : found->second.bulk_density) {
    append_figures(
        all, default_figure(
                 fmt::format("{} bulk density, {}", to_string(state), to_string(density.cut)),
                 bulk_density_of(plant, state, density.cut, tables), in_grams_per_litre, "g/L"));
  }
  return all;
}

DefaultFigures defaults_of_state(const Plant& plant, State state, const PlantState& own,
                                 const Tables& tables) {
  const std::string of = to_string(state) + " ";
  DefaultFigures all;
  if (!own.moisture) {
    append_figures(
        all, default_figure(of + "moisture", moisture_of(plant, state, tables), in_percent, "%"));
  }
  append_figures(all, default_bulk_densities(plant, state, tables));
  if (!own.oil_content) {
    ChosenOilContent content = oil_content_of(plant, state, tables);
    clear_evidence(content.figure.evidence);  // shown above, with its state
    const char* name =
        content.per == OilPer::dry_matter ? "oil content of the dry matter" : "oil content";
    append_figures(all, default_figure(of + name, content, in_percent, "%"));
  }
  return all;
}

DefaultFigures default_release(const Plant& plant, Method method, Cut cut, const Tables& tables) {
  ChosenRelease chosen = release_of(plant, method, cut, tables);
  // Otherwise it is already shown there.
  if (chosen.method != method) clear_evidence(chosen.release.half_life.evidence);
  DefaultFigures all = default_figure(
      fmt::format("half-life of release, {}{}", to_string(method),
                  plant.release_class == "seed" ? ", " + to_string(cut) : ""),
      Chosen<Duration>{chosen.release.half_life, chosen.default_used}, in_minutes, "min");
  if (chosen.release.steam_flow) {
    append_figures(all,
                   default_figure("steam flow of that, " + to_string(method),
                                  Chosen<Rate>{*chosen.release.steam_flow, chosen.default_used},
                                  in_per_hour, "kg/(h kg)"));
  }
  return all;
}

DefaultFigures default_figures(const Plant& plant, const Tables& tables) {
  DefaultFigures all;
  for (const auto& [state, figures] : plant.states) {
    append_figures(all, defaults_of_state(plant, state, figures, tables));
  }
  for (const Method method : all_methods) {
    append_figures(all, default_release(plant, method, Cut::crushed, tables));
    // Only seed releases its oil differently by its cut.
    if (plant.release_class == "seed") {
      append_figures(all, default_release(plant, method, Cut::whole, tables));
    }
  }
  for (const Method method : all_methods) {
    append_figures(all, default_figure("recovery by " + to_string(method),
                                       recovery_of(plant, method, Distilled::to_exhaustion, tables),
                                       in_percent, "%"));
  }
  if (!plant.flash_point) {
    all.push_back({"flash point",
                   "none published here; take it as 30 to 95 °C, as most essential oils have "
                   "[common-practice]",
                   {}});
  }
  append_figures(all, default_figure("oil in the hydrosol", hydrosol_oil_of(plant, tables),
                                     in_milligrams_per_litre, "mg/L"));
  return all;
}

// ---- sources

// The keys of all sources that an entry names.
void collect_sources(const Json& node, std::set<std::string>& keys) {
  if (!node.is_structured()) return;
  for (const auto& [name, value] : node.items()) {
    if (name == "source" && value.is_string()) {
      keys.insert(value.get<std::string>());
    } else if (name == "source" && value.is_array()) {
      for (const Json& key : value) keys.insert(key.get<std::string>());
    } else {
      collect_sources(value, keys);
    }
  }
}

}  // namespace

std::string plant_page(const std::string& key, const Json& entry, const Tables& tables,
                       Units units) {
  const Plant& plant = tables.plants.at(key);
  const Look look = look_of_stdout("never");
  TerminalPage page(look);
  page.add(facts(plant, tables, units) + "\n" + entry_page(key, entry, units));
  page.add("\nWhere this entry is silent, these serve, and a plan says so\n");
  std::set<std::string> sources;
  collect_sources(entry, sources);
  for (const DefaultFigure& figure : default_figures(plant, tables)) {
    page.add("  " + figure.name + "\n");
    page.line("      ", figure.words);
    sources.insert(figure.sources.begin(), figure.sources.end());
  }
  page.add("\nIn brackets: how a figure is known, and the keys of its sources.\n\nSources\n");
  for (const std::string& source_key : sources) {
    const Source& source = tables.sources.at(source_key);
    page.line("  " + source_key + "  ",
              source.citation + (source.link.empty() ? "" : ", " + source.link));
  }
  return page.written();
}

}  // namespace firstdrop::cli
