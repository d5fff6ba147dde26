// Tests the schemas themselves. Each is complete on its own, explains every key and has valid
// examples. Names and units are those of the program.
#include "campaign/schema.hpp"

#include <algorithm>
#include <functional>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/quantity/units.hpp"
#include "quantity/clock_time.hpp"
#include "quantity/quantity_kind.hpp"
#include "quantity/water_amount.hpp"
#include "schemas/schema_check.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using nlohmann::json;
using schema_check::schema;

namespace {

std::vector<std::string> keys() {
  std::vector<std::string> all;
  for (const Schema& one : schemas(shipped_tables())) all.push_back(one.key);
  return all;
}

/// Calls visit(part, pointer) for a schema and every schema inside it.
void for_each_part(const json& part, const std::string& pointer,
                   const std::function<void(const json&, const std::string&)>& visit) {
  visit(part, pointer);
  if (!part.is_object()) return;
  for (const char* one : {"additionalProperties", "propertyNames", "items", "contains", "not", "if",
                          "then", "else"}) {
    if (part.contains(one)) for_each_part(part.at(one), pointer + '/' + one, visit);
  }
  for (const char* list : {"allOf", "anyOf", "oneOf"}) {
    if (!part.contains(list)) continue;
    for (std::size_t i = 0; i < part.at(list).size(); ++i) {
      for_each_part(part.at(list).at(i), pointer + '/' + list + '/' + std::to_string(i), visit);
    }
  }
  for (const char* map : {"properties", "definitions", "dependencies"}) {
    if (!part.contains(map)) continue;
    for (const auto& [key, value] : part.at(map).items()) {
      if (!value.is_array()) for_each_part(value, pointer + '/' + map + '/' + key, visit);
    }
  }
}

/// Checks documents by this part alone, with the definitions that it refers to.
std::function<std::string(const json&)> faults_by(const json& part, const json& definitions) {
  return schema_check::faults_by({{"allOf", {part}}, {"definitions", definitions}});
}

template <class Map>
std::set<std::string> keys_of(const Map& map) {
  std::set<std::string> names;
  for (const auto& entry : map) names.insert(entry.first);
  return names;
}

}  // namespace

TEST_CASE("there is a schema for all that is read and written", "[schema]") {
  CHECK(keys() == std::vector<std::string>{"recipe", "still", "plant", "campaign", "plan",
                                           "batch-line", "summary", "campaign-plan", "water-run",
                                           "table"});
  for (const Schema& one : schemas(shipped_tables())) {
    CAPTURE(one.key);
    CHECK_FALSE(one.about.empty());
    CHECK(one.text.find("\u00a0") == std::string::npos);  // a no-break space, which is invisible
    CHECK(json::parse(one.text).at("$schema") == "http://json-schema.org/draft-07/schema#");
  }
}

TEST_CASE("a schema is complete by itself, and has nothing to spare", "[schema]") {
  for (const std::string& key : keys()) {
    const json& whole = schema(key);
    std::set<std::string> used;
    for_each_part(whole, key, [&](const json& part, const std::string& pointer) {
      if (!part.is_object() || !part.contains("$ref")) return;
      CAPTURE(pointer);
      const auto reference = part.at("$ref").get<std::string>();
      REQUIRE(reference.starts_with("#/definitions/"));
      const std::string name = reference.substr(14);
      CHECK(whole.at("definitions").contains(name));
      used.insert(name);
      // In draft 7 everything beside a reference is ignored, and editors don't show it.
      CHECK(part.size() == 1);
    });
    CAPTURE(key);
    CHECK(used == keys_of(whole.at("definitions").get<std::map<std::string, json>>()));
  }
}

