// Schemas and strict readers agree. Documents that together hold every key are spoilt, one place at
// a time. The schema must accept what the reader accepts. It must reject what the reader rejects,
// except for the kinds of faults that no schema can detect. With FIRSTDROP_SPOILT_ALL in the
// environment, each place gets every wrong value. Otherwise each place gets some of them, in
// rotation.
#include <algorithm>
#include <cstdlib>
#include <functional>
#include <iostream>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <vector>

#include "campaign/campaign_json.hpp"
#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "schemas/schema_check.hpp"
#include "test_tables.hpp"
#include "unit/small_tables.hpp"

using namespace firstdrop;
using nlohmann::json;
using schema_check::schema;

namespace {

#if defined(__SANITIZE_ADDRESS__) || !defined(NDEBUG)
constexpr std::size_t fewer = 5;
#else
constexpr std::size_t fewer = 1;
#endif

// --- documents with every key ------------------------------------------------------------------

constexpr const char* figure_with_all = R"(
  {"low": 150, "typical": 170, "high": 190, "unit": "g/L", "scale": "ratio",
   "basis": "made up", "source": ["own-invention", "common-practice"], "known": "measured"})";

json still_with_all() {
  return json::parse(R"({
    "$schema": "still.schema.json", "still": 1, "key": "mine", "note": "Made up.",
    "title": "Mine", "about": "For a test.", "methods": ["steam", "water-and-steam"],
    "pot": {"material": "copper", "volume": "20 L", "diameter": "300 mm", "mass": "4 kg",
            "fill_limit": "80 %", "minimum_water": "1 L"},
    "column": {"material": "glass", "volume": "5 L", "diameter": "16 cm",
               "mass": {"low": 1.2, "typical": 1.2, "high": 1.2, "unit": "kg", "basis": "made up",
                        "source": "own-invention", "known": "own-invention"}},
    "grid": {"water_below": "6 L", "space": "10 L", "mass": "0 kg"},
    "head": {"material": "aluminium", "mass": "0.5 kg", "surface": "0.08 m2"},
    "heater": {"kind": "gas-burner", "efficiency": "40 %",
               "power": {"low": 2.8, "typical": 3, "high": 3.1, "unit": "kW", "basis": "made up",
                         "known": "from-memory"}},
    "condenser": {"kind": "reservoir", "wall": "stainless-steel", "surface": "0.2 m2",
                  "outlet": {"low": 35, "typical": 35, "high": 35, "unit": "°C",
                             "basis": "made up", "known": "from-memory"},
                  "coolant_limit": "95 °F", "coolant": "30 L", "ice_per_change": "5 kg",
                  "flow_limit": "8 L/min"},
    "wall_hold_up": "30 g"})");
}

json plant_with_all() {
  json plant = json::parse(R"({
    "$schema": "plant.schema.json", "plant": 1, "key": "mine", "note": "Made up.",
    "name": "herb", "latin": "Herba mea", "part": "tops", "form": "leafy-herb", "loaded": "whole",
    "release_class": "seed",
    "states": {
      "fresh": {"moisture": "70 %", "bulk_density": {"chopped": "170 g/L", "whole": "100 g/L"},
                "oil_content": {"figure": "0.6 mL/100 g", "per": "as-received", "distilled": "to-stated-end",
                                "studies": 3.5, "trials": 2}},
      "wilted": {"moisture": "40 %", "bulk_density": {"crushed": "150 g/L", "ground": "300 g/L"}},
      "dried": {"oil_content": {"figure": "1.5 %", "per": "dry-matter", "distilled": "to-exhaustion"}}},
    "release": {"steam": {"half_life": "15 min", "fast_share": "10 %", "steam_flow": "1.5 1/h"},
                "water-and-steam": {"half_life": "20 min"}, "hydro": {"half_life": "30 min"}},
    "recovery": {"steam": "60 %", "water-and-steam": "65 %", "hydro": "70 %"},
    "oil_density": "0.89 g/mL",
    "constituents": {"linalool": "40 %", "camphor": "10 %"},
    "hydrosol_oil": "300 mg/L", "oil_freezes": "16 °C", "flash_point": "70 °C",
    "wants_cohobation": true,
    "usual_cut": {"time": "60 min", "sign": "The layer no longer grows.", "basis": "made up",
                  "source": "own-invention", "known": "own-invention"},
    "best_method": {"method": "steam", "why": "Made up.", "basis": "made up",
                    "source": ["own-invention"], "known": "own-invention"},
    "hazards": [{"harms": ["irritation", "seizures"], "ruled_out": ["sunburn"],
                 "routes": ["swallowed", "on-skin"], "at_risk": ["epilepsy"],
                 "substances": ["camphor"], "text": "Made up.", "basis": "made up",
                 "source": "own-invention", "known": "own-invention"}]})");
  plant["states"]["fresh"]["bulk_density"]["chopped"] = json::parse(figure_with_all);
  return plant;
}

