#include "model/selected_parameters.hpp"

#include <algorithm>

#include "physics/basis.hpp"
#include "readers/plant_parameters.hpp"
#include "readers/recipe_check.hpp"
#include "readers/still_defaults.hpp"

namespace firstdrop {
namespace {

template <class T>
Cited<T> own_figure(T value, const Cited<Fraction>& accuracy) {
  // The value is measured on the bench; only its range is assumed.
  const double share = accuracy.range.typical;
  return {{value * (1.0 - share), value, value * (1.0 + share)},
          {"measured on this bench; range: " + accuracy.evidence.basis, {}, Known::measured}};
}

// Notes a default in the basis of its figure, so that it shows wherever the figure is shown.
template <class T>
Cited<T> marked(Cited<T> figure, const std::string& default_used, SelectedParameters& selected) {
  if (default_used.empty()) return figure;
  selected.defaults_used.push_back(default_used);
  std::string& basis = figure.evidence.basis;
  if (!basis.starts_with("class default")) basis = default_used + "; " + basis;
  return figure;
}

template <class T>
Cited<T> take(const Chosen<T>& chosen, SelectedParameters& selected) {
  return marked(chosen.figure, chosen.default_used, selected);
}

void choose_bulk_density(const Recipe& recipe, const Tables& tables, SelectedParameters& selected) {
  if (recipe.own.bulk_density) {
    selected.bulk_density =
        own_figure(*recipe.own.bulk_density, tables.design_defaults.own_accuracy);
    return;
  }
  ChosenBulkDensity chosen = bulk_density_of(recipe.plant, recipe.state, recipe.cut, tables);
  selected.scaled_bulk_density = chosen.scaled;
  if (recipe.method_used() == Method::hydro)
    chosen.default_used.clear();  // in water there is no bed
  selected.bulk_density = take(chosen, selected);
}

void choose_oil_content(const Recipe& recipe, const Tables& tables, SelectedParameters& selected) {
  if (recipe.own.oil_content) {
    const auto* by_volume = std::get_if<SpecificVolume>(&*recipe.own.oil_content);
    const Fraction content = by_volume
                                 ? oil_by_mass(*by_volume, recipe.plant->oil_density->typical())
                                 : std::get<Fraction>(*recipe.own.oil_content);
    selected.oil_content = to_exhaustion(
        own_figure(content, tables.design_defaults.own_oil_accuracy), tables.design_defaults);
    selected.oil_per = OilPer::as_received;
    selected.recovery =
        recovery_of(recipe.plant, recipe.method_used(), Distilled::to_stated_end, tables).figure;
    return;
  }
  const ChosenOilContent chosen = oil_content_of(recipe.plant, recipe.state, tables);
  selected.oil_content = take(chosen, selected);
  selected.oil_per = chosen.per;
  selected.oil_content_in_table = chosen.in_table;
  selected.oil_content_state = chosen.in_table_for;
  selected.recovery =
      take(recovery_of(recipe.plant, recipe.method_used(), chosen.distilled, tables), selected);
}

// The release of the plant that gives most of the oil. The others have their own pace.
ChosenRelease leading_release(const Recipe& recipe, const Tables& tables,
                              SelectedParameters& selected) {
  const Plant& plant = recipe.plant;
  const Method method = recipe.method_used();
  if (plant.blend.empty()) return release_of(plant, method, recipe.cut, tables);
  const std::vector<Fraction> of_oil = oil_shares(plant, recipe.state, method, tables);
  const auto leading = std::max_element(of_oil.begin(), of_oil.end()) - of_oil.begin();
  const auto release = [&](std::size_t i) {
    return release_of(plant.blend[i].plant, method, recipe.cut, tables);
  };
  ChosenRelease chosen = release(static_cast<std::size_t>(leading));
  chosen.default_used.clear();  // note_blend_defaults() says it of each plant
  for (std::size_t i = 0; i < of_oil.size(); ++i) {
    if (of_oil[i] <= fraction(0)) continue;
    selected.blend_paces.push_back(
        {of_oil[i], chosen.release.half_life.typical() / release(i).release.half_life.typical()});
  }
  return chosen;
}

void choose_release(const Recipe& recipe, const Tables& tables, SelectedParameters& selected) {
  const ChosenRelease chosen = leading_release(recipe, tables, selected);
  selected.release_method = chosen.method;
  selected.half_life = marked(chosen.release.half_life, chosen.default_used, selected);
  const DesignDefaults& defaults = tables.design_defaults;
  selected.fast_share = chosen.release.fast_share.value_or(defaults.fast_share);
  selected.slow_rate = defaults.slow_rate;
  selected.release = release_of_half_life(
      selected.half_life.typical(), selected.fast_share.typical(), selected.slow_rate.typical());
  selected.reference_flow = chosen.release.steam_flow.value_or(defaults.steam_per_charge);
  if (recipe.method_used() == Method::hydro) {
    const Evidence in_water{"herb in water lets its oil go at the same pace at any flow",
                            {"common-practice"},
                            Known::common_practice};
    selected.flow_on_fast = {Range<Fraction>::exactly(fraction(0)), in_water};
    selected.flow_on_slow = selected.flow_on_fast;
  } else {
    selected.flow_on_fast = defaults.flow_on_fast;
    selected.flow_on_slow = defaults.flow_on_slow;
  }
}

void choose_hydrosol_oil(const Recipe& recipe, const Tables& tables, SelectedParameters& selected) {
  const ChosenHydrosolOil chosen = hydrosol_oil_of(recipe.plant, tables);
  selected.hydrosol_oil = take(chosen, selected);
  selected.oil_solubility = chosen.solubility;
  selected.mixing = tables.design_defaults.mixing;
  selected.oil_density = *recipe.plant->oil_density;
  selected.oil_parts = oil_parts(recipe.plant, tables);
}

// No oil in the charge, and values for the rest that a run can be computed with.
void choose_no_oil(const Tables& tables, SelectedParameters& selected) {
  const DesignDefaults& defaults = tables.design_defaults;
  const Evidence unknown{"nothing is known of this plant's oil", {}, Known::computed};
  selected.has_oil = false;
  selected.oil_density = {Range<Density>::exactly(kilograms_per_cubic_metre(1000)), unknown};
  selected.hydrosol_oil = {Range<Density>::exactly(Density()), unknown};
  selected.oil_content = {Range<Fraction>::exactly(fraction(0)), unknown};
  selected.recovery = {Range<Fraction>::exactly(fraction(1)), unknown};
  selected.half_life = {Range<Duration>::exactly(hours(1)), unknown};
  selected.fast_share = {Range<Fraction>::exactly(fraction(0)), unknown};
  selected.slow_rate = {Range<Fraction>::exactly(fraction(1)), unknown};
  selected.release = release_of_half_life(hours(1), fraction(0), fraction(1));
  selected.reference_flow = {defaults.steam_per_charge.range, unknown};
  selected.flow_on_fast = {Range<Fraction>::exactly(fraction(0)), unknown};
  selected.flow_on_slow = selected.flow_on_fast;
  selected.mixing = {Range<Fraction>::exactly(fraction(0)), unknown};
}

// Needs selected.moisture to be set.
void choose_customary_hydrosol(const Recipe& recipe, const Tables& tables,
                               SelectedParameters& selected) {
  const ChosenCustomaryHydrosol chosen = customary_hydrosol_of(recipe.plant, recipe.state, tables);
  selected.customary_hydrosol = chosen.figure;
  selected.as_fresh = chosen.as_fresh;
  const auto fresh = moisture_if_known(recipe.plant, State::fresh, tables);
  selected.fresh_moisture =
      fresh && recipe.state != State::fresh ? fresh->figure : selected.moisture;
}

}  // namespace

StillParameters still_parameters(const Still& still, Method method, const Tables& tables) {
  const DesignDefaults& defaults = tables.design_defaults;
  StillParameters selected;
  const Material& pot = tables.materials.at(still.pot.material);
  const Material& head = tables.materials.at(still.head.material);
  const bool in_column = method == Method::steam && still.column;
  const Material& column = in_column ? tables.materials.at(still.column->material) : pot;
  selected.pot_film = still.heat_loss.value_or(pot.heat_loss);
  selected.column_film = still.heat_loss.value_or(column.heat_loss);
  selected.head_film = still.heat_loss.value_or(head.heat_loss);
  selected.pot_specific_heat = pot.specific_heat.range.typical;
  selected.column_specific_heat = column.specific_heat.range.typical;
  selected.head_specific_heat = head.specific_heat.range.typical;
  selected.condensing = tables.materials.at(still.condenser.wall).condensing;

  const Cited<Fraction>& usual_efficiency = defaults.heater_efficiency.at(still.heater.kind);
  selected.heater_efficiency = still.heater.efficiency.value_or(usual_efficiency);
  selected.stored_heat = defaults.stored_heat.at(still.heater.kind);
  selected.wall_hold_up = still.wall_hold_up;
  if (still.measured_runs)
    selected.replaced = {usual_efficiency,
                         pot.heat_loss,
                         column.heat_loss,
                         head.heat_loss,
                         default_wall_hold_up(still, tables),
                         defaults.run_to_run_heat.typical(),
                         defaults.most_heat_room.typical()};
  selected.uncondensed_loss = defaults.uncondensed_loss;
  selected.fill_error = defaults.fill_error;
  return selected;
}

namespace {

// What the plants of a blend lack. The figures of the blend are made from the defaults.
void note_blend_defaults(const Recipe& recipe, const Tables& tables, SelectedParameters& selected) {
  const bool in_bed = recipe.method_used() != Method::hydro && !recipe.own.bulk_density;
  for (const BlendPart& part : recipe.plant->blend) {
    const Plant& plant = part.plant;
    const auto note = [&](const std::string& default_used) {
      if (!default_used.empty()) selected.defaults_used.push_back(plant.name + ": " + default_used);
    };
    note(moisture_of(plant, recipe.state, tables).default_used);
    if (in_bed) note(bulk_density_of(plant, recipe.state, recipe.cut, tables).default_used);
    if (!has_oil_figures(plant)) continue;
    if (!recipe.own.oil_content) note(oil_content_of(plant, recipe.state, tables).default_used);
    note(release_of(plant, recipe.method_used(), recipe.cut, tables).default_used);
  }
}

}  // namespace

SelectedParameters select_parameters(const Recipe& recipe, const Tables& tables) {
  const DesignDefaults& defaults = tables.design_defaults;
  const Still& still = recipe.still;
  check_still(still, tables);
  check_plant(recipe.plant, tables);
  SelectedParameters selected;
  static_cast<StillParameters&>(selected) = still_parameters(still, recipe.method_used(), tables);

  note_blend_defaults(recipe, tables, selected);
  const bool has_oil = has_oil_figures(recipe.plant);
  if (has_oil) choose_hydrosol_oil(recipe, tables, selected);
  selected.moisture = take(moisture_of(recipe.plant, recipe.state, tables), selected);
  choose_customary_hydrosol(recipe, tables, selected);
  choose_bulk_density(recipe, tables, selected);
  if (has_oil) {
    choose_oil_content(recipe, tables, selected);
    choose_release(recipe, tables, selected);
  } else {
    choose_no_oil(tables, selected);
  }
  selected.dry_specific_heat = defaults.dry_specific_heat;
  selected.hold_up = take(hold_up_of(recipe.plant, tables), selected);
  selected.film_hold_up = defaults.film_hold_up;
  return selected;
}

}  // namespace firstdrop
