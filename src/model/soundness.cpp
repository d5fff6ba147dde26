#include "model/soundness.hpp"

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "firstdrop/base/error.hpp"
#include "firstdrop/quantity/least_amounts.hpp"

namespace firstdrop {
namespace {

class Soundness {
 public:
  explicit Soundness(const Library& library) : library_(library) {}

  void check(const Still& still, Method method) {
    material("/still/pot/material", still.pot.material);
    at_least("/still/pot/volume", still.pot.volume, least::vessel_volume);
    at_least("/still/pot/diameter", still.pot.diameter, least::vessel_diameter);
    not_below_zero("/still/pot/mass", still.pot.mass);
    at_least("/still/pot/fill_limit", still.pot.fill_limit, least::still_share);
    not_below_zero("/still/pot/minimum_water", still.pot.minimum_water);
    if (method == Method::steam && still.column) {
      material("/still/column/material", still.column->material);
      at_least("/still/column/volume", still.column->volume, least::vessel_volume);
      at_least("/still/column/diameter", still.column->diameter, least::vessel_diameter);
      not_below_zero("/still/column/mass", still.column->mass);
    }
    if (method == Method::water_and_steam && still.grid) {
      at_least("/still/grid/water_below", still.grid->water_below, least::vessel_volume);
      at_least("/still/grid/space", still.grid->space, least::vessel_volume);
    }
    if (still.grid) not_below_zero("/still/grid/mass", still.grid->mass);
    material("/still/head/material", still.head.material);
    not_below_zero("/still/head/mass", still.head.mass);
    not_below_zero("/still/head/surface", still.head.surface);
    at_least("/still/heater/power", still.heater.power, least::heater_power);
    if (still.heater.efficiency)
      at_least("/still/heater/efficiency", *still.heater.efficiency, least::still_share);
    const Condenser& condenser = still.condenser;
    material("/still/condenser/wall", condenser.wall);
    at_least("/still/condenser/surface", condenser.surface, least::surface);
    above_ice("/still/condenser/outlet", condenser.outlet);
    above_ice("/still/condenser/coolant_limit", condenser.coolant_limit);
    if (condenser.coolant)
      at_least("/still/condenser/coolant", *condenser.coolant, least::vessel_volume);
    if (condenser.ice_per_change)
      not_below_zero("/still/condenser/ice_per_change", *condenser.ice_per_change);
    if (condenser.flow_limit)
      at_least("/still/condenser/flow_limit", *condenser.flow_limit, least::tap);
    not_below_zero("/still/wall_hold_up", still.wall_hold_up);
    without_ranges(still);
  }

  void without_ranges(const Still& still) {
    one_value("/still/pot/diameter", still.pot.diameter);
    one_value("/still/pot/mass", still.pot.mass);
    if (still.column) {
      one_value("/still/column/diameter", still.column->diameter);
      one_value("/still/column/mass", still.column->mass);
    }
    if (still.grid) one_value("/still/grid/mass", still.grid->mass);
    one_value("/still/head/mass", still.head.mass);
    const Condenser& condenser = still.condenser;
    one_value("/still/condenser/outlet", condenser.outlet);
    one_value("/still/condenser/coolant_limit", condenser.coolant_limit);
    if (condenser.ice_per_change) {
      one_value("/still/condenser/ice_per_change", *condenser.ice_per_change);
    }
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
        at_least(pointer + "/bulk_density", bulk.density, least::bulk_density);
      if (!of_state.oil_content) continue;
      const OilContent& content = *of_state.oil_content;
      if (content.by_mass.has_value() == content.by_volume.has_value())
        fault(pointer + "/oil_content", "both figures or none", "either by mass or by volume");
      if (content.by_mass) at_least(pointer + "/oil_content", *content.by_mass, least::oil_content);
      if (content.by_volume)
        at_least(pointer + "/oil_content", *content.by_volume, least::oil_volume_content);
    }
    for (const auto& [method, release] : plant.release)
      above_zero("/plant/release/" + to_string(method) + "/half_life", release.half_life);
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
  void at_least(std::string pointer, const Cited<T>& figure, const Least<T>& bound) {
    const Range<T>& range = figure.range;
    if (!(range.ordered() && range.low >= bound.amount && std::isfinite(range.high.si()))) {
      faults_.push_back({"", std::move(pointer), "no such amount",
                         std::string("a range from ") + bound.words + ", low to high", "", 0, 0});
    }
  }
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
  template <class T>
  void one_value(const char* pointer, const Cited<T>& figure) {
    if (figure.range.low < figure.range.high) {
      faults_.push_back({"", pointer, "a range", "one value", one_value_reason, 0, 0});
    }
  }

  const Library& library_;
  std::vector<Fault> faults_;
};

}  // namespace

void check_still(const Still& still, Method method, const Library& library) {
  Soundness soundness(library);
  soundness.check(still, method);
  soundness.finish();
}

void check_plant(const Plant& plant, const Library& library) {
  Soundness soundness(library);
  soundness.check(plant);
  soundness.finish();
}

}  // namespace firstdrop
