#include "firstdrop/figures.hpp"

#include <cmath>
#include <utility>

#include "firstdrop/error.hpp"
#include "firstdrop/plant_figures.hpp"

namespace firstdrop {
namespace {

// What the readers see to for files, for stills and plants that a program makes: that figures have
// been set, as far as a run would be nonsense without them, and that what they name is known.
class Soundness {
 public:
  explicit Soundness(const Library& library) : library_(library) {}

  void check(const Still& still, Method method) {
    material("/still/pot/material", still.pot.material);
    above_zero("/still/pot/volume", still.pot.volume);
    above_zero("/still/pot/diameter", still.pot.diameter);
    not_below_zero("/still/pot/mass", still.pot.mass);
    above_zero("/still/pot/fill_limit", still.pot.fill_limit);
    not_below_zero("/still/pot/minimum_water", still.pot.minimum_water);
    if (method == Method::steam && still.column) {
      material("/still/column/material", still.column->material);
      above_zero("/still/column/volume", still.column->volume);
      above_zero("/still/column/diameter", still.column->diameter);
      not_below_zero("/still/column/mass", still.column->mass);
    }
    if (method == Method::water_and_steam && still.grid) {
      above_zero("/still/grid/water_below", still.grid->water_below);
      above_zero("/still/grid/space", still.grid->space);
    }
    if (still.grid) not_below_zero("/still/grid/mass", still.grid->mass);
    material("/still/head/material", still.head.material);
    not_below_zero("/still/head/mass", still.head.mass);
    not_below_zero("/still/head/surface", still.head.surface);
    above_zero("/still/heater/power", still.heater.power);
    if (still.heater.efficiency) above_zero("/still/heater/efficiency", *still.heater.efficiency);
    const Condenser& condenser = still.condenser;
    material("/still/condenser/wall", condenser.wall);
    above_zero("/still/condenser/surface", condenser.surface);
    above_ice("/still/condenser/outlet", condenser.outlet);
    above_ice("/still/condenser/coolant_limit", condenser.coolant_limit);
    if (condenser.coolant) above_zero("/still/condenser/coolant", *condenser.coolant);
    if (condenser.ice_per_change)
      not_below_zero("/still/condenser/ice_per_change", *condenser.ice_per_change);
    if (condenser.flow_limit) above_zero("/still/condenser/flow_limit", *condenser.flow_limit);
    not_below_zero("/still/wall_hold_up", still.wall_hold_up);
  }

  void check(const Plant& plant) {
    above_zero("/plant/oil_density", plant.oil_density);
    for (const Constituent& constituent : plant.constituents) {
      const std::string pointer = "/plant/constituents/" + constituent.liquid;
      if (!library_.liquids.contains(constituent.liquid))
        fault(pointer, "an unknown liquid", "a key of the liquid table");
      not_below_zero(pointer, constituent.share);
    }
    for (const auto& [state, of_state] : plant.states) {
      const std::string pointer = "/plant/states/" + to_string(state);
      if (of_state.moisture) not_below_zero(pointer + "/moisture", *of_state.moisture);
      for (const BulkDensity& bulk : of_state.bulk_density)
        above_zero(pointer + "/bulk_density", bulk.density);
      if (!of_state.oil_content) continue;
      const OilContent& content = *of_state.oil_content;
      if (content.by_mass.has_value() == content.by_volume.has_value())
        fault(pointer + "/oil_content", "both figures or none", "either by mass or by volume");
      if (content.by_mass) not_below_zero(pointer + "/oil_content", *content.by_mass);
      if (content.by_volume) not_below_zero(pointer + "/oil_content", *content.by_volume);
    }
    for (const auto& [method, release] : plant.release)
      above_zero("/plant/release/" + to_string(method) + "/half_time", release.half_time);
  }

  // Throws InputError if anything was wrong.
  void finish() {
    if (!faults_.empty()) throw InputError(std::move(faults_));
  }

 private:
  void fault(std::string pointer, const char* found, const char* wanted) {
    faults_.push_back({"", std::move(pointer), found, wanted, "", 0, 0});
  }
  void material(const char* pointer, const std::string& key) {
    if (!library_.materials.contains(key))
      fault(pointer, "an unknown material", "a key of the material table");
  }
  // Written so that what is not a number is a fault as well.
  template <class T>
  void above_zero(std::string pointer, const Cited<T>& figure) {
    const Range<T>& range = figure.range;
    if (!(range.ordered() && range.low.si() > 0.0 && std::isfinite(range.high.si())))
      fault(std::move(pointer), "no such amount", "a range above 0, low to high");
  }
  template <class T>
  void not_below_zero(std::string pointer, const Cited<T>& figure) {
    const Range<T>& range = figure.range;
    if (!(range.ordered() && range.low.si() >= 0.0 && std::isfinite(range.high.si())))
      fault(std::move(pointer), "no such amount", "a range from 0, low to high");
  }
  void above_ice(const char* pointer, const Cited<Temperature>& figure) {
    const Range<Temperature>& range = figure.range;
    if (!(range.ordered() && range.low > celsius(0) && range.high < celsius(100)))
      fault(pointer, "no such temperature", "a range between 0 and 100 °C, low to high");
  }