json recipe_with_all() {
  json recipe = json::parse(R"({
    "$schema": "recipe.schema.json", "recipe": 1, "title": "All", "note": "Made up.",
    "state": "fresh", "cut": "chopped", "charge": "300 g", "method": "steam",
    "water": "8 L", "water_temperature": "60 °C", "setting": "90 %",
    "site": {"altitude": "300 m", "room": "21 °C", "coolant": "14 °C", "place": "outdoors",
             "mains": "230 V", "circuit": "16 A"},
    "goal": {"hydrosol": "800 mL", "confidence": "80 %"},
    "own": {"bulk_density": "170 g/L", "oil_content": "0.6 %", "distillate_rate": "20 mL/min",
            "boil_time": "30 min", "boil_water": "8 L", "setting": "60 %", "boil_setting": "90 %",
            "mains": "234 V"},
    "limits": {"time": "3 h", "absence": "10 min"},
    "receiver": "1 L", "lot": "L 7", "start": "2026-06-20T09:30",
    "prices": {"energy_per_kwh": 0.3, "plant_per_kg": 6, "currency": "EUR"},
    "units": "metric", "seed": 7})");
  recipe["plant"] = plant_with_all();
  recipe["still"] = still_with_all();
  return recipe;
}

json campaign_with_all() {
  json campaign = json::parse(R"({
    "$schema": "campaign.schema.json", "campaign": 1, "title": "All", "note": "Made up.",
    "units": "us",
    "bench": {"first_day": "2026-07-06", "last_day": "2026-07-18", "days": ["mon", "sat"],
              "off": ["2026-07-11"], "from": "09:00", "to": "17:00", "between_runs": "45 min",
              "ice_per_day": "4 kg"},
    "work": [
      {"$schema": "", "recipe": "recipe.json", "note": "Made up.", "harvest": "1.2 kg"},
      {"recipe": {"plant": "lavender", "still": "herb-pot"},
       "wanted": {"hydrosol": "5 L", "confidence": "80 %"}},
      {"recipe": {"plant": "lavender", "still": "herb-pot"}, "wanted": {"oil": "5 mL"}}]})");
  return campaign;
}

/// The document with other values in some places, given by JSON pointers.
json with(json document, const std::map<std::string, json>& values) {
  for (const auto& [pointer, value] : values) document[json::json_pointer(pointer)] = value;
  return document;
}
json without(json document, const std::string& pointer) {
  const json::json_pointer place(pointer);
  document.at(place.parent_pointer()).erase(place.back());
  return document;
}

std::string read_named_file(const std::string& name) {
  if (name.ends_with("recipe.json"))
    return R"({"recipe": 1, "plant": "lavender", "still": "herb-pot"})";
  throw InputError(Fault{name, "", "no such file", "a file", "", 0, 0});
}

using Faults = std::vector<Fault>;

