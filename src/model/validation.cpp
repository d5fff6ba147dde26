#include "model/validation.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "firstdrop/base/error.hpp"
#include "readers/field_bounds.hpp"

namespace firstdrop {
namespace {

class Validation {
 public:
  explicit Validation(const Tables& tables) : tables_(tables) {}

  void check(const Still& still, Method method) {
    material("/still/pot/material", still.pot.material);
    within("/still/pot/volume", still.pot.volume, bounds::vessel_volume);
    within("/still/pot/diameter", still.pot.diameter, bounds::vessel_diameter);
    within("/still/pot/mass", still.pot.mass, bounds::vessel_mass);
    within("/still/pot/fill_limit", still.pot.fill_limit, bounds::fill_limit);
    within("/still/pot/minimum_water", still.pot.minimum_water, bounds::minimum_water);
    if (method == Method::steam && still.column) {
      material("/still/column/material", still.column->material);
      within("/still/column/volume", still.column->volume, bounds::vessel_volume);
      within("/still/column/diameter", still.column->diameter, bounds::vessel_diameter);
      within("/still/column/mass", still.column->mass, bounds::vessel_mass);
    }
    if (method == Method::water_and_steam && still.grid) {
      within("/still/grid/water_below", still.grid->water_below, bounds::vessel_volume);
      within("/still/grid/space", still.grid->space, bounds::vessel_volume);
    }
    if (still.grid) within("/still/grid/mass", still.grid->mass, bounds::grid_mass);
    material("/still/head/material", still.head.material);
    within("/still/head/mass", still.head.mass, bounds::vessel_mass);
    within("/still/head/surface", still.head.surface, bounds::surface);
    within("/still/heater/power", still.heater.power, bounds::heater_power);
    within("/still/heater/efficiency", still.heater.efficiency, bounds::efficiency);
    const Condenser& condenser = still.condenser;
    material("/still/condenser/wall", condenser.wall);
    within("/still/condenser/surface", condenser.surface, bounds::surface);
    within("/still/condenser/outlet", condenser.outlet, bounds::outlet);
    within("/still/condenser/coolant_limit", condenser.coolant_limit, bounds::coolant_limit);
    within("/still/condenser/coolant", condenser.coolant, bounds::vessel_volume);
    within("/still/condenser/ice_per_change", condenser.ice_per_change, bounds::ice_per_change);
    within("/still/condenser/flow_limit", condenser.flow_limit, bounds::tap);
    within("/still/wall_hold_up", still.wall_hold_up, bounds::small_mass);
  }

  void check(const Plant& plant) {
    within("/plant/oil_density", plant.oil_density, bounds::of_liquid);
    for (const Constituent& constituent : plant.constituents) {
      const std::string pointer = "/plant/constituents/" + constituent.liquid;
      if (!tables_.liquids.contains(constituent.liquid))
        fault(pointer, "an unknown liquid", "a key of the liquid table");
      within(pointer, constituent.share, bounds::any_share);
    }
    for (const auto& [state, of_state] : plant.states) {
      const std::string pointer = "/plant/states/" + to_string(state);
      within(pointer + "/moisture", of_state.moisture, bounds::wet);
      for (const BulkDensity& bulk : of_state.bulk_density)
        within(pointer + "/bulk_density", bulk.density, bounds::bulk_density);
      if (!of_state.oil_content) continue;
      const OilContent& content = *of_state.oil_content;
      if (content.by_mass.has_value() == content.by_volume.has_value())
        fault(pointer + "/oil_content", "both figures or none", "either by mass or by volume");
      within(pointer + "/oil_content", content.by_mass, bounds::oil_content);
      within(pointer + "/oil_content", content.by_volume, bounds::oil_by_volume);
    }
    for (const auto& [method, release] : plant.release)
      within("/plant/release/" + to_string(method) + "/half_life", release.half_life,
             bounds::half_life);
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
    if (!tables_.materials.contains(key))
      fault(pointer, "an unknown material", "a key of the material table");
  }
  // NaN and infinity are out of every range.
  template <class T>
  void within(std::string pointer, const Cited<T>& figure, const Bounds<T>& bounds) {
    const Range<T>& range = figure.range;
    if (!(range.ordered() && bounds.holds(range.low) && bounds.holds(range.high))) {
      faults_.push_back({"", std::move(pointer), "no such amount",
                         "a range " + bounds.text() + ", low to high", bounds.why, 0, 0});
    } else if (*bounds.no_range && range.low < range.high) {
      faults_.push_back({"", std::move(pointer), "a range", "one value", bounds.no_range, 0, 0});
    }
  }
  template <class T>
  void within(std::string pointer, const std::optional<Cited<T>>& figure, const Bounds<T>& bounds) {
    if (figure) within(std::move(pointer), *figure, bounds);
  }

  const Tables& tables_;
  std::vector<Fault> faults_;
};

}  // namespace

void check_still(const Still& still, Method method, const Tables& tables) {
  Validation validation(tables);
  validation.check(still, method);
  validation.finish();
}

void check_plant(const Plant& plant, const Tables& tables) {
  Validation validation(tables);
  validation.check(plant);
  validation.finish();
}

}  // namespace firstdrop
