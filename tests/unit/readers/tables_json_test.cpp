#include "firstdrop/readers/tables_json.hpp"

#include <fstream>
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <set>

#include "catch.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "output/explain.hpp"
#include "readers/table_entries.hpp"
#include "source_folder.hpp"
#include "unit/small_tables.hpp"

using namespace firstdrop;
using namespace small_tables;
using nlohmann::json;

namespace {

struct Expected {
  std::string part;     ///< of the valid text
  std::string instead;  ///< replaces it and makes the text invalid
  std::string pointer;
  std::string found;
  std::string wanted;
  std::string hint;
};

void check(const std::vector<Fault>& faults, const Expected& row) {
  CAPTURE(row.instead);
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].pointer == row.pointer);
  CHECK(faults[0].found == row.found);
  CHECK(faults[0].wanted == row.wanted);
  CHECK(faults[0].hint == row.hint);
}

std::string shipped_text(const std::string& name) {
  std::ifstream in(source_folder() / "data" / (name + ".json"), std::ios::binary);
  REQUIRE(in);
  return {std::istreambuf_iterator<char>(in), {}};
}

template <class Map>
std::vector<std::string> keys_of(const Map& map) {
  std::vector<std::string> keys;
  for (const auto& entry : map) keys.push_back(entry.first);
  return keys;
}

/// "a, b or c".
template <class All>
std::string names_of(const All& values) {
  std::vector<std::string> names;
  for (const auto value : values) names.push_back(to_string(value));
  std::string all;
  for (std::size_t i = 0; i < names.size(); ++i) {
    all += (i == 0 ? "" : i + 1 == names.size() ? " or " : ", ") + names[i];
  }
  return all;
}

/// All objects of a table with a basis: figures, vapour pressure equations, hazards.
void collect_cited(const json& value, std::vector<json>& into) {
  if (value.is_object() && value.contains("basis")) into.push_back(value);
  if (value.is_structured())
    for (const auto& child : value) collect_cited(child, into);
}

/// Numbers that are neither part of a figure nor a format version.
void collect_bare_numbers(const json& value, const std::string& pointer,
                          std::vector<std::string>& into) {
  for (const auto& [key, child] : value.items()) {
    const std::string here = pointer + "/" + key;
    const bool in_figure = value.is_object() && value.contains("basis");
    if (key == "studies" || key == "trials") continue;  // counts
    if (child.is_number() && !in_figure && !pointer.empty()) into.push_back(here);
    if (child.is_structured()) collect_bare_numbers(child, here, into);
  }
}

}  // namespace