Faults of_recipe(const json& document) {
  return small_tables::faults_of(
      [&] { read_recipe(document.dump(), "it", shipped_tables(), read_named_file); });
}
Faults of_still(const json& document) {
  return small_tables::faults_of([&] { read_still(document.dump(), "it", shipped_tables()); });
}
Faults of_plant(const json& document) {
  return small_tables::faults_of([&] { read_plant(document.dump(), "it", shipped_tables()); });
}
Faults of_campaign(const json& document) {
  return small_tables::faults_of(
      [&] { read_campaign(document.dump(), "it", shipped_tables(), read_named_file); });
}

/// A document to compare a schema with its reader.
struct Case {
  std::string schema;
  json document;
  std::function<Faults(const json&)> read;
};

std::vector<Case> cases() {
  std::vector<Case> all;
  const json recipe = recipe_with_all();
  for (const json& goal : {json{{"ratio", "1.5 L/kg"}}, json{{"oil", "2 mL"}}, json{{"oil", "2 g"}},
                           json{{"oil_share", "70 %"}}, json{{"time", "1 h 20 min"}}}) {
    all.push_back(
        {"recipe",
         with({{"recipe", 1}, {"plant", "lavender"}, {"still", "herb-pot"}}, {{"/goal", goal}}),
         of_recipe});
  }
  all.push_back({"recipe", recipe, of_recipe});
  all.push_back({"recipe",
                 with({{"recipe", 1}, {"plant", "lavender"}, {"still", "herb-pot"}},
                      {{"/site/pressure", "98 kPa"},
                       {"/own/boil_time", "20 min"},
                       {"/own/boil_water", "2 L"},
                       {"/prices/currency", ""}}),
                 of_recipe});
  const json still = still_with_all();
  all.push_back({"still", still, of_still});
  all.push_back(
      {"still",
       without(without(with(still, {{"/condenser/kind", "run-through"}}), "/condenser/coolant"),
               "/condenser/ice_per_change"),
       of_still});
  all.push_back(
      {"still",
       without(
           without(without(with(still, {{"/condenser/kind", "ice-bath"}, {"/methods", {"hydro"}}}),
                           "/condenser/flow_limit"),
                   "/column"),
           "/grid"),
       of_still});
  const json plant = plant_with_all();
  all.push_back({"plant", plant, of_plant});
  all.push_back({"plant", without(plant, "/release"), of_plant});
  all.push_back({"plant", without(plant, "/release_class"), of_plant});
  all.push_back(
      {"plant", with(without(plant, "/form"), {{"/states", {{"fresh", plant["states"]["fresh"]}}}}),
       of_plant});
  all.push_back({"campaign", campaign_with_all(), of_campaign});
  return all;
}

