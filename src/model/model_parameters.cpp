#include "model/model_parameters.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "firstdrop/base/error.hpp"
#include "physics/water.hpp"
#include "readers/plant_parameters.hpp"
#include "readers/recipe_check.hpp"

namespace firstdrop {
namespace {

template <class T>
Range<T> within(T value, const Cited<Fraction>& accuracy) {
  const double share = accuracy.range.typical;
  return {value * (1.0 - share), value, value * (1.0 + share)};
}

// If vapour pressures are known for less than half of the oil, the limit can't be trusted.
std::optional<CodistillationLimit> trusted_limit(Pressure ambient,
                                                 const SelectedParameters& selected) {
  auto codistillation = codistillation_limit(ambient, selected.oil_parts);
  if (codistillation && codistillation->share_covered < fraction(0.5)) codistillation.reset();
  return codistillation;
}

}  // namespace

HeatMargin mains_margin(const Still& still, const DesignDefaults& defaults) {
  if (still.heater.kind == HeaterKind::gas_burner) return {};
  return {defaults.mains.range.low, defaults.mains.range.high};
}

double dial_margin(Fraction setting, const DesignDefaults& defaults) {
  return std::min(1.0 + double(defaults.dial_error.range.typical), 1.0 / double(setting));
}

ModelParameters model_parameters(Recipe recipe, const Tables& tables) {
  return ParameterCache().gather(std::move(recipe), tables);
}

std::size_t ParameterCache::Hash::operator()(const Key& key) const {
  const std::size_t way =
      (static_cast<std::size_t>(key.state) * 4 + static_cast<std::size_t>(key.cut)) * 3 +
      static_cast<std::size_t>(key.method);
  const std::hash<const void*> of_pointer;
  const std::hash<double> of_number;
  std::size_t hash = (of_pointer(key.plant) * 31 + of_pointer(key.still)) * 37 + way;
  if (key.bulk_density) hash = hash * 41 + of_number(key.bulk_density->si());
  const auto of_amount = [&](auto amount) { return of_number(amount.si()); };
  if (key.oil_content) hash = hash * 43 + std::visit(of_amount, *key.oil_content);
  return hash;
}

ParameterCache::Entry& ParameterCache::entry_for(const Recipe& recipe, const Tables& tables) {
  // Enough for all plants in most ways of running them, at a few kilobytes each. A bench's own
  // figures mostly stay the same. Where they change with every recipe, their separate cache keeps
  // them from displacing the other entries.
  constexpr std::size_t most_entries = 1024;
  constexpr std::size_t most_with_own = 64;
  const OwnFigures& own = recipe.own;
  const bool has_own = own.bulk_density || own.oil_content;
  Entries& entries = has_own ? entries_with_own_ : entries_;
  const Key key{&*recipe.plant,       &*recipe.still,   recipe.state,   recipe.cut,
                recipe.method_used(), own.bulk_density, own.oil_content};
  auto found = entries.find(key);
  if (found == entries.end()) {
    Entry entry{recipe.plant, recipe.still, select_parameters(recipe, tables),
                doubts_about(recipe.still, tables)};
    if (entries.size() == (has_own ? most_with_own : most_entries)) entries.clear();
    found = entries.emplace(key, std::move(entry)).first;
  }
  Entry& entry = found->second;
  if (entry.limit_at != water_->ambient) {
    entry.codistillation = trusted_limit(water_->ambient, entry.selected);
    entry.limit_at = water_->ambient;
  }
  return entry;
}

namespace {

// The bounds on a run's heat are those that occur in about 1 run in 200. Not every factor is at its
// extreme at once. The highest heat is the largest of three: the strongest heater of its range, a
// heater at its P90 with the mains at their highest, or a heater at its P90 with a dial that gives
// more than it says.
//
//     Q_most  = max(Q(1), Q(0.9) * mains_most, Q(0.9) * dial)
//     Q_least = min(Q(0), Q(0.1) * mains_least)
//
// Mains voltage is within 10 % of nominal (IEC 60038) or as measured, and power goes with its
// square. A burner has no mains. No dial gives more than the heater's full power. A reading at the
// same setting already includes what the dial gives.
void set_heat_margins(ModelParameters& parameters, const DesignDefaults& defaults) {
  const Recipe& recipe = parameters.recipe;
  HeatMargin mains = mains_margin(recipe.still, defaults);
  if (recipe.own.mains) {
    const double share = *recipe.own.mains / *recipe.site.mains;
    parameters.mains = share * share;
    const double accuracy = defaults.own_accuracy.range.typical;
    mains = {1.0 - accuracy, 1.0 + accuracy};
  }
  const double dial = dial_margin(recipe.setting, defaults);
  const bool rate_here = !parameters.own_rate || parameters.own_rate_setting == recipe.setting;
  const bool time_here = !parameters.own_boil_time || parameters.own_boil_setting == recipe.setting;

  parameters.of_tables = {mains.least, std::max(mains.most, dial)};
  parameters.of_reading = {mains.least, std::max(mains.most, rate_here && time_here ? 1.0 : dial)};
}

}  // namespace

ModelParameters ParameterCache::gather(Recipe asked, const Tables& tables) {
  const DesignDefaults& defaults = tables.design_defaults;
  ModelParameters parameters;
  parameters.recipe = std::move(asked);
  const Recipe& recipe = parameters.recipe;
  check_recipe(recipe, tables);
  const Length altitude = recipe.site.altitude.value_or(metres(0));
  const Pressure ambient =
      recipe.site.pressure ? *recipe.site.pressure : standard_pressure(altitude);
  if (!water_ || water_->ambient != ambient || water_->room != recipe.site.room) {
    water_ = site_water(ambient, recipe.site.room);
  }
  static_cast<SiteWater&>(parameters) = *water_;
  parameters.poured = recipe.water_temperature.value_or(recipe.site.room);
  if (recipe.water_temperature) {
    // Closer to boiling there would be nothing left to heat, and no time to boil.
    const Temperature most = parameters.boiling - kelvins(1);
    if (parameters.poured > most) {
      throw InputError(
          Fault{"", "/water_temperature", fmt::format("{:.4g} °C", in_celsius(parameters.poured)),
                fmt::format("a value from 1 to {:.1f} °C, which is 1 K below boiling at this site",
                            in_celsius(most)),
                "", 0, 0});
    }
  }
  parameters.pour_density =
      recipe.water_temperature ? liquid_density(parameters.poured) : parameters.fill_density;
  parameters.coolant = recipe.site.coolant.value_or(recipe.site.room);
  const Entry& entry = entry_for(recipe, tables);
  parameters.selected = entry.selected;
  parameters.still_doubts = entry.still_doubts;
  parameters.codistillation = entry.codistillation;

  parameters.own_rate_setting = recipe.own.setting.value_or(recipe.setting);
  parameters.own_boil_setting = recipe.own.boil_setting.value_or(parameters.own_rate_setting);
  if (recipe.own.distillate_rate) {
    parameters.own_rate = within(*recipe.own.distillate_rate, defaults.own_heat_accuracy);
  }
  if (recipe.own.boil_time) {
    const Volume water = recipe.own.boil_water ? *recipe.own.boil_water : *recipe.water;
    parameters.own_boil_time = within(*recipe.own.boil_time, defaults.own_heat_accuracy);
    parameters.own_boil_water = water * parameters.pour_density;
  }
  set_heat_margins(parameters, defaults);
  return parameters;
}

}  // namespace firstdrop
