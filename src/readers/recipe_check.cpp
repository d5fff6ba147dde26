#include "readers/recipe_check.hpp"

#include <optional>
#include <string>
#include <variant>

#include "firstdrop/base/error.hpp"
#include "readers/field_bounds.hpp"

namespace firstdrop {
namespace {

void must(bool holds, const char* pointer, const std::string& wanted) {
  if (!holds) throw InputError(Fault{"", pointer, "an amount out of range", wanted, "", 0, 0});
}

// NaN and infinity are outside every range.
template <class Q>
void within(const Q& amount, const Bounds<Q>& bounds, const char* pointer) {
  if (bounds.holds(amount)) return;
  throw InputError(Fault{"", pointer, "an amount out of range", bounds.text(), bounds.why, 0, 0});
}
template <class Q>
void within(const std::optional<Q>& amount, const Bounds<Q>& bounds, const char* pointer) {
  if (amount) within(*amount, bounds, pointer);
}

void check_parts(const Recipe& recipe) {
  const Still& still = recipe.still;
  must(recipe.method_used() != Method::steam || still.column, "/still", "a column, for steam");
  must(recipe.method_used() != Method::water_and_steam || still.grid, "/still", "a grid");
  const bool tap = still.condenser.kind == CondenserKind::run_through;
  must(tap ? still.condenser.flow_limit.has_value() : still.condenser.coolant.has_value(),
       "/still/condenser", "flow_limit for a tap, coolant for a bath or reservoir");
  must(recipe.plant->states.contains(recipe.state), "/state", "a state of the plant");
}

void check_goal(const Recipe& recipe) {
  const bool uncertain = !std::holds_alternative<TimeGoal>(recipe.goal) &&
                         !std::holds_alternative<HarvestGoal>(recipe.goal);
  must(!recipe.confidence || uncertain, "/goal/confidence",
       "only beside hydrosol, ratio, oil or oil_share");
  within(recipe.confidence, bounds::confidence, "/goal/confidence");
  if (const auto* hydrosol = std::get_if<HydrosolGoal>(&recipe.goal)) {
    within(hydrosol->volume, bounds::water, "/goal/hydrosol");
  } else if (const auto* ratio = std::get_if<RatioGoal>(&recipe.goal)) {
    within(ratio->hydrosol_per_fresh, bounds::ratio, "/goal/ratio");
  } else if (const auto* share = std::get_if<OilShareGoal>(&recipe.goal)) {
    within(share->share, bounds::oil_share, "/goal/oil_share");
  } else if (const auto* time = std::get_if<TimeGoal>(&recipe.goal)) {
    within(time->time, bounds::run, "/goal/time");
  } else if (const auto* oil = std::get_if<OilGoal>(&recipe.goal)) {
    if (const auto* mass = std::get_if<Mass>(&oil->amount))
      within(*mass, bounds::oil_mass, "/goal/oil");
    else
      within(std::get<Volume>(oil->amount), bounds::oil_volume, "/goal/oil");
  }
}

}  // namespace

void check_recipe(const Recipe& recipe) {
  check_parts(recipe);
  within(recipe.charge, bounds::charge, "/charge");
  within(recipe.water, bounds::water, "/water");
  within(recipe.water_temperature, bounds::poured, "/water_temperature");
  within(recipe.setting, bounds::setting, "/setting");
  within(recipe.receiver, bounds::receiver, "/receiver");

  within(recipe.site.altitude, bounds::altitude, "/site/altitude");
  within(recipe.site.pressure, bounds::pressure, "/site/pressure");
  within(recipe.site.room, bounds::room, "/site/room");
  within(recipe.site.coolant, bounds::coolant, "/site/coolant");
  if (const auto& circuit = recipe.site.circuit) {
    within(circuit->mains, bounds::mains, "/site/mains");
    within(circuit->breaker, bounds::breaker, "/site/circuit");
  }

  const OwnFigures& own = recipe.own;
  within(own.bulk_density, bounds::bulk_density, "/own/bulk_density");
  within(own.oil_content, bounds::oil_content, "/own/oil_content");
  within(own.distillate_rate, bounds::rate, "/own/distillate_rate");
  within(own.boil_time, bounds::boil_time, "/own/boil_time");
  within(own.boil_water, bounds::water, "/own/boil_water");
  within(own.setting, bounds::setting, "/own/setting");
  within(own.boil_setting, bounds::setting, "/own/boil_setting");
  within(own.mains, bounds::mains, "/own/mains");

  within(recipe.limits.time, bounds::run, "/limits/time");
  within(recipe.limits.absence, bounds::absence, "/limits/absence");
  check_goal(recipe);
}

}  // namespace firstdrop