TEST_CASE("tables are read whole", "[library]") {
  const Tables& read = tables();
  CHECK(read.sources.at("a-paper").seen == "whole");

  const Liquid& linalool = read.liquids.at("linalool");
  CHECK(linalool.key == "linalool");
  CHECK_THAT(linalool.molar_mass.typical().si(), WithinRel(0.15425, 1e-12));
  CHECK_THAT(linalool.vapour_pressure->a, WithinRel(20.5, 1e-15));
  CHECK_THAT(linalool.vapour_pressure->b.si(), WithinRel(3266.765, 1e-12));
  CHECK_THAT(linalool.vapour_pressure->c.si(), WithinRel(-68.039, 1e-12));
  CHECK_THAT(linalool.vapour_pressure->valid_to.kelvin(), WithinRel(429, 1e-12));
  CHECK(linalool.vapour_pressure->evidence.known == Known::computed);

  CHECK_THAT(read.materials.at("steel").specific_heat.typical().si(), WithinRel(500, 1e-12));
  CHECK(read.design_defaults.heater_efficiency.size() == 5);
  CHECK(read.design_defaults.cut_density.size() == 4);
  CHECK(read.design_defaults.recovery.size() == 3);
  CHECK(read.design_defaults.hydro_water.size() == 3);
  CHECK_THAT(read.design_defaults.steam_per_charge.typical().si(), WithinRel(2.0 / 3600, 1e-12));

  const Plant& herb = read.plants.at("hedge-herb");
  CHECK(herb.key == "hedge-herb");
  CHECK(herb.states.size() == 2);
  const PlantState& dried = herb.states.at(State::dried);
  REQUIRE(dried.bulk_density.size() == 2);
  CHECK(dried.bulk_density[0].cut == Cut::whole);
  CHECK(dried.bulk_density[1].cut == Cut::crushed);
  CHECK_FALSE(dried.oil_content);
  const OilContent& oil = *herb.states.at(State::fresh).oil_content;
  CHECK(oil.by_mass);
  CHECK_FALSE(oil.by_volume);
  CHECK(oil.per == OilPer::as_received);
  CHECK(oil.distilled == Distilled::to_stated_end);
  CHECK_THAT(herb.release.at(Method::steam).half_life.typical().si(), WithinRel(720, 1e-12));
  REQUIRE(herb.constituents.size() == 1);
  CHECK(herb.constituents[0].liquid == "linalool");
  CHECK(herb.wants_cohobation);
  REQUIRE(herb.hazards.size() == 1);
  CHECK(herb.hazards[0].evidence.known == Known::common_practice);

  const Still& still = read.stills.at("bench");
  CHECK(still.key == "bench");
  CHECK(still.methods == std::vector{Method::steam, Method::hydro});
  CHECK_THAT(in_litres(still.pot.volume.typical()), WithinRel(3, 1e-12));
  REQUIRE(still.column);
  CHECK_FALSE(still.grid);
  CHECK_THAT(in_watts(still.heater.power.range.low), WithinRel(950, 1e-12));
  CHECK_THAT(in_celsius(still.condenser.coolant_limit.typical()), WithinAbs(40, 1e-9));
}

TEST_CASE("oil content by volume is told by its unit", "[library]") {
  const std::string text =
      with(plants, figure("0.5", "0.8", "1", "%"), figure("5", "8", "12", "mL/kg"));
  TableTexts all = texts();
  all.plants = text;
  const Tables tables = read_tables(all);
  const OilContent& oil = *tables.plants.at("hedge-herb")->states.at(State::fresh).oil_content;
  CHECK_FALSE(oil.by_mass);
  REQUIRE(oil.by_volume);
  CHECK_THAT(in_litres_per_kilogram(oil.by_volume->typical()), WithinRel(0.008, 1e-12));
}

TEST_CASE("small tables: each fault at its place", "[library]") {
  const auto faults_in = [](std::string_view TableTexts::*table, const std::string& text) {
    TableTexts all = texts();
    all.*table = text;
    return faults_of([&] { read_tables(all); });
  };
  const std::string at_linalool = "/entries/linalool";
  const Expected liquid_rows[] = {
      {"\"78-70-6\"", "\"78-70-5\"", at_linalool + "/cas", "\"78-70-5\"",
       "a CAS Registry Number with its right check digit, such as \"7732-18-5\"", ""},
      {"a - b/(T/K + c)", "a - b/(T/K - c)", at_linalool + "/vapour_pressure/equation",
       "\"ln(P/Pa) = a - b/(T/K - c)\"",
       "\"ln(P/Pa) = a - b/(T/K + c)\", the one form that is computed", ""},
      {"\"a\": 20.5", "\"a\": \"20.5\"", at_linalool + "/vapour_pressure/a", "\"20.5\"",
       "a plain number from 0 to 100", "write it without quotes: 20.5"},
      {"\"429 K\"", "\"292 K\"", at_linalool + "/vapour_pressure/valid_to", "292 K",
       "a value above valid_from, 293 K", ""},
      {"\"3266.765 K\"", "3266.765", at_linalool + "/vapour_pressure/b",
       "the number 3266.765 without a unit", "a temperature difference with its unit: K",
       "put it in quotes, such as \"3266.765 K\""},
      {R"("source": "a-paper", "known": "computed")", R"("known": "computed")",
       at_linalool + "/vapour_pressure/source", "nothing",
       "the source of a figure that was computed", ""},
      {"{\"liquids\": 1", "{\"liquids\": 2", "/liquids", "the number 2",
       "the format version, \"liquids\": 1", ""},
  };
  for (const auto& row : liquid_rows)
    check(faults_in(&TableTexts::liquids, with(liquids, row.part, row.instead)), row);

  {
    const auto faults =
        faults_in(&TableTexts::materials, with(materials, "\"heat_loss\"", "\"heat_los\""));
    REQUIRE(faults.size() == 2);
    CHECK(faults[0].file == "materials.json");
    CHECK(faults[0].pointer == "/entries/steel/heat_loss");
    CHECK(faults[0].found == "nothing");
    CHECK(faults[0].wanted == "a heat transfer coefficient with its unit: W/(m2 K)");
    CHECK(faults[1].pointer == "/entries/steel/heat_los");
    CHECK(faults[1].hint == "did you mean \"heat_loss\"?");
  }
  {
    const auto faults =
        faults_in(&TableTexts::design_defaults, with(design_defaults, "\"gas-burner\"", "\"gas\""));
    REQUIRE(faults.size() == 2);
    CHECK(faults[0].pointer == "/heater_efficiency/gas");
    CHECK(faults[1].pointer == "/heater_efficiency/gas-burner");
  }
  check(faults_in(&TableTexts::sources, with(sources, "A. Author, 1999, A paper, p. 1", "")),
        {"", "", "/entries/a-paper/citation", "\"\"", "text that is not empty", ""});
}

