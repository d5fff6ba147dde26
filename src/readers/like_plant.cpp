#include "readers/like_plant.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/text_layout.hpp"
#include "base/words.hpp"
#include "quantity/normal.hpp"
#include "readers/fields.hpp"
#include "tables/words.hpp"

namespace firstdrop {
namespace {

/// Adds to the figure's evidence that it is another plant's.
template <class T>
Cited<T> borrowed(Cited<T> figure, const std::string& from) {
  figure.evidence.basis = "of " + from + ": " + figure.evidence.basis;
  figure.evidence.known = std::max(figure.evidence.known, Known::computed);
  return figure;
}

/// Each end as far away from the median as it is, and as plants of one form are, together.
template <class T>
Cited<T> widened(Cited<T> content, const Cited<Fraction>& between_plants, const std::string& from) {
  const double apart = p90_in_sd * double(between_plants.typical());
  Range<T>& range = content.range;
  const auto times = [&](T end) {
    return std::exp(std::hypot(std::log(double(end / range.typical)), apart));
  };
  range = {range.typical / times(range.low), range.typical, range.typical * times(range.high),
           range.by_ratio};
  content.evidence.basis = "of " + from + ", with a range as wide as between plants of one form: " +
                           content.evidence.basis;
  content.evidence.known = std::max(content.evidence.known, Known::computed);
  return content;
}

PlantState borrowed_state(PlantState state, const Cited<Fraction>& between_plants,
                          const std::string& from) {
  if (state.moisture) state.moisture = borrowed(*state.moisture, from);
  for (BulkDensity& bulk : state.bulk_density) bulk.density = borrowed(bulk.density, from);
  if (!state.oil_content) return state;
  OilContent& content = *state.oil_content;
  if (content.by_mass) content.by_mass = widened(*content.by_mass, between_plants, from);
  if (content.by_volume) content.by_volume = widened(*content.by_volume, between_plants, from);
  content.studies = 0.0;
  content.trials = 0.0;
  return state;
}

/// What is known of a plant of this form and nothing else.
Plant any_of_form(PlantForm form, const FormDefaults& defaults) {
  Plant any;
  any.part = spaced(to_string(form));
  any.form = form;
  any.states = defaults.states;
  for (auto& [state, figures] : any.states) {  // the form itself has them
    figures.moisture.reset();
    figures.bulk_density.clear();
  }
  if (defaults.oil_density) any.oil_density = *defaults.oil_density;
  any.release_class = defaults.release_class;
  return any;
}

/// What is known of this plant and may be so of one that is like it.
Plant borrowed_from(const Plant& near, const DesignDefaults& defaults) {
  Plant other = near;
  for (auto& [state, figures] : other.states)
    figures = borrowed_state(std::move(figures), defaults.between_plants, near.name);
  for (auto& [method, release] : other.release)
    release.half_life = borrowed(release.half_life, near.name);
  for (auto& [method, share] : other.recovery) share = borrowed(share, near.name);
  if (near.oil_density) other.oil_density = borrowed(*near.oil_density, near.name);
  return other;
}

template <class T>
void take(std::optional<T>& own, const std::optional<T>& other) {
  if (!own) own = other;
}

}  // namespace

Plant completed_by_like(Plant plant, const Tables& tables) {
  if (plant.like.empty()) return plant;
  Plant other;
  const auto form = value_of<PlantForm>(plant.like);
  if (const auto near = tables.plants.find(plant.like); near != tables.plants.end()) {
    other = borrowed_from(near->second, tables.design_defaults);
  } else if (form && tables.forms.contains(*form)) {
    other = any_of_form(*form, tables.forms.at(*form));
  } else {
    return plant;
  }
  if (plant.part.empty()) plant.part = other.part;
  take(plant.form, other.form);
  take(plant.loaded, other.loaded);
  if (plant.release_class.empty() && plant.release.empty()) {
    plant.release_class = other.release_class;
    plant.release = other.release;
  }
  // Its own oil content counts, in whichever state.
  const bool has_oil = has_oil_figures(plant);
  for (auto& [state, figures] : other.states) {
    PlantState& own = plant.states[state];
    take(own.moisture, figures.moisture);
    if (own.bulk_density.empty()) own.bulk_density = figures.bulk_density;
    if (!has_oil) take(own.oil_content, figures.oil_content);
  }
  plant.recovery.insert(other.recovery.begin(), other.recovery.end());
  take(plant.oil_density, other.oil_density);
  if (plant.constituents.empty()) plant.constituents = other.constituents;
  take(plant.unsuited, other.unsuited);
  take(plant.hydrosol_per_fresh, other.hydrosol_per_fresh);
  for (Hazard hazard : other.hazards) {
    hazard.text = fmt::format("It may be as with {}: {}", other.name, hazard.text);
    plant.hazards.push_back(std::move(hazard));
  }
  take(plant.oil_freezes, other.oil_freezes);
  take(plant.best_method, other.best_method);
  return plant;
}

std::vector<std::string> names_to_be_like(const Tables& tables) {
  std::vector<std::string> names = all_words<PlantForm>();
  for (const auto& [key, plant] : tables.plants)
    if (!is_refused(plant)) names.push_back(key);
  return names;
}

}  // namespace firstdrop
