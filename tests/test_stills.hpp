// Stills, recipes and the shipped tables for tests. The stills are defined here rather than read
// from the tables, so that a change to a shipped example changes no test.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "firstdrop/output/finding_words.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "firstdrop/tables/still.hpp"

namespace test_stills {

/// The tables that ship with the library.
inline const firstdrop::Tables& shipped() {
  static const firstdrop::Tables tables = firstdrop::read_tables(firstdrop::embedded_table_texts());
  return tables;
}

/// A figure with its range, made up for tests.
template <class T>
firstdrop::Cited<T> between(T low, T typical, T high) {
  return {{low, typical, high},
          {"made up for tests", {"own-invention"}, firstdrop::Known::own_invention}};
}
/// A figure without uncertainty, made up for tests.
template <class T>
firstdrop::Cited<T> exactly(T value) {
  return between(value, value, value);
}

/// Tables with round figures for hand-worked tests, so that a better shipped figure changes no
/// test. The round figures are near the shipped ones. Liquids and sources are the shipped ones.
inline const firstdrop::Tables& rules() {
  using namespace firstdrop;
  static const Tables tables = [] {
    Tables l = shipped();
    Material& steel = l.materials.at("stainless-steel");
    steel.specific_heat = exactly(kilojoules_per_kilogram_kelvin(0.477));
    steel.heat_loss =
        between(watts_per_square_metre_kelvin(6.1), watts_per_square_metre_kelvin(7.1),
                watts_per_square_metre_kelvin(8.7));
    steel.condensing =
        between(watts_per_square_metre_kelvin(500), watts_per_square_metre_kelvin(680),
                watts_per_square_metre_kelvin(1050));
    DesignDefaults& p = l.design_defaults;
    p.heater_efficiency.at(HeaterKind::electric_plate) =
        between(percent(55), percent(74), percent(80));
    p.stored_heat.at(HeaterKind::electric_plate) = exactly(seconds(0));
    p.particle_size.at(Cut::chopped) = between(millimetres(5), millimetres(10), millimetres(20));
    p.particle_size.at(Cut::ground) = between(millimetres(0.2), millimetres(0.5), millimetres(1));
    p.cut_density.at(Cut::crushed) = between(fraction(0.9), fraction(1.2), fraction(1.6));
    p.cut_density.at(Cut::ground) = between(fraction(0.9), fraction(1.4), fraction(2.0));
    p.recovery.at(Method::steam) = between(percent(50), percent(65), percent(90));
    p.recovery.at(Method::water_and_steam) = between(percent(50), percent(65), percent(90));
    p.recovery.at(Method::hydro) = between(percent(70), percent(85), percent(95));
    p.fast_share = exactly(percent(0));
    p.slow_rate = exactly(percent(10));
    p.flow_on_fast = exactly(percent(0));
    p.flow_on_slow = exactly(percent(0));
    p.mixing = exactly(percent(100));
    p.oil_left_per_hydrosol = exactly(percent(10));
    p.oil_left_per_hour = exactly(percent(2));
    p.hydrosol_per_fresh =
        between(litres_per_kilogram(1), litres_per_kilogram(1.5), litres_per_kilogram(2.5));
    p.stated_end = between(percent(88), percent(95), percent(98));
    p.drying_retention = between(percent(75), percent(90), percent(100));
    p.particle_density = between(grams_per_litre(700), grams_per_litre(950), grams_per_litre(1050));
    p.dry_specific_heat =
        between(kilojoules_per_kilogram_kelvin(0.84), kilojoules_per_kilogram_kelvin(1.4),
                kilojoules_per_kilogram_kelvin(1.7));
    p.hold_up = between(fraction(1.5), fraction(2.5), fraction(4));
    p.film_hold_up = between(percent(2), percent(8), percent(20));
    p.head_space = exactly(percent(10));
    p.uncondensed_loss = between(percent(0), percent(1), percent(3));
    p.reserve_share = exactly(percent(20));
    p.fill_error = between(percent(0.5), percent(1), percent(2));
    p.grid_clearance = exactly(percent(20));
    p.mains = exactly(percent(100));
    p.dial_error = exactly(percent(0));
    p.own_accuracy = exactly(percent(5));
    p.own_heat_accuracy = exactly(percent(5));
    p.own_oil_accuracy = exactly(percent(20));
    p.oil_gain = exactly(percent(2));
    p.steam_per_charge =
        between(Rate::from_si(0.25 / 3600), Rate::from_si(1.05 / 3600), Rate::from_si(1.9 / 3600));
    for (const State state : {State::fresh, State::wilted, State::dried}) {
      p.hydro_water.at(state) =
          between(litres_per_kilogram(2), litres_per_kilogram(2.5), litres_per_kilogram(4));
    }
    p.hydro_wetting = exactly(litres_per_kilogram(1));
    p.approach = exactly(kelvins(5));
    p.bath_loss = exactly(watts_per_square_metre_kelvin(9));
    return l;
  }();
  return tables;
}

/// A 2 L steel pot on an electric plate, with a column of volume `column` above it. The condenser
/// is in a reservoir of 80 L without ice, large enough for anything the plate can boil.
inline firstdrop::Still column_still(firstdrop::Volume column = firstdrop::litres(1),
                                     firstdrop::Power power = firstdrop::kilowatts(1)) {
  using namespace firstdrop;
  Still still;
  still.key = "test-column";
  still.title = "Test column";
  still.methods = {Method::steam};
  still.pot = {"stainless-steel",       exactly(litres(2)),   exactly(millimetres(160)),
               exactly(kilograms(0.9)), exactly(percent(85)), exactly(litres(0.2))};
  still.column = Column{"stainless-steel", exactly(column), exactly(millimetres(100)),
                        exactly(kilograms(0.5))};
  still.head = {"stainless-steel", exactly(kilograms(0.3)), exactly(square_metres(0.03))};
  still.heater = {HeaterKind::electric_plate, exactly(power), std::nullopt};
  still.condenser.kind = CondenserKind::reservoir;
  still.condenser.wall = "stainless-steel";
  still.condenser.surface = exactly(square_metres(0.1));
  still.condenser.outlet = exactly(celsius(40));
  still.condenser.coolant_limit = exactly(celsius(35));
  still.condenser.coolant = exactly(litres(80));
  still.condenser.ice_per_change = exactly(grams(0));
  still.wall_hold_up = exactly(grams(15));
  return still;
}

/// The same pot and plate with a coil in an iced bath.
inline firstdrop::Still iced_still(firstdrop::Volume column, firstdrop::Volume bath,
                                   firstdrop::Mass ice_per_change) {
  using namespace firstdrop;
  Still still = column_still(column);
  still.condenser.kind = CondenserKind::ice_bath;
  still.condenser.coolant = exactly(bath);
  still.condenser.ice_per_change = exactly(ice_per_change);
  return still;
}

/// As column_still(), with its coil on the tap.
inline firstdrop::Still tap_still(firstdrop::VolumeFlow flow_limit) {
  using namespace firstdrop;
  Still still = column_still();
  still.condenser.kind = CondenserKind::run_through;
  still.condenser.coolant = std::nullopt;
  still.condenser.ice_per_change = std::nullopt;
  still.condenser.flow_limit = exactly(flow_limit);
  return still;
}

/// A 10 L steel pot for herb in water, on a 2 kW plate, its coil on the tap.
inline firstdrop::Still hydro_still() {
  using namespace firstdrop;
  Still still = tap_still(millilitres_per_minute(5000));
  still.key = "test-hydro";
  still.methods = {Method::hydro};
  still.column = std::nullopt;
  still.pot = {"stainless-steel",     exactly(litres(10)),  exactly(millimetres(240)),
               exactly(kilograms(2)), exactly(percent(75)), exactly(litres(0.6))};
  still.heater.power = exactly(kilowatts(2));
  still.condenser.surface = exactly(square_metres(0.2));
  return still;
}

/// A 12 L steel pot with a grid over 4 L of water, on a 2 kW plate, its coil on the tap.
inline firstdrop::Still grid_still() {
  using namespace firstdrop;
  Still still = hydro_still();
  still.key = "test-grid";
  still.methods = {Method::water_and_steam};
  still.pot.volume = exactly(litres(12));
  still.grid = Grid{exactly(litres(4)), exactly(litres(6)), exactly(kilograms(0.8))};
  return still;
}

/// A made-up herb with round figures that stand for no real plant. Its fresh oil content is by
/// mass, as received, to exhaustion. Dried herb has no oil content of its own, so that of fresh
/// herb is converted.
inline firstdrop::Plant herb() {
  using namespace firstdrop;
  Plant plant;
  plant.key = "test-herb";
  plant.name = "test herb";
  plant.latin = "Herba probationis";
  plant.part = "tops";
  PlantState fresh;
  fresh.moisture = between(percent(65), percent(70), percent(75));
  fresh.bulk_density = {
      {Cut::chopped, between(grams_per_litre(120), grams_per_litre(170), grams_per_litre(220))}};
  OilContent content;
  content.by_mass = between(percent(0.6), percent(0.8), percent(1.0));
  content.per = OilPer::as_received;
  content.distilled = Distilled::to_exhaustion;
  fresh.oil_content = content;
  PlantState dried;
  dried.moisture = between(percent(8), percent(10), percent(12));
  dried.bulk_density = {
      {Cut::chopped, between(grams_per_litre(70), grams_per_litre(100), grams_per_litre(140))}};
  plant.states = {{State::fresh, fresh}, {State::dried, dried}};
  for (const Method method : {Method::steam, Method::water_and_steam, Method::hydro})
    plant.recovery[method] = between(percent(80), percent(92), percent(100));
  plant.release = {
      {Method::steam, {between(minutes(8), minutes(12), minutes(20)), std::nullopt}},
      {Method::water_and_steam, {between(minutes(10), minutes(15), minutes(25)), std::nullopt}},
      {Method::hydro,
       {between(minutes(15), minutes(25), minutes(40)),
        between(percent(5), percent(10), percent(20))}}};
  plant.oil_density = between(kilograms_per_cubic_metre(880), kilograms_per_cubic_metre(890),
                              kilograms_per_cubic_metre(900));
  plant.hydrosol_oil =
      between(milligrams_per_litre(200), milligrams_per_litre(400), milligrams_per_litre(600));
  return plant;
}

inline firstdrop::Recipe recipe(firstdrop::Plant plant, firstdrop::Still still,
                                firstdrop::Goal goal = firstdrop::HarvestGoal{}) {
  firstdrop::Recipe r;
  r.title = "test";
  r.plant = std::move(plant);
  r.still = std::move(still);
  r.method = r.still->methods.front();
  r.goal = std::move(goal);
  return r;
}

inline firstdrop::Recipe recipe(const std::string& plant, firstdrop::Still still,
                                firstdrop::Goal goal = firstdrop::HarvestGoal{}) {
  return recipe(shipped().plants.at(plant), std::move(still), std::move(goal));
}

/// A plan with the tables of rules(). It takes few samples, because tests of the nominal run need
/// no uncertainty.
inline firstdrop::Plan plan(const firstdrop::Recipe& r, int samples = 16) {
  return firstdrop::make_plan(r, rules(), samples);
}

/// A finding with its words and numbers, as people and scripts read it.
struct SaidFinding {
  std::string code;
  firstdrop::Level level = firstdrop::Level::note;
  std::string text;
  std::optional<firstdrop::Amount> value;
  std::optional<firstdrop::Amount> limit;
  std::string reason;
  std::string follows;
};
inline SaidFinding said(const firstdrop::Finding& f, firstdrop::Units units) {
  const auto [value, limit] = firstdrop::finding_amounts(f);
  return {std::string(f.code()),
          f.level,
          firstdrop::finding_text(f, units),
          value,
          limit,
          firstdrop::finding_reason(f),
          firstdrop::finding_follows(f)};
}

/// The finding with this code, if the plan has it.
inline std::optional<SaidFinding> finding(const firstdrop::Plan& p, const std::string& code) {
  const auto found = std::find_if(p.findings.begin(), p.findings.end(),
                                  [&](const auto& f) { return f.code() == code; });
  if (found == p.findings.end()) return std::nullopt;
  return said(*found, p.recipe.units);
}

/// All findings in one text, for messages.
inline std::string codes(const firstdrop::Plan& p) {
  std::string all;
  for (const auto& f : p.findings) {
    all += std::string(f.code()) + " [" + to_string(f.level) + "] " +
           firstdrop::finding_text(f, p.recipe.units) + "\n";
  }
  return all;
}

}  // namespace test_stills