/// Small tables that hold every key. Each table's reader reads it together with the valid versions
/// of all others, so its faults are those of that table.
std::vector<Case> tables() {
  // The schema only accepts the names of materials in the shipped table.
  const auto renamed = [](std::string text) {
    for (auto at = text.find("\"steel\""); at != std::string::npos; at = text.find("\"steel\"", at))
      text.replace(at, 7, "\"copper\"");
    return json::parse(text);
  };
  const auto figure = [](double number, const char* unit) {
    return json::parse(small_tables::exactly(std::to_string(number), unit));
  };
  json liquids = json::parse(small_tables::liquids);
  json& linalool = liquids["entries"]["linalool"];
  linalool["density"] = figure(860, "g/L");
  linalool["water_solubility"] = figure(1.5, "g/L");
  linalool["boiling_point"] = figure(198, "°C");
  linalool["flash_point"] = figure(75, "°C");
  json forms = json::parse(small_tables::forms);
  forms["entries"]["leafy-herb"]["note"] = "Made up.";
  forms["entries"]["leafy-herb"]["hold_up"] = figure(2.5, "kg/kg");
  for (const char* state : {"fresh", "wilted"})
    forms["entries"]["leafy-herb"]["states"][state] = json::object();
  std::map<std::string, json> documents = {
      {"sources", json::parse(small_tables::sources)},
      {"liquids", liquids},
      {"materials", renamed(small_tables::materials)},
      {"design_defaults", json::parse(small_tables::design_defaults)},
      {"forms", forms},
      {"release_classes", json::parse(small_tables::release_classes)},
      {"plants", json::parse(small_tables::plants)},
      {"stills", renamed(small_tables::stills)},
      {"findings", json::parse(small_tables::findings)}};
  for (auto& entry : documents) {
    entry.second["$schema"] = "schemas/table.schema.json";
    entry.second["note"] = "Made up.";
  }
  std::vector<Case> all;
  for (const auto& [name, document] : documents) {
    all.push_back({"table", document, [documents, name = name](const json& table) {
                     std::map<std::string, std::string> texts;
                     for (const auto& [other, good] : documents) texts[other] = good.dump();
                     texts[name] = table.dump();
                     return small_tables::faults_of([&] {
                       read_tables(TableTexts{texts["sources"], texts["liquids"],
                                              texts["materials"], texts["design_defaults"],
                                              texts["forms"], texts["release_classes"],
                                              texts["plants"], texts["stills"], texts["findings"]});
                     });
                   }});
  }
  return all;
}

std::vector<Case> all_cases() {
  std::vector<Case> all = cases();
  for (Case& table : tables()) all.push_back(std::move(table));
  return all;
}

// --- places ------------------------------------------------------------------------------------

void for_each_place(const json& value, const json::json_pointer& pointer,
                    const std::function<void(const json&, const json::json_pointer&)>& visit) {
  visit(value, pointer);
  if (value.is_object()) {
    for (const auto& [key, member] : value.items()) for_each_place(member, pointer / key, visit);
  } else if (value.is_array()) {
    for (std::size_t i = 0; i < value.size(); ++i) for_each_place(value[i], pointer / i, visit);
  }
}

/// What a schema says about a place in a document. It has the parts of the schema that may apply to
/// the value there, after following references, combinations and conditions. It also has the keys
/// that must not be there.
struct Meant {
  std::vector<const json*> parts;
  std::set<std::string> forbidden;

  std::set<std::string> names() const {
    std::set<std::string> all;
    for (const json* part : parts) {
      if (!part->contains("properties")) continue;
      if (part->value("additionalProperties", json()) != false) continue;
      for (const auto& member : part->at("properties").items()) all.insert(member.key());
    }
    for (const std::string& name : forbidden) all.erase(name);
    return all;
  }
};

void forbid(const json& what, Meant& meant) {
  if (what.contains("anyOf")) {
    for (const json& one : what.at("anyOf")) forbid(one, meant);
  } else if (what.contains("required") && what.at("required").size() == 1) {
    meant.forbidden.insert(what.at("required").at(0).get<std::string>());
  }
}

void collect(const json& part, const json& whole, const json& value, Meant& meant) {
  if (!part.is_object()) return;
  if (part.contains("$ref")) {
    const auto reference = part.at("$ref").get<std::string>().substr(1);
    collect(whole.at(json::json_pointer(reference)), whole, value, meant);
    return;
  }
  for (const char* list : {"allOf", "anyOf", "oneOf"}) {
    if (!part.contains(list)) continue;
    for (const json& one : part.at(list)) collect(one, whole, value, meant);
  }
  if (part.contains("not")) forbid(part.at("not"), meant);
  if (part.contains("if")) {
    const bool is_so = schema_check::faults_by(part.at("if"))(value).empty();
    const char* branch = is_so ? "then" : "else";
    if (part.contains(branch)) collect(part.at(branch), whole, value, meant);
  }
  if (part.contains("properties") || part.contains("additionalProperties") ||
      part.contains("items")) {
    meant.parts.push_back(&part);
  }
}