TEST_CASE("faults of several tables come together, each with its file", "[library]") {
  TableTexts all = texts();
  const std::string bad_stills = with(stills, "\"kind\": \"reservoir\"", "\"kind\": \"bucket\"");
  all.liquids = "{";
  all.stills = bad_stills;
  const auto faults = faults_of([&] { read_tables(all); });
  // The plant's constituent isn't reported as unknown, because its table couldn't be read at all.
  REQUIRE(faults.size() == 2);
  CHECK(faults[0].file == "liquids.json");
  CHECK(faults[0].line == 1);
  CHECK(faults[1].file == "stills.json");
  CHECK(faults[1].pointer == "/entries/bench/condenser/kind");
  CHECK_THAT(faults[1].text(),
             Catch::Matchers::EndsWith(": entries: bench: condenser: kind: Found \"bucket\". Write "
                                       "ice-bath, reservoir or run-through."));
}

TEST_CASE("shipped tables take no plain quantity for a figure", "[library]") {
  TableTexts all = texts();
  const std::string text = with(stills, exactly("3", "L"), "\"3 L\"");
  all.stills = text;
  const auto faults = faults_of([&] { read_tables(all); });
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].pointer == "/entries/bench/pot/volume");
}

TEST_CASE("plants: each fault at its place", "[library]") {
  const std::string share_of_linalool = figure("25", "35", "45", "%");
  const Expected rows[] = {
      {"\"latin\": \"Herba saepis\"", "\"latin\": \"\"", "/latin", "\"\"", "text that is not empty",
       ""},
      {"\"wants_cohobation\": true", "\"wants_cohobation\": \"yes\"", "/wants_cohobation",
       "\"yes\"", "true or false", ""},
      {figure("60", "70", "80", "%"), figure("60", "70", "100", "%"), "/states/fresh/moisture/high",
       "100 %", "a value from 0 to less than 97 %", ""},
      {figure("120", "160", "200", "g/L"), "160", "/states/fresh/bulk_density/chopped",
       "the number 160 without a unit",
       "a density with its unit: g/L, kg/L, g/mL, kg/m3, mg/L, oz/cup, oz/qt or lb/gal",
       "put it in quotes, such as \"160 g/L\""},
      {"\"chopped\": ", "\"choped\": ", "/states/fresh/bulk_density/choped",
       "the unknown key \"choped\"", "one of whole, chopped, crushed or ground",
       "did you mean \"chopped\"?"},
      {"\"dried\": {", "\"dry\": {", "/states/dry", "the unknown key \"dry\"",
       "one of fresh, wilted or dried", ""},
      {"\"as-received\"", "\"as received\"", "/states/fresh/oil_content/per", "\"as received\"",
       "as-received or dry-matter", "did you mean \"as-received\"?"},
      {"\"distilled\": \"to-stated-end\"", "\"distilled\": 1",
       "/states/fresh/oil_content/distilled", "the number 1", "to-exhaustion or to-stated-end", ""},
      {"\"oil_content\": {\"figure\": " + figure("0.5", "0.8", "1", "%"),
       "\"oil_content\": {\"figure\": " + figure("0.5", "0.8", "50", "%"),
       "/states/fresh/oil_content/figure/high", "50 %", "a value from 0.0001 % to less than 50 %",
       ""},
      {"\"linalool\": " + share_of_linalool, "\"linalol\": " + share_of_linalool,
       "/constituents/linalol", "the unknown liquid \"linalol\"", "a key of the liquid table",
       "did you mean \"linalool\"? Run `firstdrop liquids` to list all"},
      {R"("steam": {"half_life")", R"("stem": {"half_life")", "/release/stem",
       "the unknown key \"stem\"", "one of steam, water-and-steam or hydro",
       "did you mean \"steam\"?"},
      {"\"It smells.\"", "\"It \\u001b[31mburns.\"", "/hazards/0/text", R"("It \u001b[31mburns.")",
       "text without control characters", ""},
      {figure("0.88", "0.885", "0.89", "g/mL"), figure("0.88", "0.87", "0.89", "g/mL"),
       "/oil_density", "low 0.88, typical 0.87, high 0.89 g/mL",
       "low, typical and high in rising order", ""},
  };
  const std::string good = R"({"plant": 1, )" + plant_fields + "}";
  CHECK(faults_of([&] { read_plant(good, "own.json", tables()); }).empty());
  for (const auto& row : rows) {
    const auto faults =
        faults_of([&] { read_plant(with(good, row.part, row.instead), "own.json", tables()); });
    CAPTURE(row.instead);
    CHECK(std::all_of(faults.begin(), faults.end(),
                      [](const Fault& fault) { return fault.file == "own.json"; }));
    const Fault fault = at(faults, row.pointer);
    CHECK(fault.found == row.found);
    CHECK(fault.wanted == row.wanted);
    CHECK(fault.hint == row.hint);
  }

  const std::vector<Expected> of_classes = {
      {"\"form\": \"leafy-herb\"", "\"form\": \"leafy-herbs\"", "/form", "\"leafy-herbs\"",
       "leafy-herb, leaf, flowers, needles, seed, wood, root or peel",
       "did you mean \"leafy-herb\"?"},
      {"\"surface-glands\"", "\"surface-gland\"", "/release_class", "\"surface-gland\"",
       "a release class: surface-glands or seed", "did you mean \"surface-glands\"?"},
      {"\"wants_cohobation\": true",
       "\"usual_cut\": {\"sign\": \"\", \"basis\": \"x\", \"known\": "
       "\"from-memory\"}",
       "/usual_cut/sign", "\"\"", "text that is not empty", ""},
      {"\"wants_cohobation\": true",
       "\"best_method\": {\"method\": \"stem\", \"why\": \"It is.\", "
       "\"basis\": \"x\", \"known\": \"from-memory\"}",
       "/best_method/method", "\"stem\"", "steam, water-and-steam or hydro",
       "did you mean \"steam\"?"},
      {"\"harms\": []", "\"harms\": [\"coma\", \"seizure\"]", "/hazards/0/harms/1", "\"seizure\"",
       names_of(all_harms), "did you mean \"seizures\"?"},
      {"\"harms\": []", "\"harms\": [\"coma\", \"fire\", \"coma\"]", "/hazards/0/harms/2",
       "\"coma\"", "each word once", ""},
      {"\"harms\": []", "\"harms\": [], \"ruled_out\": \"fire\"", "/hazards/0/ruled_out",
       "\"fire\"", "a list, [ … ]", ""},
      {"\"harms\": []", "\"harms\": [], \"routes\": [\"swallow\"]", "/hazards/0/routes/0",
       "\"swallow\"", names_of(all_routes), "did you mean \"swallowed\"?"},
      {"\"harms\": []", "\"harms\": [], \"at_risk\": [\"epilepsie\"]", "/hazards/0/at_risk/0",
       "\"epilepsie\"", names_of(all_at_risk), "did you mean \"epilepsy\"?"},
      {"\"harms\": []", "\"harms\": [], \"substances\": [\"fenols\"]", "/hazards/0/substances/0",
       "\"fenols\"", names_of(all_harmful_substances), "did you mean \"phenols\"?"},
      {"\"harms\": [], ", "", "/hazards/0/harms", "nothing",
       "a list, such as [\"seizures\", \"coma\"]", ""},
      {figure("8", "12", "20", "min"),
       with(figure("8", "12", "20", "min"), "}", ", \"scale\": \"log\"}"),
       "/release/steam/half_life/scale", "\"log\"",
       "\"ratio\" for a range by factors, or leave the key out", ""},
  };
  for (const auto& row : of_classes) {
    check(faults_of([&] { read_plant(with(good, row.part, row.instead), "own.json", tables()); }),
          row);
  }
  // A range by factors can't start at zero.
  const auto from_zero = with(good, figure("0.5", "0.8", "1", "%"),
                              with(figure("0", "0.8", "1", "%"), "}", ", \"scale\": \"ratio\"}"));
  CHECK_FALSE(faults_of([&] { read_plant(from_zero, "own.json", tables()); }).empty());

  const auto two_liquids =
      with(good, R"("constituents": {)",
           R"("constituents": {"linalool2": )" + figure("60", "66", "70", "%") + ", ");
  const auto faults = faults_of([&] { read_plant(two_liquids, "own.json", tables()); });
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].pointer == "/constituents/linalool2");
  // Rules between several figures are applied once each of them can be read.
  Tables more = tables();
  more.liquids["linalool2"] = more.liquids.at("linalool");
  const auto together = faults_of([&] { read_plant(two_liquids, "own.json", more); });
  REQUIRE(together.size() == 1);
  CHECK(together[0].pointer == "/constituents");
  CHECK(together[0].found == "typical shares of 101 % together");

  const auto missing = faults_of([&] {
    read_plant(R"({"plant": 1, "name": "x", "flash_point": "70 °C"})", "own.json", tables());
  });
  CHECK(missing.size() == 5);  // latin, part, states, oil_density, release
  CHECK(at(missing, "/states").found == "nothing");
  CHECK(at(missing, "/oil_density").found == "nothing");
}

