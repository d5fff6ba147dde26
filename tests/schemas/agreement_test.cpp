// Schemas and strict readers agree. Documents that together hold every key are spoilt, one place at
// a time. The schema must accept what the reader accepts. It must reject what the reader rejects,
// except for the kinds of faults that no schema can detect. With FIRSTDROP_SPOILT_ALL in the
// environment, each place gets every wrong value. Otherwise each place gets some of them, in
// rotation.
#include <cstdlib>
#include <functional>
#include <iostream>
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
#include "schemas/every_key.hpp"
#include "schemas/schema_check.hpp"
#include "test_tables.hpp"
#include "unit/small_tables.hpp"

using namespace firstdrop;
using nlohmann::json;

namespace {

#if defined(__SANITIZE_ADDRESS__) || !defined(NDEBUG)
constexpr std::size_t fewer = 5;
#else
constexpr std::size_t fewer = 1;
#endif

// --- documents with every key ------------------------------------------------------------------

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
  if (name != "nowhere.json") return R"({"recipe": 1, "plant": "lavender", "still": "herb-pot"})";
  throw InputError(Fault{name, "", "no such file", "a file", "", 0, 0});
}

/// Sizes of a still that has a column and a grid; the examples of keys are of stills with one.
json roomy(const json& still) {
  return with(still, {{"/pot/volume", "20 L"}, {"/pot/diameter", "300 mm"}});
}
json still_with_all(bool with_ranges = false) {
  return roomy(every_key::document("still", {.with_ranges = with_ranges}));
}
json plant_with_all(bool with_ranges = false) {
  return with(every_key::document("plant", {.with_ranges = with_ranges}),
              {{"/states/dried/oil_content/figure", "0.8 mL/100 g"}});
}

const std::set<std::string> goals = {"goal.hydrosol", "goal.ratio", "goal.oil", "goal.oil_share",
                                     "goal.time"};

/// A recipe with this goal and every key, except for some.
json recipe_with_all(const std::string& goal, std::set<std::string> left_out, bool by_name) {
  left_out.insert(goals.begin(), goals.end());
  left_out.erase(goal);
  left_out.insert("plants");
  left_out.insert("fractions");
  if (goal == "goal.time") left_out.insert("goal.confidence");
  json recipe = every_key::document("recipe", {.left_out = left_out, .by_name = by_name});
  if (!by_name) recipe["still"] = roomy(recipe["still"]);
  return recipe;
}
json recipe_with_all() {
  return recipe_with_all("goal.hydrosol", {"site.pressure"}, false);
}

json recipe_of_blend() {
  json recipe =
      recipe_with_all("goal.hydrosol", {"site.pressure", "plant", "receiver_volume"}, true);
  recipe["fractions"] = {{{"until", "200 mL"}}, json::object()};
  recipe["plants"] = {{{"plant", "lavender"}, {"share", "60 %"}},
                      {{"plant", "rosemary"}, {"share", "40 %"}}};
  return recipe;
}

json campaign_with_all() {
  const auto made = [](const std::set<std::string>& left_out) {
    std::set<std::string> all = left_out;
    all.insert("work[].recipe.plants");
    all.insert("work[].recipe.fractions");
    return every_key::document("campaign", {.left_out = all, .by_name = true});
  };
  json campaign = made({"work[].wanted"});
  json& work = campaign["work"];
  work.push_back(made({"work[].harvest", "work[].wanted.oil"})["work"][0]);
  work.push_back(made({"work[].harvest", "work[].wanted.hydrosol"})["work"][0]);
  work[1]["recipe"] = {{"plant", "lavender"}, {"still", "herb-pot"}};
  return campaign;
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
  const std::set<std::string> rest = {"own", "limits", "prices", "site.altitude"};
  for (const std::string& goal : goals)
    all.push_back({"recipe", recipe_with_all(goal, rest, true), of_recipe});
  all.push_back({"recipe", recipe_with_all(), of_recipe});
  all.push_back({"recipe", recipe_of_blend(), of_recipe});
  all.push_back({"recipe", recipe_with_all("goal.oil", {"water", "site"}, true), of_recipe});
  all.back().document["own"].erase("mains");
  all.back().document["prices"] = {{"currency", ""}};
  const json still = still_with_all();
  all.push_back({"still", still, of_still});
  all.push_back({"still", still_with_all(true), of_still});
  all.push_back(
      {"still",
       without(without(with(still, {{"/condenser/kind", "run-through"}}), "/condenser/coolant"),
               "/condenser/ice_per_change"),
       of_still});
  all.push_back({"still",
                 without(without(without(with(still, {{"/condenser/kind", "reservoir"},
                                                      {"/methods", {"water-and-steam", "hydro"}}}),
                                         "/condenser/flow_limit"),
                                 "/column"),
                         "/key"),
                 of_still});
  const json plant = plant_with_all();
  all.push_back({"plant", plant, of_plant});
  all.push_back({"plant", plant_with_all(true), of_plant});
  all.push_back({"plant", without(plant, "/release"), of_plant});
  all.push_back({"plant", without(plant, "/release_class"), of_plant});
  all.push_back({"plant", without(plant, "/form"), of_plant});
  all.push_back({"campaign", campaign_with_all(), of_campaign});
  return all;
}

/// Tables that hold every key. Each table's reader reads it together with the valid versions of all
/// others, so its faults are those of that table.
std::vector<Case> tables() {
  const std::map<std::string, std::vector<std::string>> entries = {
      {"sources", {"common-practice", "own-invention"}},
      {"liquids", {"linalool", "linalyl-acetate"}},
      {"materials", {shipped_tables().materials.begin()->first}},
      {"design_defaults", {}},
      {"forms", {}},
      {"release_classes", {"surface-glands"}},
      {"plants", {"an-herb"}},
      {"stills", {"a-still"}},
      {"findings", {"steam-escapes"}}};
  std::map<std::string, json> documents;
  for (const auto& [name, keys] : entries)
    documents[name] = every_key::document(name, {.in_table = true, .entries = keys});
  for (json& liquid : documents["liquids"]["entries"])
    liquid["vapour_pressure"].update({{"valid_from", "293 K"}, {"valid_to", "429 K"}});
  json& forms = documents["forms"]["entries"];
  forms = {{"leafy-herb", forms["leafy-herb"]}, {"seed", forms["seed"]}};
  json& still = documents["stills"]["entries"]["a-still"];
  still["pot"]["volume"].update({{"low", 20}, {"typical", 20}, {"high", 20}});
  still["pot"]["diameter"].update({{"low", 300}, {"typical", 300}, {"high", 300}});
  documents["findings"]["entries"]["steam-escapes"]["standing"] = true;
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
        "at most what the coolant vessel holds", "at most 100 % together",
        "shares of 100 % together", "each plant once", "plants that all have figures",
        "ends that rise", "until in every fraction but the last", "no until in the last fraction"}},
      {"what another part of the document or a table lacks",
       {"a state that ", "a method of the still ", "a key of the source table",
        "a form of the material that has a default", "a key of the liquid table",
        "Correct the others first"}},
      {"a file that is not there", {"a file"}},
      {"a day or time that cannot be",
       {"a day no earlier than first_day", "a day from 1900 on", "a time other than from",
        "that exists"}},
      {"a shipped figure without its evidence",
       {"the source of a figure that was", "another value: a shipped table"}},
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
    const std::size_t every = all ? 1 : (one.schema == "table" ? 24 : 8) * fewer;
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