/// Called as visit(value, pointer, meant) for each place of a document.
using Visit = std::function<void(const json&, const json::json_pointer&, const Meant&)>;
void walk(const json& value, const json& whole, const std::vector<const json*>& parts,
          const json::json_pointer& pointer, const Visit& visit) {
  Meant meant;
  for (const json* part : parts) collect(*part, whole, value, meant);
  visit(value, pointer, meant);
  const auto step = [&](const json& member, const std::string& key,
                        const json::json_pointer& place) {
    std::vector<const json*> inner;
    for (const json* part : meant.parts) {
      if (value.is_array()) {
        if (part->contains("items")) inner.push_back(&part->at("items"));
      } else if (part->contains("properties") && part->at("properties").contains(key)) {
        inner.push_back(&part->at("properties").at(key));
      } else if (part->contains("additionalProperties")) {
        inner.push_back(&part->at("additionalProperties"));
      }
    }
    walk(member, whole, inner, place, visit);
  };
  if (value.is_object()) {
    for (const auto& [key, member] : value.items()) step(member, key, pointer / key);
  } else if (value.is_array()) {
    for (std::size_t i = 0; i < value.size(); ++i) step(value[i], "", pointer / i);
  }
}

/// Collects in `names` the schema parts for keys of objects that say what other keys they take.
/// Each gets its path from the definition that contains it.
void name_parts(const json& part, const std::string& way,
                std::map<const json*, std::string>& names) {
  if (!part.is_object()) return;
  if (part.contains("properties") && part.contains("additionalProperties")) {
    for (const auto& [key, value] : part.at("properties").items()) {
      names.emplace(&value, way + '/' + key);
      name_parts(value, way + '/' + key, names);
    }
  }
  for (const char* list : {"allOf", "anyOf", "oneOf"}) {
    if (!part.contains(list)) continue;
    for (const json& one : part.at(list)) name_parts(one, way, names);
  }
  for (const char* inner : {"items", "additionalProperties"}) {
    if (part.contains(inner)) name_parts(part.at(inner), way, names);
  }
}

/// The names in a text such as "one of a, b or c" or "a cut: a or b".
std::set<std::string> names_wanted(const std::string& wanted) {
  const std::size_t colon = wanted.rfind(": ");
  std::string words = colon != std::string::npos ? wanted.substr(colon + 2) : wanted;
  if (words.starts_with("one of ")) words = words.substr(7);
  std::set<std::string> names;
  while (!words.empty()) {
    const std::size_t comma = words.find(", ");
    const std::size_t either = words.find(" or ");
    const std::size_t end = std::min(comma, either);
    names.insert(words.substr(0, end));
    words = end == std::string::npos ? "" : words.substr(end + (end == comma ? 2 : 4));
  }
  return names;
}

std::string shown(const Faults& faults) {
  std::string text;
  for (const Fault& fault : faults) text += fault.text() + "\n";
  return text;
}

// --- kinds of faults that no schema can detect --------------------------------------------------

struct Unseen {
  std::string kind;
  std::vector<std::string> wanted;  ///< parts of Fault::wanted that identify this kind
};

const std::vector<Unseen>& unseen() {
  static const std::vector<Unseen> all = {
      {"a quantity out of its range", {"a value from ", "a value above ", "a plain number from "}},
      {"figures out of order", {"in rising order", "a value above valid_from"}},
      {"a range where one value is wanted", {"one value"}},
      {"a geometry that cannot be",
       {"a height of 0.2 to 5 times", "a value below the pot's filling limit",
        "add up to at most the pot's", "at least the pot's minimum_water",
        "at most what the coolant vessel holds", "at most 100 % together"}},
      {"what another part of the document or a table lacks",
       {"a state that ", "a method of the still ", "a key of the source table",
        "a form of the material that has a default", "a key of the liquid table",
        "site.mains, the voltage on the heater"}},
      {"a file that is not there", {"a file"}},
      {"a day or time that cannot be",
       {"a day no earlier than first_day", "a day from 1900 on", "a time other than from",
        "that exists"}},
      {"a shipped figure without its evidence",
       {"the source of a figure that was", "another value: a shipped table"}},
      {"a shipped figure in short", {"a figure {\"low\""}},
      {"a check digit", {"right check digit"}},
  };
  return all;
}