TEST_CASE("a plant has oil in one state and a bulk density in each", "[library]") {
  const std::string good = R"({"plant": 1, )" + plant_fields + "}";
  const auto oil_at = good.find(R"(, "oil_content")");
  const std::string no_oil =
      good.substr(0, oil_at) + good.substr(good.find("}}", good.find("\"distilled\"")) + 1);
  auto faults = faults_of([&] { read_plant(no_oil, "own.json", tables()); });
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].pointer == "/states");
  CHECK(faults[0].found == "no oil_content in any state");

  const std::string no_density =
      with(good, R"("chopped": )" + figure("120", "160", "200", "g/L"), "");
  faults = faults_of([&] { read_plant(no_density, "own.json", tables()); });
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].pointer == "/states/fresh/bulk_density");
  CHECK(faults[0].wanted == "at least one of whole, chopped, crushed or ground");
}

TEST_CASE("what a state leaves out, its form must have", "[library]") {
  const std::string good = R"({"plant": 1, )" + plant_fields + "}";
  const std::string fresh_moisture = R"("moisture": )" + figure("60", "70", "80", "%") + ", ";
  // The form has no defaults for fresh material.
  auto faults =
      faults_of([&] { read_plant(with(good, fresh_moisture, ""), "own.json", tables()); });
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].pointer == "/states/fresh");
  CHECK(faults[0].found == "no moisture, and none in its form leafy-herb");
  // It has some for dried material, which don't help without the form.
  const std::string dried_moisture = R"("moisture": )" + figure("8", "10", "12", "%") + ", ";
  const std::string no_dried = with(good, dried_moisture, "");
  CHECK(faults_of([&] { read_plant(no_dried, "own.json", tables()); }).empty());
  faults = faults_of(
      [&] { read_plant(with(no_dried, R"("form": "leafy-herb", )", ""), "own.json", tables()); });
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].found == "no moisture, and no form");
  // A form that couldn't be read is one fault, not two.
  faults = faults_of(
      [&] { read_plant(with(no_dried, R"("leafy-herb")", R"("leaves")"), "own.json", tables()); });
  CHECK(faults.size() == 1);
  // The same goes for a class that couldn't be read, even if the plant has no release of its own.
  const auto at = good.find(R"("release": {)");
  const std::string no_release = good.substr(0, at) + good.substr(good.find(R"("oil_density")"));
  CHECK(faults_of([&] { read_plant(no_release, "own.json", tables()); }).empty());
  faults = faults_of([&] {
    read_plant(with(no_release, R"("surface-glands")", R"("surface")"), "own.json", tables());
  });
  CHECK(faults.size() == 1);
}

