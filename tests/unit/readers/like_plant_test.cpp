// A plant that isn't in the table, planned by what it is like. Ranges are worked out by hand from
// the rows of data/plants.json, data/forms.json and data/design_defaults.json.
#include <cmath>
#include <string>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "test_tables.hpp"

using namespace firstdrop;

namespace {

Recipe recipe_of(const std::string& plant, State state = State::fresh) {
  return read_recipe(R"({"recipe": 1, "still": "bench-column", "state": ")" + to_string(state) +
                         R"(", "plant": )" + plant + "}",
                     "r.json", shipped_tables(), nullptr);
}

std::string faults_of(const std::string& plant) {
  try {
    recipe_of(plant);
  } catch (const InputError& error) {
    std::string all;
    for (const Fault& fault : error.faults()) all += fault.text() + "\n";
    return all;
  }
  return "none";
}

}  // namespace

TEST_CASE("a plant that is like another has its figures, and a wider range of oil", "[like]") {
  const Plant& near = shipped_tables().plants.at("spearmint");
  const Plant plant = recipe_of(R"({"name": "apple mint", "like": "spearmint"})").plant;
  CHECK(plant.name == "apple mint");
  CHECK(plant.part == near.part);
  CHECK(plant.latin.empty());
  CHECK(plant.release_class == near.release_class);
  CHECK(plant.oil_density->range.typical == near.oil_density->range.typical);
  CHECK(plant.oil_density->evidence.basis == "of spearmint: " + near.oil_density->evidence.basis);
  for (const auto& [state, figures] : near.states) {
    CAPTURE(to_string(state));
    const PlantState& own = plant.states.at(state);
    CHECK(own.moisture.has_value() == figures.moisture.has_value());
    CHECK(own.bulk_density.size() == figures.bulk_density.size());
    if (!figures.oil_content) continue;
    const Range<Fraction>& before = figures.oil_content->by_mass->range;
    const Range<Fraction>& after = own.oil_content->by_mass->range;
    CHECK(after.typical == before.typical);
    const double apart =
        1.28155 * double(shipped_tables().design_defaults.between_plants.typical());
    CHECK_THAT(std::log(after.high / after.typical),
               WithinRel(std::hypot(std::log(before.high / before.typical), apart), 1e-3));
    CHECK_THAT(std::log(after.typical / after.low),
               WithinRel(std::hypot(std::log(before.typical / before.low), apart), 1e-3));
    CHECK(own.oil_content->studies == 0.0);
  }
  // Nobody has said these of apple mint.
  REQUIRE(plant.hazards.size() == near.hazards.size());
  CHECK(plant.hazards.front().text == "It may be as with spearmint: " + near.hazards.front().text);
  CHECK_FALSE(plant.flash_point);
  CHECK_FALSE(plant.usual_cut);
  CHECK(plant.also.empty());
}

TEST_CASE("of a plant of which only the form is known, the form has all figures", "[like]") {
  for (const auto& [form, defaults] : shipped_tables().forms) {
    const std::string word = to_string(form);
    CAPTURE(word);
    const Recipe recipe = recipe_of(R"({"name": "a plant", "like": ")" + word + R"("})",
                                    defaults.states.begin()->first);
    const Plant& plant = recipe.plant;
    CHECK(plant.form == form);
    CHECK(plant.states.size() == defaults.states.size());
    int contents = 0;
    for (const auto& [state, figures] : plant.states) contents += figures.oil_content ? 1 : 0;
    CHECK(contents == 1);
    CHECK(plant.oil_density->range.low <= plant.oil_density->range.high);
    const Plan plan = make_plan(recipe, shipped_tables(), 64);
    REQUIRE_FALSE(plan.findings.empty());
    CHECK(plan.findings.front().code() == "plant-unknown");
  }
}

TEST_CASE("a plant's own figures beat those of what it is like", "[like]") {
  const Plant plant = recipe_of(R"({"name": "apple mint", "latin": "Mentha suaveolens",
      "like": "spearmint", "oil_density": "0.95 g/mL",
      "states": {"dried": {"moisture": "12 %", "oil_content": {"figure": "0.4 %",
        "per": "as-received", "distilled": "to-stated-end"}}},
      "hazards": [{"harms": ["allergy"], "text": "It may make skin allergic.", "basis": "a label", "source": "common-practice", "known": "read"}]})")
                          .plant;
  CHECK(plant.latin == "Mentha suaveolens");
  CHECK(plant.oil_density->typical() == grams_per_litre(950));
  CHECK(plant.states.at(State::dried).moisture->typical() == percent(12));
  CHECK(plant.states.at(State::dried).oil_content->by_mass->typical() == percent(0.4));
  CHECK_FALSE(plant.states.at(State::fresh).oil_content);
  CHECK(plant.hazards.front().text.find("It may be as with") == std::string::npos);
}

TEST_CASE("a plant is like one of the table or a form, or has its own figures", "[like]") {
  CHECK(faults_of(R"({"name": "apple mint", "like": "spearmitn"})") ==
        "r.json:1:98: plant: like: Found \"spearmitn\". Write a key of the plant table or a form. "
        "Did you mean \"spearmint\"?\n");
  const std::string faults = faults_of(R"({"name": "apple mint", "flash_point": "70 °C"})");
  for (const char* key : {"latin", "part", "states", "oil_density", "release"})
    CHECK_THAT(faults, ContainsSubstring("The key \"" + std::string(key) + "\" is missing"));
  CHECK_THAT(faults_of(R"({"name": "Pennyroyal", "like": "spearmint"})"),
             ContainsSubstring("name: Found a plant that nobody should distil, \"Pennyroyal\"."));
  CHECK_THAT(faults_of(R"({"name": "wild mint", "like": "pennyroyal"})"),
             ContainsSubstring("like: Found a plant that nobody should distil, \"pennyroyal\"."));
  const Plant own = read_plant(R"({"plant": 1, "name": "apple mint", "like": "spearmint"})",
                               "mine.json", shipped_tables());
  CHECK(own.like == "spearmint");
  CHECK_FALSE(own.states.empty());
}

TEST_CASE("a part of the tables has what a plant is like", "[like]") {
  const std::string text =
      R"({"recipe": 1, "still": "bench-column", "plant": {"name": "x", "like": "spearmint"}})";
  const Tables part = read_tables(embedded_table_texts(), named_in_recipe(text));
  // All plants, because its own name must not be among them.
  CHECK(part.plants.size() == shipped_tables().plants.size());
  const Recipe by_part = read_recipe(text, "r.json", part, nullptr);
  CHECK(by_part.plant->states.size() == shipped_tables().plants.at("spearmint")->states.size());
  // A file may be like any plant.
  const Tables all = read_tables(
      embedded_table_texts(),
      named_in_recipe(R"({"recipe": 1, "still": "bench-column", "plant": "mine.json"})"));
  CHECK(all.plants.size() == shipped_tables().plants.size());
}
