#include "generate/recipe_keys.hpp"

#include "cli/command_line.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "readers/recipe_value.hpp"
#include "readers/table_json.hpp"

namespace firstdrop::generate {

// TODO: typed by hand until a description of all keys stands in the readers. Then it is made from
// that, and wanted_by_readers() in tests/completions/completions_check.py can go.
std::vector<CompletionKey> recipe_keys() {
  using cli::words_of;
  std::vector<std::string> materials;
  for (const auto& [key, material] : read_tables(embedded_table_texts()).materials)
    materials.push_back(key);
  std::vector<CompletionKey> keys = {
      {"title", {}, {}},
      {"plant", {}, "plants"},
      {"state", words_of(all_states), {}},
      {"cut", words_of(all_cuts), {}},
      {"charge", {}, {}},
      {"still", {}, "stills"},
      {"method", words_of(all_methods), {}},
      {"water", {}, {}},
      {"water_temperature", {}, {}},
      {"setting", {}, {}},
      {"receiver", {}, {}},
      {"lot", {}, {}},
      {"start", {}, {}},
      {"units", words_of(all_units), {}},
      {"seed", {}, {}},
      {"site.place", words_of(std::array{Place::indoors, Place::outdoors}), {}},
      {"still.heater.kind",
       words_of(std::array{HeaterKind::electric_plate, HeaterKind::induction_plate,
                           HeaterKind::immersed_element, HeaterKind::gas_burner}),
       {}},
      {"still.condenser.kind",
       words_of(std::array{CondenserKind::ice_bath, CondenserKind::reservoir,
                           CondenserKind::run_through}),
       {}},
      {"still.pot.material", materials, {}},
      {"still.column.material", materials, {}},
      {"still.head.material", materials, {}},
      {"still.condenser.wall", materials, {}},
  };
  for (const char* key : {
           "site",
           "site.altitude",
           "site.pressure",
           "site.room",
           "site.coolant",
           "site.mains",
           "site.circuit",
           "goal",
           "goal.hydrosol",
           "goal.ratio",
           "goal.oil",
           "goal.oil_share",
           "goal.time",
           "goal.confidence",
           "own",
           "own.bulk_density",
           "own.oil_content",
           "own.distillate_rate",
           "own.boil_time",
           "own.boil_water",
           "own.setting",
           "own.boil_setting",
           "own.mains",
           "limits",
           "limits.time",
           "limits.absence",
           "prices",
           "prices.energy_per_kwh",
           "prices.plant_per_kg",
           "prices.currency",
           "still.pot.volume",
           "still.pot.diameter",
           "still.pot.mass",
           "still.pot.fill_limit",
           "still.pot.minimum_water",
           "still.column.volume",
           "still.column.diameter",
           "still.column.mass",
           "still.grid.water_below",
           "still.grid.space",
           "still.grid.mass",
           "still.head.mass",
           "still.head.surface",
           "still.heater.power",
           "still.heater.efficiency",
           "still.condenser.surface",
           "still.condenser.outlet",
           "still.condenser.coolant_limit",
           "still.condenser.coolant",
           "still.condenser.ice_per_change",
           "still.condenser.flow_limit",
           "still.wall_hold_up",
       })
    keys.push_back({key, {}, {}});
  return keys;
}

}  // namespace firstdrop::generate