TEST_CASE("stills: each fault at its place", "[library]") {
  const std::string good = R"({"still": 1, )" + still_fields + "}";
  const Still still = read_still(good, "own.json", tables());
  CHECK(still.key == "own");
  const std::string pot_volume = exactly("3", "L");
  const std::string column_volume = exactly("2", "L");
  const Expected rows[] = {
      {R"(["steam", "hydro"])", "[]", "/methods", "an empty list",
       "at least one of steam, water-and-steam or hydro", ""},
      {R"(["steam", "hydro"])", R"(["steam", "steam"])", "/methods/1", "\"steam\"",
       "each word once", ""},
      {R"(["steam", "hydro"])", R"("steam")", "/methods", "\"steam\"", "a list, [ … ]", ""},
      {R"("hydro"])", R"("hydra"])", "/methods/1", "\"hydra\"", "steam, water-and-steam or hydro",
       "did you mean \"hydro\"?"},
      {R"("hydro"])", R"("water-and-steam"])", "/grid", "nothing",
       "a grid, because methods names water-and-steam", ""},
      {R"("pot": {"material": "steel")", R"("pot": {"material": "steal")", "/pot/material",
       "\"steal\"", "a key of the material table: steel", "did you mean \"steel\"?"},
      {exactly("180", "mm"), exactly("80", "mm"), "/pot/diameter",
       "a pot of 3 L and 80 mm across: 596.831 mm high, 7.46039 times its diameter",
       "sizes that give a height of 0.2 to 5 times the diameter", ""},
      {exactly("110", "mm"), exactly("300", "mm"), "/column/diameter",
       "a column of 2 L and 300 mm across: 28.2942 mm high, 0.094314 times its diameter",
       "sizes that give a height of 0.2 to 5 times the diameter", ""},
      {exactly("0.3", "L"), exactly("2.2", "L"), "/pot/minimum_water", "2.2 L of water at least",
       "a value below the pot's filling limit, 70 % of 3 L, that is 2.1 L", ""},
      {exactly("70", "%"), exactly("100", "%"), "/pot/fill_limit/low", "100 %",
       "a value from 1 % to less than 100 %", ""},
      {"\"electric-plate\"", "\"electric_plate\"", "/heater/kind", "\"electric_plate\"",
       "electric-plate, induction-plate, immersed-element, gas-burner or "
       "heating-mantle",
       "did you mean \"electric-plate\"?"},
      {figure("0.95", "1", "1.05", "kW"), figure("0", "1", "1.05", "kW"), "/heater/power/low",
       "0 kW", "a value from 10 W to 200 kW", ""},
      {R"(, "coolant": )" + exactly("10", "L"), "", "/condenser/coolant", "nothing",
       "a figure for the filling of the coolant vessel: a condenser of the kind reservoir needs it",
       ""},
      {exactly("2", "kg"), exactly("9.5", "kg"), "/condenser/ice_per_change",
       "9.5 kg of ice, which takes 10.3633 L",
       "a mass that takes at most what the coolant vessel holds, 10 L", ""},
      {exactly("40", "°C"), exactly("90", "°C"), "/condenser/coolant_limit/low", "90 °C",
       "a value above 0 and below 90 °C", ""},
  };
  for (const auto& row : rows) {
    const auto faults =
        faults_of([&] { read_still(with(good, row.part, row.instead), "own.json", tables()); });
    CAPTURE(row.instead);
    const Fault fault = at(faults, row.pointer);
    CHECK(fault.found == row.found);
    CHECK(fault.wanted == row.wanted);
    CHECK(fault.hint == row.hint);
  }

  const std::string with_grid =
      with(good, "\"head\": {",
           R"("grid": {"water_below": "0.2 L", "space": "2.9 L", "mass": "200 g"}, "head": {)");
  const auto faults = faults_of([&] { read_still(with_grid, "own.json", tables()); });
  REQUIRE(faults.size() == 2);
  CHECK(faults[0].pointer == "/grid");
  CHECK(faults[0].found == "0.2 L below the grid and 2.9 L above it, 3.1 L together");
  CHECK(faults[0].wanted == "values that add up to at most the pot's 3 L");
  CHECK(faults[1].pointer == "/grid/water_below");
  CHECK(faults[1].wanted == "a value of at least the pot's minimum_water, 0.3 L");

  const auto column_at = good.find("\"column\"");
  const std::string no_column = good.substr(0, column_at) + good.substr(good.find("\"head\""));
  check(faults_of([&] { read_still(no_column, "own.json", tables()); }),
        {"", "", "/column", "nothing", "a column, because methods names steam", ""});
}

