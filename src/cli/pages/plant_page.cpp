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
#include "quantity/numbers_text.hpp"
#include "quantity/range_text.hpp"
#include "quantity/unit_factors.hpp"
#include "readers/plant_parameters.hpp"

namespace firstdrop::cli {
namespace {

constexpr int fact_label_width = 13;
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
                 ? (studies < 1.5 ? std::string("Its authors didn't distil the plant themselves.")
                                  : std::string("In none of them did the authors distil the plant "
                                                "themselves."))
             : trials > studies - 0.5
                 ? std::string("Their authors distilled the plant themselves.")
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

// What people ask of a plant before they distil it.
class Answers {
 public:
  Answers(const Plant& plant, const Tables& tables, Units units)
      : plant_(plant), tables_(tables), units_(units), oil_(has_oil_figures(plant)) {}

  std::string room() const { return us() ? "quart" : "litre"; }
  std::string herb_weight() const { return us() ? "lb" : "kg"; }

  /// "140 g (80 to 183 g) fresh, whole", in a litre or quart of room.
  std::string fits(State state) const {
    const Cut cut = default_cut(plant_, state);
    const Volume room = us() ? millilitres(millilitre_per_quart) : litres(1);
    return fmt::format("{} {}, {}",
                       span(bulk_density_of(plant_, state, cut, tables_).figure.range,
                            [&](Density bulk) { return text(bulk * room, units_); }),
                       to_string(state), to_string(cut));
  }

  /// "fresh, 1.5 L of hydrosol (1 to 2.6 L) and 6.2 g of oil (2.3 to 17 g)", from a kilogram or
  /// pound.
  std::string comes(State state) const {
    return fmt::format(
        "{}, {} of hydrosol{}", to_string(state),
        span(customary_hydrosol_of(plant_, state, tables_).figure.range,
             [&](SpecificVolume per_herb) { return text(per_herb * herb(), units_); }),
        oil_from(state));
  }

  std::string how_long() const {
    std::string words;
    if (oil_) {
      const ChosenRelease chosen = release_of(plant_, best_method(plant_), Cut::crushed, tables_);
      const Range<Duration>& half = chosen.release.half_life.range;
      words = fmt::format("Half of the oil comes within about {} of the first drop ({} to {}){}. ",
                          text(half.typical), text(half.low), text(half.high),
                          plant_.release_class == "seed" ? ", crushed" : "");
    }
    if (plant_.usual_cut && plant_.usual_cut->time) {
      const Range<Duration>& time = plant_.usual_cut->time->range;
      words += fmt::format("Others stop {} to {} after it.", text(time.low), text(time.high));
    } else if (!oil_) {
      words = "No times are published here: go by the amount of hydrosol and by its smell.";
    }
    return words;
  }

  std::string what_to_watch() const {
    std::string words;
    if (plant_.best_method)
      words = fmt::format("Distil it {}. {} ", in_words(plant_.best_method->method),
                          plant_.best_method->why);
    if (plant_.usual_cut) words += plant_.usual_cut->sign + " ";
    if (oil_) words += where_the_oil_is() + " " + oil_in_hydrosol();
    return words;
  }

 private:
  bool us() const { return units_ == Units::us; }

  template <class T, class Text>
  static std::string span(const Range<T>& range, const Text& text_of) {
    return text_of(range.typical) + " (" + span_text(text_of(range.low), text_of(range.high)) + ")";
  }

  Mass herb() const { return kilograms(us() ? kilogram_per_pound : 1); }

  // As received, in a small still.
  std::string oil_from(State state) const {
    if (!oil_) return "";
    const Distilled distilled = oil_content_of(plant_, state, tables_).distilled;
    const Fraction recovery =
        recovery_of(plant_, best_method(plant_), distilled, tables_).figure.typical();
    const auto oil_of = [&](Fraction share) { return text(herb() * share * recovery, units_); };
    return " and " + span(oil_content_as_received(plant_, state, tables_).range, oil_of) +
           " of oil";
  }

  std::string where_the_oil_is() const {
    const OilPlace at = oil_place(plant_);
    std::string place = at == OilPlace::sinks ? "The oil sinks in the hydrosol"
                        : at == OilPlace::near_water
                            ? "The oil is about as heavy as the hydrosol: it floats, sinks or hangs"
                            : "The oil floats on the hydrosol";
    if (plant_.oil_freezes)
      place +=
          fmt::format(" and can set solid near {}", text(plant_.oil_freezes->typical(), units_));
    return place + ".";
  }

  std::string oil_in_hydrosol() const {
    const Range<Density> dissolved = hydrosol_oil_of(plant_, tables_).figure.range;
    return fmt::format("A litre of hydrosol keeps about {:.0f} mg of it ({:.0f} to {:.0f}){}.",
                       in_milligrams_per_litre(dissolved.typical),
                       in_milligrams_per_litre(dissolved.low),
                       in_milligrams_per_litre(dissolved.high),
                       plant_.wants_cohobation ? ", much of all there is" : "");
  }

  const Plant& plant_;
  const Tables& tables_;
  Units units_;
  bool oil_;
};

std::string facts(const Plant& plant, const Tables& tables, Units units) {
  const Look look = look_of_stdout("auto");
  TerminalPage page(look, fact_label_width);
  page.title("In short");
  const bool refused = is_refused(plant);
  if (plant.unsuited)
    page.row(refused ? "Don't distil" : "Steam spoils", in_words(*plant.unsuited));
  if (!refused) {
    const Answers answers(plant, tables, units);
    std::string label = "1 " + answers.room() + " holds";
    for (const auto& entry : plant.states) {
      page.row(label, answers.fits(entry.first));
      label.clear();
    }
    label = "1 " + answers.herb_weight() + " gives";
    for (const auto& entry : plant.states) {
      page.row(label, answers.comes(entry.first));
      label.clear();
    }
    if (const std::string sure = certainty_words(plant); !sure.empty()) page.row("How sure", sure);
    page.row("How long", answers.how_long());
    page.row("Watch", answers.what_to_watch());
  }
  for (std::size_t i = 0; i < plant.hazards.size(); ++i)
    page.row(i == 0 ? "Beware" : "", plant.hazards[i].text);
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
  if (!own.oil_content && has_oil_figures(plant)) {
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
  if (!has_oil_figures(plant)) return all;
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