TEST_CASE("every key is explained, and every object is closed or says what else it holds",
          "[schema]") {
  std::size_t seen = 0;
  for (const std::string& key : keys()) {
    const json& whole = schema(key);
    for_each_part(whole, key, [&](const json& part, const std::string& pointer) {
      if (!part.is_object() || part.value("type", "") != "object") return;
      CAPTURE(pointer);
      if (!part.contains("oneOf") && !part.contains("required") && !part.contains("properties")) {
        CHECK(part.contains("additionalProperties"));
      }
      if (!part.contains("properties")) return;
      CHECK(part.contains("additionalProperties"));
      for (const auto& [name, value] : part.at("properties").items()) {
        CAPTURE(name);
        ++seen;
        const json* said = &value;
        while (!said->contains("description") && said->contains("$ref")) {
          said = &whole.at(json::json_pointer(said->at("$ref").get<std::string>().substr(1)));
        }
        REQUIRE(said->contains("description"));
        const auto words = said->at("description").get<std::string>();
        CHECK(words.size() > 4);
        CHECK(words.ends_with('.'));
      }
    });
  }
  CHECK(seen > 700);
}

TEST_CASE("examples and defaults hold in their schemas", "[schema]") {
  std::size_t seen = 0;
  for (const std::string& key : keys()) {
    const json& whole = schema(key);
    for_each_part(whole, key, [&](const json& part, const std::string& pointer) {
      if (!part.is_object()) return;
      std::vector<json> all = part.value("examples", std::vector<json>());
      if (part.contains("default")) all.push_back(part.at("default"));
      for (const json& example : all) {
        CAPTURE(pointer, example.dump());
        CHECK(faults_by(part, whole.at("definitions"))(example).empty());
        ++seen;
      }
    });
  }
  CHECK(seen > 200);
}

TEST_CASE("a plan's schema takes all codes of findings", "[schema]") {
  const json root = schema("plan").at("allOf").at(0);
  const json finding = root.at("properties").at("findings").at("items");
  const auto code = schema_check::faults_by(finding.at("properties").at("code"));
  for (const auto& one : shipped_tables().findings) {
    CAPTURE(one.first);
    CHECK(code(one.first).empty());
  }
  CHECK_FALSE(code("No code").empty());
}

TEST_CASE("with other tables the schemas have their names", "[schema]") {
  Tables other = shipped_tables();
  other.plants["hedge-herb"] = other.plants.at("lavender");
  other.plants.erase("lavender");
  for (const Schema& one : schemas(other)) {
    if (one.key != "recipe") continue;
    const auto faults = schema_check::faults_by(json::parse(one.text));
    const json recipe = {{"recipe", 1}, {"plant", "hedge-herb"}, {"still", "herb-pot"}};
    CHECK(faults(recipe).empty());
    CHECK_FALSE(schema_check::faults("recipe", recipe).empty());
    json shipped = recipe;
    shipped["plant"] = "lavender";
    CHECK_FALSE(faults(shipped).empty());
  }
}

