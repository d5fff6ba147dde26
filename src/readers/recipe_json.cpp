#include "firstdrop/readers/recipe_json.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "base/visible_text.hpp"
#include "firstdrop/quantity/units.hpp"
#include "quantity/clock_time.hpp"
#include "readers/field_bounds.hpp"
#include "readers/recipe_value.hpp"
#include "readers/table_json.hpp"

namespace firstdrop {
namespace {

using json::Context;
using json::Kind;
using json::Object;
using json::Value;

constexpr std::array all_places = {Place::indoors, Place::outdoors};
constexpr double any_price = 1e6;

/// Reads a plant or still given as a key of its table, the path of a file, or an object. `T` is its
/// type, and `from` reads it from a JSON value.
template <class T, class From>
std::optional<T> resolved(const Value& value, const std::map<std::string, T>& table,
                          const char* what, const Tables& tables, const FileReader& read_file,
                          From from) {
  if (value.is(Kind::object)) return from(value, Form::inline_object, tables);
  if (!value.is(Kind::text)) {
    value.refuse(
        fmt::format("a key of the {} table, a path that ends in .json, or an object", what));
    return std::nullopt;
  }
  const std::string& name = value.node().text;
  if (const auto entry = table.find(name); entry != table.end()) return entry->second;
  if (!name.ends_with(".json")) {
    std::vector<std::string> keys;
    for (const auto& entry : table) keys.push_back(entry.first);
    value.refuse_name(keys, fmt::format("a {} of the table", what),
                      "a file of your own is named by a path that ends in .json");
    return std::nullopt;
  }
  return from_own_file<T>(value, fmt::format("a key of the {} table or an object", what), read_file,
                          [&](const Value& root) { return from(root, Form::own_file, tables); });
}

void read_state_and_cut(Object& object, Recipe& recipe, bool has_plant) {
  bool good = true;
  const auto state = object.optional("state");
  if (state) {
    const auto choice = state->choice(all_states, "a state");
    good = choice.has_value();
    recipe.state = choice.value_or(recipe.state);
  }
  const auto cut = object.optional("cut");
  if (cut) recipe.cut = cut->choice(all_cuts, "a cut").value_or(recipe.cut);
  if (!has_plant || !good) return;

  const auto entry = recipe.plant->states.find(recipe.state);
  if (entry == recipe.plant->states.end()) {
    std::vector<std::string> states;
    for (const auto& other : recipe.plant->states) states.push_back(to_string(other.first));
    if (states.empty()) return;  // a fault of the plant, already reported
    const auto wanted =
        fmt::format("a state that {} has: {}", visible(recipe.plant->key), json::either(states));
    if (state)
      state->refuse(wanted);
    else
      object.fault_at("state", "nothing, which means fresh", wanted);
    return;
  }
  if (!cut) recipe.cut = default_cut(recipe.plant, recipe.state);
}

void read_method(Object& object, Recipe& recipe, bool has_still) {
  const auto value = object.optional("method");
  if (!value) return;
  const auto& methods = recipe.still->methods;
  const auto choice = value->choice(all_methods, "a method");
  if (!choice) return;
  recipe.method = *choice;
  if (!has_still || methods.empty()) return;
  if (std::find(methods.begin(), methods.end(), *choice) != methods.end()) return;
  std::vector<std::string> names;
  for (const Method method : methods) names.push_back(to_string(method));
  value->refuse(
      fmt::format("a method of the still {}: {}", visible(recipe.still->key), json::either(names)));
}

Site site_from(const Value& value) {
  Site site;
  Object object(value);
  const auto altitude = object.optional("altitude");
  if (altitude) site.altitude = altitude->quantity(bounds::altitude);
  const auto pressure = object.optional("pressure");
  if (pressure) site.pressure = pressure->quantity(bounds::pressure);
  if (altitude && pressure)
    value.fault("altitude and pressure", "one of the two: either tells the other");
  if (const auto room = object.optional("room"))
    site.room = room->quantity(bounds::room).value_or(site.room);
  object.optional_quantity("coolant", site.coolant, bounds::coolant);
  if (const auto place = object.optional("place"))
    site.place = place->choice(all_places, "a place").value_or(site.place);
  const auto mains = object.optional("mains");
  const auto circuit = object.optional("circuit");
  if (mains && circuit) {
    const auto volts_read = mains->quantity(bounds::mains);
    const auto amperes_read = circuit->quantity(bounds::breaker);
    if (volts_read && amperes_read) site.circuit = Circuit{*volts_read, *amperes_read};
  } else if (mains) {
    object.fault_at("circuit", "nothing",
                    "the rating of the breaker beside mains, such as \"16 A\"");
  } else if (circuit) {
    object.fault_at("mains", "nothing", "the voltage beside circuit, such as \"230 V\"");
  }
  object.finish();
  return site;
}

}  // namespace

Goal oil_goal_from(const Value& value) {
  if (value.is(Kind::text)) {
    const std::string& text = value.node().text;
    if (parse_quantity<Mass>(text)) {
      const auto mass = value.quantity(bounds::oil_mass);
      return OilGoal{mass.value_or(Mass())};
    }
    if (parse_quantity<Volume>(text)) {
      const auto volume = value.quantity(bounds::oil_volume);
      return OilGoal{volume.value_or(Volume())};
    }
  }
  value.refuse(fmt::format("{}; or {}", json::wanted_of<Mass>(), json::wanted_of<Volume>()),
               "in quotes, such as \"2 g\" or \"2 mL\"");
  return HarvestGoal{};
}

Goal hydrosol_goal_from(const Value& value) {
  return HydrosolGoal{value.quantity(bounds::water).value_or(Volume())};
}

std::optional<Fraction> confidence_from(const Value& value) {
  return value.quantity(bounds::confidence);
}

namespace {

Goal goal_from(const Value& value, std::optional<Fraction>& confidence) {
  Goal goal;
  Object object(value);
  std::vector<std::string> given;
  const auto take = [&](const char* key) {
    auto member = object.optional(key);
    if (member) given.emplace_back(key);
    return member;
  };
  if (const auto hydrosol = take("hydrosol")) goal = hydrosol_goal_from(*hydrosol);
  if (const auto ratio = take("ratio"))
    goal = RatioGoal{ratio->quantity(bounds::ratio).value_or(SpecificVolume())};
  if (const auto oil = take("oil")) goal = oil_goal_from(*oil);
  if (const auto share = take("oil_share"))
    goal = OilShareGoal{share->quantity(bounds::oil_share).value_or(Fraction())};
  if (const auto time = take("time"))
    goal = TimeGoal{time->quantity(bounds::run).value_or(Duration())};
  if (value.is(Kind::object) && given.size() != 1) {
    std::string found = "no goal";
    if (!given.empty()) {
      found = fmt::format("{} goals: {}", given.size(), given.front());
      for (std::size_t i = 1; i < given.size(); ++i) found += " and " + given[i];
    }
    value.fault(found, "exactly one of hydrosol, ratio, oil, oil_share or time",
                given.empty() ? "leave \"goal\" out to use the harvest up" : "");
  }
  if (const auto often = object.optional("confidence")) confidence = confidence_from(*often);
  if (confidence && std::holds_alternative<TimeGoal>(goal)) {
    object.fault_at("confidence", "a confidence beside a time",
                    "a confidence beside hydrosol, ratio, oil or oil_share",
                    "a run by the clock always ends in time; leave one of the two out");
  }
  object.finish();
  return goal;
}

OwnFigures own_from(const Value& value, bool has_water, bool has_circuit) {
  OwnFigures own;
  Object object(value);
  object.optional_quantity("bulk_density", own.bulk_density, bounds::bulk_density);
  object.optional_quantity("oil_content", own.oil_content, bounds::oil_content);
  object.optional_quantity("distillate_rate", own.distillate_rate, bounds::rate);
  object.optional_quantity("boil_time", own.boil_time, bounds::boil_time);
  object.optional_quantity("setting", own.setting, bounds::setting);
  object.optional_quantity("boil_setting", own.boil_setting, bounds::setting);
  const auto mains = object.optional("mains");
  if (mains) {
    own.mains = mains->quantity(bounds::mains);
    if (!has_circuit)
      mains->fault("a measured voltage without the rated one",
                   "site.mains, the voltage on the heater's nameplate, and site.circuit");
  }
  const auto water = object.optional("boil_water");
  if (water) own.boil_water = water->quantity(bounds::water);
  if (own.boil_time && !water && !has_water)
    object.fault_at("boil_water", "nothing",
                    "the water that was in the pot for boil_time, or the recipe's \"water\"");
  object.finish();
  return own;
}

Limits limits_from(const Value& value) {
  Limits limits;
  Object object(value);
  object.optional_quantity("time", limits.time, bounds::run);
  if (const auto absence = object.optional("absence"))
    limits.absence = absence->quantity(bounds::absence).value_or(limits.absence);
  object.finish();
  return limits;
}

Prices prices_from(const Value& value) {
  Prices prices;
  Object object(value);
  const auto energy = object.optional("energy_per_kwh");
  if (energy) prices.energy_per_kwh = energy->number(0, any_price);
  const auto plant = object.optional("plant_per_kg");
  if (plant) prices.plant_per_kg = plant->number(0, any_price);
  constexpr auto wanted = "the currency of the prices, such as \"EUR\"";
  if (energy || plant)
    object.words("currency", prices.currency, wanted);
  else
    object.optional_text("currency", prices.currency);
  object.finish();
  return prices;
}

}  // namespace

Recipe recipe_from(const Value& value, Form form, const Tables& tables,
                   const FileReader& read_file) {
  Recipe recipe;
  Object object(value);
  object.marker("recipe", form == Form::inline_object);
  object.remarks();
  object.optional_text("title", recipe.title);

  bool has_plant = false;
  if (const auto plant = object.required("plant", "a key of the plant table")) {
    auto found = resolved(*plant, tables.plants, "plant", tables, read_file, plant_from);
    has_plant = found.has_value();
    if (found) recipe.plant = std::move(*found);
  }
  read_state_and_cut(object, recipe, has_plant);
  object.optional_quantity("charge", recipe.charge, bounds::charge);

  bool has_still = false;
  if (const auto still = object.required("still", "a key of the still table")) {
    auto found = resolved(*still, tables.stills, "still", tables, read_file, still_from);
    has_still = found.has_value();
    if (found) recipe.still = std::move(*found);
  }
  read_method(object, recipe, has_still);
  const auto water = object.optional("water");
  if (water) recipe.water = water->quantity(bounds::water);
  object.optional_quantity("water_temperature", recipe.water_temperature, bounds::poured);
  if (const auto setting = object.optional("setting"))
    recipe.setting = setting->quantity(bounds::setting).value_or(recipe.setting);

  if (const auto site = object.optional("site")) recipe.site = site_from(*site);
  if (const auto goal = object.optional("goal")) recipe.goal = goal_from(*goal, recipe.confidence);
  if (const auto own = object.optional("own"))
    recipe.own = own_from(*own, water.has_value(), recipe.site.circuit.has_value());
  if (const auto limits = object.optional("limits")) recipe.limits = limits_from(*limits);
  if (const auto receiver = object.optional("receiver"))
    recipe.receiver = receiver->quantity(bounds::receiver);
  object.optional_text("lot", recipe.lot);
  if (const auto start = object.optional("start")) {
    if (start->is(Kind::text) && parse_local_minute(start->node().text))
      recipe.start = start->node().text;
    else
      start->refuse(local_minute_form);
  }
  if (const auto prices = object.optional("prices")) recipe.prices = prices_from(*prices);
  if (const auto units = object.optional("units"))
    recipe.units = units->choice(all_units, "a system of units").value_or(recipe.units);
  if (const auto seed = object.optional("seed"))
    recipe.seed = seed->whole_number().value_or(recipe.seed);
  object.finish();
  return recipe;
}

Recipe read_recipe(std::string_view text, const std::string& file, const Tables& tables,
                   const FileReader& read_file) {
  Context context{file, &tables.sources};
  Recipe recipe;
  if (const auto root = json::parse(text, context))
    recipe = recipe_from(Value(*root, context), Form::own_file, tables, read_file);
  context.finish();
  return recipe;
}

TablePart named_in_recipe(std::string_view text) {
  TablePart part;
  Context context;
  const auto root = json::parse(text, context);
  if (!root) return part;
  for (const auto& member : root->children) {
    if (member.kind != Kind::text) continue;
    if (member.key == "plant") part.plants.insert(member.text);
    if (member.key == "still") part.stills.insert(member.text);
  }
  return part;
}

DocumentKind document_kind(std::string_view text) {
  Context context;
  const auto root = json::parse(text, context);
  if (!root || root->kind != Kind::object) return DocumentKind::unknown;
  // A recipe has keys "plant" and "still" too, but never a number under them.
  DocumentKind kind = DocumentKind::unknown;
  for (const auto& member : root->children) {
    if (member.key == "campaign") return DocumentKind::campaign;
    if (member.key == "recipe") return DocumentKind::recipe;
    const bool still = member.key == "still";
    if (!still && member.key != "plant") continue;
    if (member.kind != Kind::number) return DocumentKind::recipe;
    kind = still ? DocumentKind::still : DocumentKind::plant;
  }
  return kind;
}

}  // namespace firstdrop