std::string unseen_kind(const Fault& fault) {
  for (const Unseen& one : unseen()) {
    for (const std::string& part : one.wanted) {
      if (fault.wanted.find(part) != std::string::npos) return one.kind;
    }
  }
  return {};
}

}  // namespace

TEST_CASE("documents with every key are good for reader and schema", "[schema]") {
  for (const Case& one : all_cases()) {
    CAPTURE(one.schema, one.document.size());
    CHECK(shown(one.read(one.document)) == "");
    CHECK(schema_check::faults(one.schema, one.document) == "");
  }
}

TEST_CASE("schemas have the readers' keys and no other", "[schema]") {
  std::size_t compared = 0;
  std::set<std::string> all_keys;
  std::set<std::string> seen;
  for (const Case& one : all_cases()) {
    const json& whole = schema(one.schema);
    std::map<const json*, std::string> names;
    name_parts(whole, one.schema, names);
    for (const auto& [name, part] : whole.at("definitions").items()) name_parts(part, name, names);
    for (const auto& entry : names) all_keys.insert(entry.second);

    walk(one.document, whole, {&whole}, json::json_pointer(),
         [&](const json& value, const json::json_pointer& pointer, const Meant& meant) {
           if (!value.is_object()) return;
           for (const json* part : meant.parts) {
             if (!part->contains("properties")) continue;
             for (const auto& [key, member] : part->at("properties").items())
               if (value.contains(key) && names.contains(&member)) seen.insert(names.at(&member));
           }
           if (meant.names().empty()) return;
           json spoilt = one.document;
           spoilt[pointer / "zzz"] = 1;
           CAPTURE(one.schema, pointer.to_string());
           const auto faults = one.read(spoilt);
           const auto found = std::find_if(faults.begin(), faults.end(), [&](const Fault& fault) {
             return fault.pointer == (pointer / "zzz").to_string();
           });
           if (found == faults.end()) {
             FAIL_CHECK("the reader takes a key zzz:\n" << shown(faults));
             return;
           }
           CHECK(names_wanted(found->wanted) == meant.names());
           ++compared;
         });
  }
  CHECK(compared > 150);
  // Every key of every schema must be in one of the documents.
  std::set<std::string> missed;
  std::set_difference(all_keys.begin(), all_keys.end(), seen.begin(), seen.end(),
                      std::inserter(missed, missed.end()));
  CHECK(missed == std::set<std::string>{});
}

