#include "firstdrop/model/figures.hpp"

#include "firstdrop/model/plant_figures.hpp"
#include "model/soundness.hpp"

namespace firstdrop {
namespace {

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
    figures.oil_content = to_exhaustion(
        own_figure(*recipe.own.oil_content, library.practice.own_oil_accuracy), library.practice);
    figures.oil_per = OilPer::as_loaded;
    figures.recovery =
        recovery_of(recipe.plant, recipe.method, Distilled::to_stated_end, library).figure;
    return;
  }
  const ChosenOilContent chosen = oil_content_of(recipe.plant, recipe.state, library);
  figures.oil_content = take(chosen, figures);
  figures.oil_per = chosen.per;
  figures.recovery =
      take(recovery_of(recipe.plant, recipe.method, chosen.distilled, library), figures);
}

void choose_release(const Recipe& recipe, const Library& library, Figures& figures) {
  const ChosenRelease chosen = release_of(recipe.plant, recipe.method, recipe.cut, library);
  figures.release_method = chosen.method;
  figures.half_life = marked(chosen.release.half_life, chosen.stand_in, figures);
  const Practice& practice = library.practice;
  figures.fast_share = chosen.release.fast_share.value_or(practice.fast_share);
  figures.slow_rate = practice.slow_rate;
  figures.release = release_of_half_life(figures.half_life.typical(), figures.fast_share.typical(),
                                         figures.slow_rate.typical());
  figures.reference_flow = chosen.release.steam_flow.value_or(practice.steam_per_charge);
  if (recipe.method == Method::hydro) {
    const Evidence in_water{"herb in water lets its oil go at the same pace at any flow",
                            {"common-practice"},
                            Known::common_practice};
    figures.flow_on_fast = {Range<Fraction>::exactly(fraction(0)), in_water};
    figures.flow_on_slow = figures.flow_on_fast;
  } else {
    figures.flow_on_fast = practice.flow_on_fast;
    figures.flow_on_slow = practice.flow_on_slow;
  }
}

// Needs the moisture.
void choose_customary_hydrosol(const Recipe& recipe, const Library& library, Figures& figures) {
  const Practice& practice = library.practice;
  const auto fresh = moisture_if_known(recipe.plant, State::fresh, library);
  if (!fresh) {
    figures.fresh_moisture = figures.moisture;
    figures.as_fresh = fraction(1);
    figures.customary_hydrosol = practice.hydrosol_per_dry_fruit;
    return;
  }
  figures.fresh_moisture = recipe.state == State::fresh ? figures.moisture : fresh->figure;
  const auto dry_share = [](const Cited<Fraction>& moisture) { return 1.0 - moisture.typical(); };
  figures.as_fresh = fraction(dry_share(figures.moisture) / dry_share(figures.fresh_moisture));
  figures.customary_hydrosol = practice.hydrosol_per_fresh;
  Range<SpecificVolume>& range = figures.customary_hydrosol.range;
  range = {range.low * figures.as_fresh, range.typical * figures.as_fresh,
           range.high * figures.as_fresh, range.by_ratio};
}

}  // namespace

Figures choose_figures(const Recipe& recipe, const Library& library) {
  const Practice& practice = library.practice;
  const Still& still = recipe.still;
  check_still(still, recipe.method, library);
  check_plant(recipe.plant, library);
  Figures figures;

  figures.oil_density = recipe.plant->oil_density;
  figures.hydrosol_oil = take(hydrosol_oil_of(recipe.plant, library), figures);
  figures.mixing = practice.mixing;
  figures.moisture = take(moisture_of(recipe.plant, recipe.state, library), figures);
  choose_customary_hydrosol(recipe, library, figures);
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
  figures.stored_heat = practice.stored_heat.at(still.heater.kind);
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
