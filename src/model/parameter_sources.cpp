#include "firstdrop/model/parameter_sources.hpp"

#include <variant>

namespace firstdrop {

std::vector<std::string> own_notes(const OwnFigures& own) {
  std::vector<std::string> notes;
  if (own.bulk_density) notes.emplace_back("bulk density");
  if (own.oil_content) notes.emplace_back("oil content");
  if (own.distillate_rate) notes.emplace_back("distillate rate");
  if (own.boil_time) notes.emplace_back("time to boil");
  if (own.mains) notes.emplace_back("mains voltage");
  return notes;
}

std::set<std::string> sources_of(const Inputs& inputs, const Library& library) {
  const Recipe& recipe = inputs.recipe;
  const Figures& figures = inputs.figures;
  std::set<std::string> sources;
  const auto note = [&](const Evidence& evidence) {
    sources.insert(evidence.sources.begin(), evidence.sources.end());
  };
  note(figures.bulk_density.evidence);
  note(figures.moisture.evidence);
  note(figures.fresh_moisture.evidence);
  note(figures.oil_content.evidence);
  note(figures.recovery.evidence);
  note(figures.half_life.evidence);
  note(figures.fast_share.evidence);
  note(figures.slow_rate.evidence);
  note(figures.reference_flow.evidence);
  note(figures.flow_on_fast.evidence);
  note(figures.flow_on_slow.evidence);
  note(figures.mixing.evidence);
  note(figures.hydrosol_oil.evidence);
  note(figures.oil_density.evidence);
  if (const auto& cut = recipe.plant->usual_cut; cut && cut->time) note(cut->time->evidence);
  if (recipe.plant->flash_point) note(recipe.plant->flash_point->evidence);
  note(figures.heater_efficiency.evidence);
  note(figures.stored_heat.evidence);
  note(figures.pot_film.evidence);
  note(figures.column_film.evidence);
  note(figures.head_film.evidence);
  note(figures.dry_specific_heat.evidence);
  note(figures.hold_up.evidence);
  note(figures.film_hold_up.evidence);
  note(figures.wall_hold_up.evidence);
  note(figures.vent_share.evidence);
  note(figures.fill_error.evidence);
  note(figures.condensing.evidence);
  const auto note_material = [&](const std::string& key) {
    note(library.materials.at(key).specific_heat.evidence);
  };
  note_material(recipe.still->pot.material);
  note_material(recipe.still->head.material);
  if (recipe.method == Method::steam) note_material(recipe.still->column->material);
  const Still& still = recipe.still;
  note(still.pot.volume.evidence);
  note(still.pot.fill_limit.evidence);
  note(still.pot.minimum_water.evidence);
  note(still.heater.power.evidence);
  note(still.condenser.surface.evidence);
  note(still.condenser.coolant_limit.evidence);
  const Practice& practice = library.practice;
  note(practice.particle_density.evidence);
  note(practice.reserve_share.evidence);
  note(practice.approach.evidence);
  if (still.condenser.kind != CondenserKind::run_through) note(practice.bath_loss.evidence);
  if (std::holds_alternative<HarvestGoal>(recipe.goal)) {
    note(practice.oil_left_per_hydrosol.evidence);
    note(practice.oil_left_per_hour.evidence);
    note(figures.customary_hydrosol.evidence);
  }
  if (std::holds_alternative<OilGoal>(recipe.goal)) note(practice.oil_gain.evidence);
  switch (recipe.method) {
    case Method::hydro:
      note(practice.hydro_water.at(recipe.state).evidence);
      note(practice.hydro_wetting.evidence);
      note(figures.customary_hydrosol.evidence);
      break;
    case Method::water_and_steam:
      note(practice.grid_clearance.evidence);
      [[fallthrough]];
    case Method::steam:
      note(practice.head_space.evidence);
      note(practice.particle_size.at(recipe.cut).evidence);
      break;
  }
  if (inputs.bound) {
    for (const OilPart& part : inputs.bound->parts) note(part.liquid->vapour_pressure->evidence);
  }
  // The shares and molar masses count for the bound and for what dissolves.
  if (inputs.bound || !recipe.plant->hydrosol_oil) {
    for (const Constituent& constituent : recipe.plant->constituents) {
      note(constituent.share.evidence);
      note(library.liquids.at(constituent.liquid).molar_mass.evidence);
    }
  }
  return sources;
}

}  // namespace firstdrop