TEST_CASE("a figure in a file of one's own may rest on a paper that our table lacks", "[library]") {
  const std::string text =
      R"({"still": 1, )" + with(still_fields, R"("source": "a-paper", )", "") + "}";
  const Still still = read_still(text, "own.json", tables());
  CHECK(still.pot.volume.evidence.sources.empty());
  CHECK(still.pot.volume.evidence.known == Known::read);
}

TEST_CASE("a file of one's own has its marker and may state plain quantities", "[library]") {
  const std::string good =
      R"({"still": 1, "key": "shed", )" + with(still_fields, exactly("3", "L"), "\"3.2 L\"") + "}";
  const Still still = read_still(good, "own.json", tables());
  CHECK(still.key == "shed");
  CHECK(in_litres(still.pot.volume.range.low) == in_litres(still.pot.volume.range.high));
  CHECK_THAT(in_litres(still.pot.volume.typical()), WithinRel(3.2, 1e-12));
  CHECK(still.pot.volume.evidence.known == Known::measured);
  CHECK(still.pot.volume.evidence.basis == "stated in the file");

  check(faults_of([&] { read_still("{" + still_fields + "}", "own.json", tables()); }),
        {"", "", "/still", "nothing", "the format version, \"still\": 1", ""});
  check(faults_of([&] { read_still("[]", "own.json", tables()); }),
        {"", "", "", "a list", "an object, { … }", ""});
}