namespace {

/// The definitions of tables and recipes together, which cover every kind of quantity that is read.
json all_definitions() {
  json all = schema("table").at("definitions");
  all.update(schema("campaign").at("definitions"));
  all.update(schema("recipe").at("definitions"));
  return all;
}

/// A function that tells whether a definition accepts a value.
std::function<bool(const json&)> taker(const std::string& definition) {
  const auto faults = faults_by({{"$ref", "#/definitions/" + definition}}, all_definitions());
  return [faults](const json& value) { return faults(value).empty(); };
}

/// Checks the texts of one kind of quantity, and the units in its figures. The schema must accept
/// what the reader accepts and nothing else.
void check_units(const QuantityKind& kind, const std::function<bool(const std::string&)>& reads,
                 const std::vector<std::string>& others) {
  std::string name = kind.name;
  std::replace(name.begin(), name.end(), ' ', '_');
  CAPTURE(name);
  std::vector<std::string> units = kind.units;
  units.insert(units.end(), kind.aliases.begin(), kind.aliases.end());
  const json definitions = all_definitions();
  const bool has_text = definitions.contains(name);
  const bool has_range = definitions.contains(name + "_range");
  REQUIRE((has_text || has_range));
  const auto takes_text = has_text ? taker(name) : nullptr;
  const auto takes_range = has_range ? taker(name + "_range") : nullptr;
  const auto figure = [](const std::string& unit) {
    return json{{"low", 1},     {"typical", 2},       {"high", 3},
                {"unit", unit}, {"basis", "made up"}, {"known", "from-memory"}};
  };
  const auto same = [&](const std::string& text) {
    CAPTURE(text);
    if (has_text) CHECK(takes_text(text) == reads(text));
  };
  for (const std::string& unit : units) {
    CAPTURE(unit);
    if (has_range) CHECK(takes_range(figure(unit)));
    for (const char* number :
         {"1",      "+1",    "-1",    "1.",      ".5",      "1.5",     "1e3",         "1E+3",
          "1.5e-3", ".5e1",  "0",     "007",     "",        ".",       "-",           "+-1",
          "1e",     "e3",    "1,5",   "1'000",   "1 000",   "0x1",     "inf",         "nan",
          "one",    "1/2",   "1,500", "0,500",   "00,5",    "1,2345",  "-1,5",        ",5",
          "1,",     "1,5,5", "1.5,5", "1,5.5",   "1,5e3",   "2/3",     "3/2",         "2/2",
          "0/2",    "01/2",  "1/7",   "5/16",    "1/20",    "-1/2",    "1 1/2",       "1  1/2",
          "1-1/2",  "0 1/2", "0-1/2", "1.5 1/2", "1 - 1/2", "1/2 1/2", "1234567 1/2", "½",
          "1½",     "1 ½",   "1-½",   "½½",      "½1",      "1.5½",    "0½",          "⅞",
          "1⁄2"}) {
      same(std::string(number) + " " + unit);
      same(std::string(number) + unit);
    }
    for (const char* blank : {"  ", "\u00a0", "\u2009", "\u202f", " \u2009", "\t", "\n"}) {
      same("1" + std::string(blank) + unit);
      same(std::string(blank) + "1 " + unit + blank);
    }
    same("1 " + unit + " " + unit);
    same("1 " + unit + "s");
    same("1 " + unit + " 2 " + unit);
    std::string upper = unit;
    std::transform(upper.begin(), upper.end(), upper.begin(),
                   [](char c) { return c >= 'a' && c <= 'z' ? char(c - 'a' + 'A') : c; });
    same("1 " + upper);
    if (const auto space = unit.find(' '); space != std::string::npos) {
      for (const char* blank : {"", "  ", "\u00a0"}) {
        std::string other = unit;
        same("1 " + other.replace(space, 1, blank));
      }
    }
  }
  for (const std::string& unit : others) {
    if (std::find(units.begin(), units.end(), unit) != units.end()) continue;
    CAPTURE(unit);
    same("1 " + unit);
    if (has_range) CHECK_FALSE(takes_range(figure(unit)));
  }
  same("");
  same("1");
  same("one");
}

template <class Q>
void check_units(const std::vector<std::string>& others) {
  check_units(
      quantity_kind<Q>(), [](const std::string& text) { return bool(parse_quantity<Q>(text)); },
      others);
}

template <class Q>
void add_units(std::vector<std::string>& all) {
  for (const std::string& unit : unit_symbols<Q>()) all.push_back(unit);
}

}  // namespace

TEST_CASE("quantities in the schemas have the units and the numbers that the reader takes",
          "[schema]") {
  std::vector<std::string> all = {"gram", "litre", "C", "hour", "pct", "bar", "dl", "stone"};
  add_units<Mass>(all);
  add_units<Volume>(all);
  add_units<Temperature>(all);
  add_units<Power>(all);
  add_units<Energy>(all);
  add_units<Duration>(all);
  add_units<Length>(all);
  add_units<Area>(all);
  add_units<Pressure>(all);
  add_units<Density>(all);
  add_units<VolumeFlow>(all);
  add_units<Fraction>(all);
  add_units<Rate>(all);
  add_units<SpecificVolume>(all);
  add_units<SpecificHeat>(all);
  add_units<HeatTransfer>(all);
  add_units<MolarMass>(all);
  check_units<Mass>(all);
  check_units<Volume>(all);
  check_units<Temperature>(all);
  check_units<TemperatureDifference>(all);
  check_units<Power>(all);
  check_units<Duration>(all);
  check_units<Length>(all);
  check_units<Area>(all);
  check_units<Pressure>(all);
  check_units<Density>(all);
  check_units<VolumeFlow>(all);
  check_units<Fraction>(all);
  check_units<Rate>(all);
  check_units<SpecificVolume>(all);
  check_units<SpecificHeat>(all);
  check_units<HeatTransfer>(all);
  check_units<MolarMass>(all);
  check_units<Current>(all);
  check_units<Voltage>(all);
  check_units(
      water_kind(), [](const std::string& text) { return bool(parse_water(text)); }, all);
}

