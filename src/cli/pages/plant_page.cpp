#include "cli/pages/plant_page.hpp"

#include <fmt/core.h>

#include <set>
#include <vector>

#include "base/text_layout.hpp"
#include "cli/terminal.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "model/plant_parameters.hpp"
#include "physics/basis.hpp"
#include "quantity/numbers_text.hpp"
#include "quantity/unit_factors.hpp"

namespace firstdrop::cli {
namespace {

// The main facts of the entry.
class Summary {
 public:
  Summary(const Plant& plant, const Tables& tables, Units units)
      : plant_(plant), tables_(tables), units_(units) {}

  std::string write() {
    out_ = styled("In short", Style::strong, look_) + "\n";
    row(units_ == Units::us ? "From 1 lb" : "From 1 kg", oil_words());
    if (const std::string sure = certainty_words(); !sure.empty()) row("How sure", sure);
    row("Comes", release_words());
    row("The oil", place_words());
    const Range<Density> hydrosol = hydrosol_oil_of(plant_, tables_).figure.range;
    row("Hydrosol",
        fmt::format("keeps about {:.0f} mg of oil per litre ({:.0f} to {:.0f})",
                    in_milligrams_per_litre(hydrosol.typical),
                    in_milligrams_per_litre(hydrosol.low), in_milligrams_per_litre(hydrosol.high)));
    if (plant_.best_method) row("Best", in_words(plant_.best_method->method));
    if (plant_.usual_cut) {
      const auto& time = plant_.usual_cut->time;
      row("Stop",
          (time ? fmt::format("after {} to {}. ", text(time->range.low), text(time->range.high))
                : std::string()) +
              plant_.usual_cut->sign);
    }
    std::set<Harm> harms;
    for (const Hazard& hazard : plant_.hazards)
      harms.insert(hazard.harms.begin(), hazard.harms.end());
    std::vector<std::string> words;
    for (const Harm harm : harms) words.push_back(to_string(harm));
    row("Hazards", fmt::format("{}; see below", joined(words, ", ")));
    return out_;
  }

 private:
  void row(const std::string& label, const std::string& words) {
    out_ += wrapped("  " + padded(label, 10) + " ", words, look_);
  }

