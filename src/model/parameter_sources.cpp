#include "model/parameter_sources.hpp"

#include <variant>

namespace firstdrop {

std::vector<std::string> replaced_figures(const OwnFigures& own) {
  std::vector<std::string> notes;
  if (own.bulk_density) notes.emplace_back("bulk density");
  if (own.oil_content) notes.emplace_back("oil content");
  if (own.distillate_rate) notes.emplace_back("distillate rate");
  if (own.boil_time) notes.emplace_back("time to boil");
  if (own.mains) notes.emplace_back("mains voltage");
  return notes;
}

std::set<std::string> sources_of(const ModelParameters& parameters, const Tables& tables) {
  const Recipe& recipe = parameters.recipe;
  const SelectedParameters& selected = parameters.selected;
  std::set<std::string> sources;
  const auto note = [&](const Evidence& evidence) {
    sources.insert(evidence.sources.begin(), evidence.sources.end());
  };
  note(selected.bulk_density.evidence);
  note(selected.moisture.evidence);
  note(selected.fresh_moisture.evidence);
  note(selected.oil_content.evidence);
  note(selected.recovery.evidence);
  note(selected.half_life.evidence);
  note(selected.fast_share.evidence);
  note(selected.slow_rate.evidence);
  note(selected.reference_flow.evidence);
  note(selected.flow_on_fast.evidence);
  note(selected.flow_on_slow.evidence);
  note(selected.mixing.evidence);
  note(selected.hydrosol_oil.evidence);
  note(selected.oil_density.evidence);
  if (const auto& cut = recipe.plant->usual_cut; cut && cut->time) note(cut->time->evidence);
  if (recipe.plant->flash_point) note(recipe.plant->flash_point->evidence);
  note(selected.heater_efficiency.evidence);
  note(selected.stored_heat.evidence);
  note(selected.pot_film.evidence);
  note(selected.column_film.evidence);
  note(selected.head_film.evidence);
  note(selected.dry_specific_heat.evidence);
  note(selected.hold_up.evidence);
  note(selected.film_hold_up.evidence);
  note(selected.wall_hold_up.evidence);
  note(selected.uncondensed_loss.evidence);
  note(selected.fill_error.evidence);
  note(selected.condensing.evidence);
  const auto note_material = [&](const std::string& key) {
    note(tables.materials.at(key).specific_heat.evidence);
  };
  note_material(recipe.still->pot.material);
  note_material(recipe.still->head.material);
  if (recipe.method_used() == Method::steam) note_material(recipe.still->column->material);
  const Still& still = recipe.still;
  note(still.pot.volume.evidence);
  note(still.pot.fill_limit.evidence);
  note(still.pot.minimum_water.evidence);
  note(still.heater.power.evidence);
  note(still.condenser.surface.evidence);
  note(still.condenser.coolant_limit.evidence);
  const DesignDefaults& defaults = tables.design_defaults;
  note(defaults.particle_density.evidence);
  note(defaults.reserve_share.evidence);
  note(defaults.approach.evidence);
  if (still.condenser.kind != CondenserKind::run_through) note(defaults.bath_loss.evidence);
  if (std::holds_alternative<HarvestGoal>(recipe.goal)) {
    if (selected.has_oil) {
      note(defaults.oil_left_per_hydrosol.evidence);
      note(defaults.oil_left_per_hour.evidence);
    }
    note(selected.customary_hydrosol.evidence);
  }
  if (std::holds_alternative<OilGoal>(recipe.goal)) note(defaults.oil_gain.evidence);
  switch (recipe.method_used()) {
    case Method::hydro:
      note(defaults.hydro_water.at(recipe.state).evidence);
      note(defaults.hydro_wetting.evidence);
      note(selected.customary_hydrosol.evidence);
      break;
    case Method::water_and_steam:
      note(defaults.grid_clearance.evidence);
      [[fallthrough]];
    case Method::steam:
      note(defaults.head_space.evidence);
      note(defaults.particle_size.at(recipe.cut).evidence);
      break;
  }
  if (parameters.codistillation) {
    for (const OilPart& part : parameters.codistillation->parts)
      note(part.liquid->vapour_pressure->evidence);
  }
  // Shares and molar masses enter both the co-distillation limit and the oil that dissolves.
  if (parameters.codistillation || !recipe.plant->hydrosol_oil) {
    for (const Constituent& constituent : recipe.plant->constituents) {
      note(constituent.share.evidence);
      note(tables.liquids.at(constituent.liquid).molar_mass.evidence);
    }
  }
  return sources;
}

}  // namespace firstdrop