  const Library& library_;
  std::vector<Fault> faults_;
};

template <class T>
Cited<T> own_figure(T value, const Cited<Fraction>& accuracy) {
  // The figure is the bench's own; only its range is ours.
  const double share = accuracy.range.typical;
  return {{value * (1.0 - share), value, value * (1.0 + share)},
          {"measured on this bench; range: " + accuracy.evidence.basis, {}, Known::measured}};
}

// What stands in for a plant's own figure says so wherever the figure is shown.
template <class T>
Cited<T> marked(Cited<T> figure, const std::string& stand_in, Figures& figures) {
  if (stand_in.empty()) return figure;
  figures.stand_ins.push_back(stand_in);
  std::string& basis = figure.evidence.basis;
  if (!basis.starts_with("class default")) basis = stand_in + "; " + basis;
  return figure;
}

template <class T>
Cited<T> take(const Chosen<T>& chosen, Figures& figures) {
  return marked(chosen.figure, chosen.stand_in, figures);
}

void choose_bulk_density(const Recipe& recipe, const Library& library, Figures& figures) {
  if (recipe.own.bulk_density) {
    figures.bulk_density = own_figure(*recipe.own.bulk_density, library.practice.own_accuracy);
    return;
  }
  Chosen<Density> chosen = bulk_density_of(recipe.plant, recipe.state, recipe.cut, library);
  if (recipe.method == Method::hydro) chosen.stand_in.clear();  // in water the bed does not count
  figures.bulk_density = take(chosen, figures);
}

void choose_oil_content(const Recipe& recipe, const Library& library, Figures& figures) {
  if (recipe.own.oil_content) {
    // A full run's own yield already has this still's recovery in it.
    figures.oil_content = own_figure(*recipe.own.oil_content, library.practice.own_oil_accuracy);
    figures.oil_per = OilPer::as_loaded;
    figures.recovery = {Range<Fraction>::exactly(fraction(1)), figures.oil_content.evidence};
    return;
  }
  const ChosenOilContent chosen = oil_content_of(recipe.plant, recipe.state, library);
  figures.oil_content = take(chosen, figures);
  figures.oil_per = chosen.per;
  figures.recovery = take(recovery_of(recipe.plant, recipe.method, chosen.assay, library), figures);
}

void choose_release(const Recipe& recipe, const Library& library, Figures& figures) {
  const ChosenRelease chosen = release_of(recipe.plant, recipe.method, recipe.cut, library);
  figures.release_method = chosen.method;
  figures.half_time = marked(chosen.release.half_time, chosen.stand_in, figures);
  if (chosen.release.washed_share) {
    figures.washed_share = *chosen.release.washed_share;
  } else {
    figures.washed_share = {
        Range<Fraction>::exactly(fraction(0)),
        {"none published, taken as none", {"common-practice"}, Known::common_practice}};
  }
  if (chosen.release.steam_flow) {
    figures.published_steam = *chosen.release.steam_flow;
  } else {
    figures.published_steam = marked(library.practice.steam_per_charge,
                                     "steam flow of published runs (other plants)", figures);
  }
}

}  // namespace

Figures choose_figures(const Recipe& recipe, const Library& library) {
  const Practice& practice = library.practice;
  const Still& still = recipe.still;
  Soundness soundness(library);
  soundness.check(still, recipe.method);
  soundness.check(recipe.plant);
  soundness.finish();
  Figures figures;

  figures.oil_density = recipe.plant->oil_density;
  figures.hydrosol_oil = take(hydrosol_oil_of(recipe.plant, library), figures);
  figures.moisture = take(moisture_of(recipe.plant, recipe.state, library), figures);
  choose_bulk_density(recipe, library, figures);
  choose_oil_content(recipe, library, figures);
  choose_release(recipe, library, figures);

  const Material& pot = library.materials.at(still.pot.material);
  const Material& head = library.materials.at(still.head.material);
  const bool in_column = recipe.method == Method::steam && still.column;
  const Material& column = in_column ? library.materials.at(still.column->material) : pot;
  figures.pot_film = pot.heat_loss;
  figures.column_film = column.heat_loss;
  figures.head_film = head.heat_loss;
  figures.pot_specific_heat = pot.specific_heat.range.typical;
  figures.column_specific_heat = column.specific_heat.range.typical;
  figures.head_specific_heat = head.specific_heat.range.typical;
  figures.condensing = library.materials.at(still.condenser.wall).condensing;

  figures.heater_efficiency = still.heater.efficiency
                                  ? *still.heater.efficiency
                                  : practice.heater_efficiency.at(still.heater.kind);
  figures.dry_specific_heat = practice.dry_specific_heat;
  figures.hold_up = take(hold_up_of(recipe.plant, library), figures);
  figures.film_hold_up = practice.film_hold_up;
  figures.wall_hold_up = still.wall_hold_up;
  figures.vent_share = practice.vent_share;
  figures.fill_error = practice.fill_error;
  figures.oil_parts = oil_parts(recipe.plant, library);
  return figures;
}

}  // namespace firstdrop