  // What the oil content rests on; empty if the entry doesn't say.
  std::string certainty_words() const {
    for (const auto& [state, figures] : plant_.states) {
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

  Method best() const { return plant_.best_method ? plant_.best_method->method : Method::steam; }

  // Oil from 1 kg or 1 lb of material, on an as-received basis, in a small still.
  std::string oil_words() const {
    std::string all;
    for (const auto& [state, figures] : plant_.states) {
      const ChosenOilContent content = oil_content_of(plant_, state, tables_);
      const Fraction moisture = moisture_of(plant_, state, tables_).figure.typical();
      const Fraction recovery =
          recovery_of(plant_, best(), content.distilled, tables_).figure.typical();
      const auto grams_of = [&](Fraction share) {
        if (content.per == OilPer::dry_matter) share = per_as_received(share, moisture);
        const Mass herb = kilograms(units_ == Units::us ? kilogram_per_pound : 1);
        return text(herb * share * recovery, units_);
      };
      const Range<Fraction>& range = content.figure.range;
      all += fmt::format("{}{} {} of oil ({} to {})", all.empty() ? "" : ", ", to_string(state),
                         grams_of(range.typical), grams_of(range.low), grams_of(range.high));
    }
    return all + " in a small still";
  }

  std::string release_words() const {
    const ChosenRelease chosen = release_of(plant_, best(), Cut::crushed, tables_);
    const Range<Duration>& half = chosen.release.half_life.range;
    return fmt::format("half of it in about {} ({} to {}){}", text(half.typical), text(half.low),
                       text(half.high), plant_.release_class == "seed" ? ", crushed" : "");
  }

  std::string place_words() const {
    const OilPlace at = oil_place(plant_);
    std::string place = at == OilPlace::sinks ? "sinks in the hydrosol"
                        : at == OilPlace::near_water
                            ? "is about as heavy as the hydrosol: floats, sinks or hangs"
                            : "floats on the hydrosol";
    if (plant_.oil_freezes) {
      place +=
          fmt::format("; can set solid near {:.0f} °C", in_celsius(plant_.oil_freezes->typical()));
    }
    if (plant_.wants_cohobation) place += "; much of it stays in the water (cohobation)";
    return place;
  }

  const Plant& plant_;
  const Tables& tables_;
  Units units_;
  Look look_ = look_of_stdout("auto");
  std::string out_;
};

// The default values for figures that a plant's entry lacks.
class DefaultsPage {
 public:
  DefaultsPage(const Plant& plant, const Tables& tables) : plant_(plant), tables_(tables) {}

  std::string write() {
    for (const auto& [state, figures] : plant_.states) {
      const std::string of = to_string(state) + " ";
      if (!figures.moisture) {
        show(of + "moisture", moisture_of(plant_, state, tables_), in_percent, "%");
      }
      if (plant_.form) show_bulk_densities(state, tables_.forms.at(*plant_.form));
      if (!figures.oil_content) {
        ChosenOilContent content = oil_content_of(plant_, state, tables_);
        content.figure.evidence.basis.clear();  // shown above, with its state
        content.figure.evidence.sources.clear();
        show(of + (content.per == OilPer::dry_matter ? "oil content of the dry matter"
                                                     : "oil content"),
             content, in_percent, "%");
      }
    }
    for (const Method method : {Method::steam, Method::water_and_steam, Method::hydro}) {
      for (const Cut cut : {Cut::crushed, Cut::whole}) {
        // Only seed releases its oil differently by its cut.
        if (cut == Cut::whole && plant_.release_class != "seed") continue;
        ChosenRelease chosen = release_of(plant_, method, cut, tables_);
        if (chosen.method != method) {  // already shown there
          chosen.release.half_life.evidence.basis.clear();
          chosen.release.half_life.evidence.sources.clear();
        }
        const std::string name =
            fmt::format("half-life of release, {}{}", to_string(method),
                        plant_.release_class == "seed" ? ", " + to_string(cut) : "");
        show(name, Chosen<Duration>{chosen.release.half_life, chosen.default_used}, in_minutes,
             "min");
        if (chosen.release.steam_flow) {
          show("steam flow of that, " + to_string(method),
               Chosen<Rate>{*chosen.release.steam_flow, chosen.default_used}, in_per_hour,
               "kg/(h kg)");
        }
      }
    }
    for (const Method method : {Method::steam, Method::water_and_steam, Method::hydro}) {
      show("recovery by " + to_string(method),
           recovery_of(plant_, method, Distilled::to_exhaustion, tables_), in_percent, "%");
    }
    if (!plant_.flash_point) {
      line("flash point",
           "none published here; take it as 30 to 95 °C, as most essential oils have "
           "[common-practice]");
    }
    show("oil in the hydrosol", hydrosol_oil_of(plant_, tables_), in_milligrams_per_litre, "mg/L");
    return out_;
  }

  const std::set<std::string>& sources() const { return sources_; }

 private:
  // Three digits, never with an exponent.
  static std::string digits(double number) {
    return number >= 1000 ? fmt::format("{:.0f}", number) : fmt::format("{:.3g}", number);
  }

  void line(const std::string& name, const std::string& text) {
    out_ += "  " + name + "\n" + wrapped("      ", text, look_);
  }

  // The cuts that the form has. A cut that neither has is scaled from another, so there is no
  // figure to show.
  void show_bulk_densities(State state, const FormDefaults& form) {
    const auto found = form.states.find(state);
    if (found == form.states.end()) return;
    for (const BulkDensity& density : found->second.bulk_density) {
      show(fmt::format("{} bulk density, {}", to_string(state), to_string(density.cut)),
           bulk_density_of(plant_, state, density.cut, tables_), in_grams_per_litre, "g/L");
    }
  }

  // Skips the plant's own figures, because its entry already shows them.
  template <class T, class Unit>
  void show(const std::string& name, const Chosen<T>& chosen, Unit in_unit, const char* unit) {
    if (chosen.default_used.empty()) return;
    const Range<T>& range = chosen.figure.range;
    const Evidence& evidence = chosen.figure.evidence;
    sources_.insert(evidence.sources.begin(), evidence.sources.end());
    std::string words = fmt::format("{} ({} to {}) {}; {}", digits(in_unit(range.typical)),
                                    digits(in_unit(range.low)), digits(in_unit(range.high)), unit,
                                    chosen.default_used);
    if (!evidence.basis.empty()) words += "; " + evidence.basis;
    line(name, words + " " + bracket(to_string(evidence.known), joined(evidence.sources, ", ")));
  }

  const Plant& plant_;
  const Tables& tables_;
  Look look_ = look_of_stdout("never");
  std::set<std::string> sources_;
  std::string out_;
};

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

std::string source_list(const std::set<std::string>& keys, const Tables& tables) {
  const Look look = look_of_stdout("never");
  std::string out = "\nSources\n";
  for (const std::string& key : keys) {
    const Source& source = tables.sources.at(key);
    out += wrapped("  " + key + "  ",
                   source.citation + (source.link.empty() ? "" : ", " + source.link), look);
  }
  return out;
}

}  // namespace

std::string plant_page(const std::string& key, const Json& entry, const Tables& tables,
                       Units units) {
  std::string page = Summary(tables.plants.at(key), tables, units).write() + "\n";
  page += entry_page(key, entry, units);
  DefaultsPage defaults(tables.plants.at(key), tables);
  page += "\nWhere this entry is silent, these serve, and a plan says so\n" + defaults.write();
  page += "\nIn brackets: how a figure is known, and the keys of its sources.\n";
  std::set<std::string> keys = defaults.sources();
  collect_sources(entry, keys);
  return page + source_list(keys, tables);
}

}  // namespace firstdrop::cli