TEST_CASE("shipped tables", "[library]") {
  const char* const names[] = {"sources",         "liquids", "materials",
                               "design_defaults", "forms",   "release_classes",
                               "plants",          "stills",  "findings"};
  std::map<std::string, std::string> text;
  for (const auto* name : names) text[name] = shipped_text(name);
  const TableTexts all{text["sources"],         text["liquids"], text["materials"],
                       text["design_defaults"], text["forms"],   text["release_classes"],
                       text["plants"],          text["stills"],  text["findings"]};
  Tables tables;
  try {
    tables = read_tables(all);
  } catch (const InputError& error) {
    FAIL(error.what());
  }

  CHECK(tables.stills.size() >= 5);
  std::set<Method> methods;
  std::set<HeaterKind> heaters;
  for (const auto& [key, still] : tables.stills) {
    methods.insert(still->methods.begin(), still->methods.end());
    heaters.insert(still->heater.kind);
  }
  CHECK(methods.size() == 3);
  CHECK(heaters.size() >= 2);

  int fresh_and_dried = 0;
  for (const auto& [key, plant] : tables.plants)
    if (plant->states.contains(State::fresh) && plant->states.contains(State::dried))
      ++fresh_and_dried;
  CHECK(fresh_and_dried >= 8);

  std::set<std::string> used;
  std::map<std::string, int> count;
  std::map<std::string, int> statements;  // hazards, signs, equations
  std::vector<std::string> bare_numbers;
  for (const auto* name : names) {
    const json table = json::parse(text[name]);
    std::vector<json> cited;
    collect_cited(table, cited);
    for (const auto& figure : cited) {
      ++(figure.contains("typical") ? count : statements)[figure.at("known").get<std::string>()];
      if (!figure.contains("source")) continue;
      const json& source = figure.at("source");
      for (const auto& key : source.is_array() ? source : json::array({source}))
        used.insert(key.get<std::string>());
    }
    collect_bare_numbers(table, "", bare_numbers);
  }
  CHECK(bare_numbers == std::vector<std::string>{});
  for (const EquationSource& source : equation_sources()) used.emplace(source.key);
  std::vector<std::string> unused;
  for (const auto& [key, source] : tables.sources)
    if (!used.contains(key)) unused.push_back(key);
  CHECK(unused == std::vector<std::string>{});

  int total = 0;
  for (const auto& [known, number] : count) {
    std::cout << "figures " << known << ": " << number << '\n';
    total += number;
  }
  std::cout << "figures in all: " << total << '\n';
  for (const auto& [known, number] : statements) {
    std::cout << "statements " << known << ": " << number << '\n';
  }
  CHECK(total > 300);
}