TEST_CASE("what a reader refuses its schema refuses, and the other way round", "[schema]") {
  const std::vector<json> values = {nullptr,
                                    true,
                                    false,
                                    0,
                                    1,
                                    2,
                                    -1,
                                    1.5,
                                    1e9,
                                    "",
                                    " ",
                                    "zzz",
                                    "1",
                                    "1 zz",
                                    "5 g",
                                    "5 L",
                                    "5 K",
                                    "5 °C",
                                    "5 W",
                                    "1 h 20 min",
                                    "5 cm",
                                    "5 m2",
                                    "95 kPa",
                                    "5 g/L",
                                    "5 L/min",
                                    "5 %",
                                    "5 1/h",
                                    "5 mL/100 g",
                                    "5 A",
                                    "5 V",
                                    "-5 %",
                                    "nowhere.json",
                                    "lavender",
                                    "steam",
                                    "dried",
                                    "ground",
                                    "copper",
                                    "a-paper",
                                    "measured",
                                    "2026-13-01",
                                    "2026-02-30",
                                    "2026-07-07T24:00",
                                    "24:00",
                                    "line\nfeed",
                                    json::array(),
                                    {"zzz"},
                                    {1},
                                    {"steam", "steam"},
                                    json::object(),
                                    {{"zzz", 1}}};
  struct Counts {
    long both_good = 0;
    long both_bad = 0;
    std::map<std::string, long> unseen;
  };
  std::map<std::string, Counts> counts;
  for (const Case& one : all_cases()) {
    Counts& count = counts[one.schema];
    // All values in all places would take about a minute. In rotation, every value still gets to
    // many places.
    static const char* const all = std::getenv("FIRSTDROP_SPOILT_ALL");
    const std::size_t every = all ? 1 : (one.schema == "table" ? 12 : 4) * fewer;
    std::size_t turn = 0;
    const auto compare = [&](const json& spoilt, const std::string& how) {
      const Faults by_reader = one.read(spoilt);
      const std::string by_schema = schema_check::faults(one.schema, spoilt);
      if (by_reader.empty() && by_schema.empty()) {
        ++count.both_good;
      } else if (!by_reader.empty() && !by_schema.empty()) {
        ++count.both_bad;
      } else if (by_reader.empty()) {
        FAIL_CHECK(one.schema << ": the schema refuses what the reader takes, " << how << '\n'
                              << by_schema);
      } else {
        std::string kind;
        for (const Fault& fault : by_reader) {
          kind = unseen_kind(fault);
          if (kind.empty()) break;
        }
        if (kind.empty()) {
          FAIL_CHECK(one.schema << ": the schema takes what the reader refuses, " << how << '\n'
                                << shown(by_reader));
        }
        ++count.unseen[kind];
      }
    };
    for_each_place(one.document, json::json_pointer(),
                   [&](const json& value, const json::json_pointer& pointer) {
                     const std::string place = pointer.to_string();
                     for (std::size_t i = turn++ % every; i < values.size(); i += every) {
                       const json& other = values[i];
                       if (other == value) continue;
                       json spoilt = one.document;
                       spoilt[pointer] = other;
                       compare(spoilt, other.dump() + " at " + place);
                     }
                     if (value.is_object()) {
                       json spoilt = one.document;
                       spoilt[pointer]["zzz"] = "1 g";
                       compare(spoilt, "a key zzz in " + place);
                     }
                     if (value.is_array()) {
                       json spoilt = one.document;
                       spoilt[pointer] = json::array();
                       compare(spoilt, "nothing in " + place);
                     }
                     if (pointer.empty()) return;
                     json spoilt = one.document;
                     json& parent = spoilt[pointer.parent_pointer()];
                     if (parent.is_object()) {
                       parent.erase(pointer.back());
                       compare(spoilt, "without " + place);
                     }
                   });
  }
  for (const auto& [key, count] : counts) {
    std::cout << key << ": " << count.both_good << " spoilt documents that both take, "
              << count.both_bad << " that both refuse\n";
    CHECK(count.both_good > 5);
    CHECK(count.both_bad > 100);
    for (const auto& [kind, number] : count.unseen)
      std::cout << "  " << number << " with " << kind << ", which the schema cannot see\n";
  }
  std::cout << std::flush;
}

// --- amounts too small to be intended -----------------------------------------------------------