namespace {

/// Checks all pairs and triples of parts against the reader. Returns how many are read.
int check_parts(const std::string& definition, const std::function<bool(const std::string&)>& reads,
                const std::vector<std::string>& parts) {
  const auto takes = taker(definition);
  int good = 0;
  const auto check = [&](const std::string& text) {
    CAPTURE(text);
    const bool taken = takes(text);
    CHECK(taken == reads(text));
    good += taken ? 1 : 0;
  };
  for (const std::string& a : parts) {
    for (const std::string& b : parts) {
      for (const char* blank : {"", " ", "\u202f "}) {
        check(a + blank + b);
        for (const std::string& c : parts) check(a + blank + b + blank + c);
      }
    }
  }
  return good;
}

template <class Q>
bool reads(const std::string& text) {
  return bool(parse_quantity<Q>(text));
}

}  // namespace

TEST_CASE("amounts of several parts in the schemas are those that the reader takes", "[schema]") {
  CHECK(check_parts("time", reads<Duration>,
                    {"1 h", "1.5 h", "20 min", "20.5 min", "30 s", "-5 min", "2e1 min", "1 d",
                     "1 1/2 min", "½ s"}) > 15);
  CHECK(check_parts("mass", reads<Mass>,
                    {"1 lb", "4 oz", "4 1/2 oz", "1,5 oz", "1 kg", "200 g", "3 mg", "1 pound"}) >
        15);
  CHECK(check_parts("volume", reads<Volume>,
                    {"1 gal", "2 qt", "1½ cups", "3 fl. oz.", "1/2 tsp", "1 L", "500 mL", "2 cm3",
                     "1-1/2 Cups"}) > 15);
  CHECK(check_parts("length", reads<Length>,
                    {"5 ft", "6 in", "6 1/2 in.", "1 m", "20 cm", "2.5 mm"}) > 10);
  const auto water = [](const std::string& text) { return bool(parse_water(text)); };
  CHECK(check_parts("amount_of_water", water,
                    {"1 gal", "2 qt", "1 kg", "200 g", "1 lb", "4 oz", "of water", "1 L of  water",
                     "1 kg of water", "water"}) > 10);
}

TEST_CASE("days and times in the schemas are those that the reader takes", "[schema]") {
  const auto day = taker("day");
  const auto time = taker("time_of_day");
  const auto minute = taker("minute");
  for (const std::string one :
       {"09:30",    "9:30",      "00:00",    "24:00",      "23:59",   "9:60",  "9:3",
        "9",        "9 am",      "9:30 am",  "9:30AM",     "12 pm",   "13 pm", "0 am",
        "00:30 am", "9:30 a.m.", "9:30 pm.", "9:30  p.m.", "9:30 Am", "",      " 9:30"}) {
    CAPTURE(one);
    CHECK(time(one) == parse_time_of_day(one).has_value());
    for (const char* between : {"T", " ", "  ", "\u00a0", "", " T", "t"}) {
      CAPTURE(between);
      const std::string both = "2026-06-20" + std::string(between) + one;
      CHECK(minute(both) == parse_local_minute(both).has_value());
    }
  }
  for (const std::string one :
       {"2026-06-20", "2026-6-20", "20.06.2026", "today", "2026-13-01", ""}) {
    CAPTURE(one);
    CHECK(day(one) == parse_local_day(one).has_value());
  }
}