TEST_CASE("a part of the tables plans as the whole does", "[library]") {
  const TableTexts texts = embedded_table_texts();
  const Tables whole = read_tables(texts);
  // A plant that isn't in the table may be a user's own and name any liquid.
  const Tables open = read_tables(texts, {{"clove-bud", "my-plant.json"}, {"bench-basket"}});
  // It may be like any plant, too.
  CHECK(open.plants.size() == whole.plants.size());
  CHECK(open.liquids.size() == whole.liquids.size());
  CHECK(read_tables(texts, {{}, {"bench-basket"}}).liquids.size() == whole.liquids.size());
  const Tables part = read_tables(texts, {{"clove-bud"}, {"bench-basket"}});
  CHECK(part.plants.size() == 1);
  CHECK(part.stills.size() == 1);
  for (const Constituent& constituent : part.plants.at("clove-bud")->constituents) {
    CHECK(part.liquids.contains(constituent.liquid));
  }
  CHECK(part.liquids.size() < 10);
  REQUIRE(part.sources.size() == whole.sources.size());
  for (const auto& [key, source] : whole.sources) CHECK(part.sources.contains(key));
  Recipe recipe;
  recipe.plant = part.plants.at("clove-bud");
  recipe.state = State::dried;
  recipe.cut = Cut::crushed;
  recipe.still = part.stills.at("bench-basket");
  const std::string by_part = plan_json(make_plan(recipe, part));
  recipe.plant = whole.plants.at("clove-bud");
  recipe.still = whole.stills.at("bench-basket");
  CHECK(plan_json(make_plan(recipe, whole)) == by_part);
}

TEST_CASE("the entries of a table, found without reading it", "[library]") {
  const TableTexts texts = embedded_table_texts();
  const Tables whole = read_tables(texts);
  for (const auto& [table, keys] : std::map<std::string_view, std::vector<std::string>>{
           {texts.plants, keys_of(whole.plants)},
           {texts.stills, keys_of(whole.stills)},
           {texts.sources, keys_of(whole.sources)},
           {texts.liquids, keys_of(whole.liquids)}}) {
    std::vector<std::string> found;
    for (const auto& [key, text] : table_entries(table)) {
      found.emplace_back(key);
      CHECK(text.front() == '{');
      CHECK(json::accept(text));
    }
    std::sort(found.begin(), found.end());
    CHECK(found == keys);
  }
  // Braces, quotes and backslashes in a text do not end it.
  const auto entries = table_entries(
      R"({"t": 1, "entries": {"a": {"x": "} \" { \\"}, "b": {"y": {"z": [{}, 1]}}}})");
  REQUIRE(entries.size() == 2);
  CHECK(entries[0].second == R"({"x": "} \" { \\"})");
  CHECK(entries[1].first == "b");
  CHECK(entries[1].second == R"({"y": {"z": [{}, 1]}})");
  CHECK(table_entries("").empty());
  CHECK(table_entries(R"({"entries": {}})").empty());
}