namespace {

/// Collects the places of all texts that are a number with a unit, and of all figures with three
/// numbers.
void amounts_in(const json& node, const json::json_pointer& place, std::vector<std::string>& all) {
  if (node.is_string()) {
    const auto text = node.get<std::string>();
    const std::size_t blank = text.find(' ');
    const bool is_amount = blank != std::string::npos &&
                           text.find_first_not_of("0123456789.") == blank &&
                           text.find_first_of("0123456789") == 0;
    if (is_amount) all.push_back(place.to_string());
    return;
  }
  if (node.is_object() && node.contains("typical")) {
    all.push_back(place.to_string());
    return;
  }
  if (!node.is_structured()) return;
  for (const auto& item : node.items()) amounts_in(item.value(), place / item.key(), all);
}

/// The document with another number in the amount at this place. The unit stays.
json with_number(json document, const std::string& place, const std::string& number) {
  json& amount = document[json::json_pointer(place)];
  if (amount.is_object()) {
    for (const char* key : {"low", "typical", "high"}) amount[key] = json::parse(number);
  } else {
    const auto text = amount.get<std::string>();
    amount = number + text.substr(text.find(' '));
  }
  return document;
}

/// What is wrong with how a recipe is handled. Empty if the reader rejects it with a message, or if
/// its plan has only finite numbers.
std::string unsound(const json& document) {
  Recipe recipe;
  try {
    recipe = read_recipe(document.dump(), "recipe.json", shipped_tables(), read_named_file);
  } catch (const InputError& error) {
    return error.faults().empty() || error.faults().front().text().empty() ? "no words" : "";
  }
  try {
    const Plan plan = make_plan(recipe, shipped_tables(), {16, 1});
    const std::string text = plan_json(plan);
    for (const char* none : {"null", "nan", "inf,", "inf\n"}) {
      if (text.find(none) != std::string::npos) return none;
    }
  } catch (const InputError& error) {
    return std::string("the library refuses what the reader takes: ") + error.what();
  }
  return "";
}

}  // namespace

TEST_CASE("an amount that is far too small is refused, or planned without a null",
          "[schema][recipe]") {
  const json full = recipe_with_all();
  const json bare = without(without(without(full, "/own"), "/water"), "/charge");
  std::vector<json> documents = {full, bare};
  for (const char* method : {"water-and-steam", "hydro"}) {
    json other = bare;
    other["method"] = method;
    other["still"]["methods"] = {"steam", "water-and-steam", "hydro"};
    documents.push_back(other);
  }
  for (const char* goal : {R"({"ratio": "2 L/kg"})", R"({"oil": "2 g"})", R"({"oil": "2 mL"})",
                           R"({"oil_share": "75 %"})", R"({"time": "90 min"})"}) {
    json other = bare;
    other["goal"] = json::parse(goal);
    documents.push_back(other);
  }
  std::set<std::string> places;
  for (const json& document : documents) {
    REQUIRE(unsound(document).empty());
    std::vector<std::string> all;
    amounts_in(document, json::json_pointer(), all);
    for (const std::string& place : all) {
      places.insert(place);
      for (const char* number : {"4.9e-324", "1e-320", "1e-308", "1e-200", "1e-30", "1e-6"}) {
        INFO(place << " with " << number);
        CHECK(unsound(with_number(document, place, number)) == "");
      }
    }
  }
  // Places in the recipe itself, its still and its plant.
  CHECK(places.size() >= 50);
}

TEST_CASE("what a reader says of the least amount names it, and the unit that was meant",
          "[schema][recipe]") {
  const json full = recipe_with_all();
  const auto said_of = [&](const std::string& place, const std::string& text) -> std::string {
    try {
      read_recipe(with(full, {{place, text}}).dump(), "", shipped_tables(), read_named_file);
    } catch (const InputError& error) {
      Fault fault = error.faults().front();
      fault.line = fault.column = 0;  // depends on everything before it
      return fault.text();
    }
    return "";
  };
  CHECK(said_of("/charge", "0.2 g") ==
        "charge: Found \"0.2 g\". Write a value from 1 g to 1000 kg. This is too little to be "
        "meant. Did you mean \"0.2 kg\"?");
  CHECK(
      said_of("/still/pot/volume", "3 mL") ==
      "still: pot: volume: Found \"3 mL\". Write a value from 10 mL to 2000 L. This is too little "
      "to be meant. Did you mean \"3 L\"?");
  CHECK(said_of("/charge", "1e-320 g") ==
        "charge: Found \"1e-320 g\". Write a value from 1 g to 1000 kg. This is too little to be "
        "meant: check the number and its unit.");
  CHECK(said_of("/charge", "1 g") == "");
}
