#include "readers/recipe_document.hpp"

#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "unit/small_tables.hpp"

using namespace firstdrop;
using namespace small_tables;

namespace {

std::string no_files(const std::string& path) {
  throw InputError(Fault{path, "", "no such file", "a file that can be read", "", 0, 0});
}

/// A recipe with these keys besides the ones that every recipe needs.
std::string recipe(const std::string& more) {
  return R"({"recipe": 1, "plant": "hedge-herb", "still": "bench")" +
         (more.empty() ? "" : ", " + more) + "}";
}

Recipe read_with(const std::string& more, const std::vector<std::string>& set) {
  std::vector<Override> overrides;
  for (const std::string& text : set) overrides.push_back(parse_override(text, "--set"));
  return RecipeDocument(recipe(more), "herb.json").read(tables(), no_files, overrides);
}

std::string fault_with(const std::string& more, const std::vector<std::string>& set) {
  try {
    read_with(more, set);
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}

std::string check_fault(const std::string& text) {
  try {
    check_override(parse_override(text, "--vary"), tables());
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}

}  // namespace

TEST_CASE("a recipe for a water run needs no plant, and a recipe for a plan does", "[recipe]") {
  const RecipeDocument document(
      R"({"recipe": 1, "still": "bench", "state": "dried", "setting": "60 %"})", "water.json");
  const Recipe r = document.read_without_plant(tables(), no_files,
                                               {parse_override("site.room=12 °C", "--room")});
  CHECK(r.still->key == "bench");
  CHECK_THAT(in_percent(r.setting), WithinRel(60, 1e-12));
  CHECK_THAT(in_celsius(r.site.room), WithinRel(12, 1e-12));
  CHECK_THROWS_WITH(document.read(tables(), no_files), ContainsSubstring("plant"));
  // Everything else is checked as always.
  CHECK_THROWS_WITH(RecipeDocument(R"({"recipe": 1, "stills": "bench"})", "water.json")
                        .read_without_plant(tables(), no_files, {}),
                    ContainsSubstring("stills") && ContainsSubstring("still"));
}

TEST_CASE("a recipe with other values in it", "[recipe]") {
  const Recipe r = read_with(R"("charge": "100 g", "site": {"room": "18 °C"}, "seed": 3)",
                             {"charge=250 g", "site.altitude=900 m", "goal.hydrosol=1 L", "seed="});
  CHECK_THAT(in_grams(r.charge.value()), WithinRel(250, 1e-12));
  CHECK_THAT(in_celsius(r.site.room), WithinRel(18, 1e-12));
  CHECK_THAT(in_metres(r.site.altitude.value()), WithinRel(900, 1e-12));
  CHECK(std::holds_alternative<HydrosolGoal>(r.goal));
  CHECK(r.seed == 1);
  // In their order: one goal is removed, another added.
  CHECK(std::holds_alternative<TimeGoal>(
      read_with(R"("goal": {"hydrosol": "1 L"})", {"goal.hydrosol=", "goal.time=1 h"}).goal));
  // A key that isn't there can be left out.
  CHECK_NOTHROW(read_with("", {"site.room=", "limits="}));
}

TEST_CASE("a fault of such a value says which option it comes from", "[recipe]") {
  CHECK(fault_with("", {"charge=-5 g"}) ==
        "herb.json: charge: Found \"-5 g\". Write a value from 1 g to 1000 kg. It comes from "
        "--set.");
  CHECK_THAT(fault_with("", {"site.rom=5 °C"}),
             ContainsSubstring("Did you mean \"room\"? It comes from --set."));
  CHECK_THAT(fault_with(R"("charge": "-5 g")", {"seed=5"}), !ContainsSubstring("--set"));
  CHECK_THAT(fault_with(R"("charge": "5 g")", {"charge.mass=5 g"}),
             ContainsSubstring("charge: Found \"5 g\". Write an object, to have mass in it. --set "
                               "asks for charge.mass."));
}

TEST_CASE("a fault has the place of what the text has there", "[recipe]") {
  // In line 2, "charge" and its value are replaced by the option, so only the others have a place.
  const std::string text =
      "{\"recipe\": 1, \"plant\": \"hedge-herb\", \"still\": \"bench\",\n"
      " \"charge\": \"5\", \"site\": {\"room\": \"cold\"}}";
  const RecipeDocument document(text, "herb.json");
  const auto faults = faults_of(
      [&] { document.read(tables(), no_files, {parse_override("charge=-5 g", "--set")}); });
  REQUIRE(faults.size() == 2);
  CHECK(faults[0].pointer == "/charge");
  CHECK(faults[0].line == 0);
  CHECK(faults[0].column == 0);
  CHECK(faults[1].text().starts_with("herb.json:2:34: site: room: Can't read \"cold\" as"));
}

TEST_CASE("a later check's faults get their places", "[recipe]") {
  const std::string text =
      "{\"recipe\": 1, \"plant\": \"hedge-herb\",\n"
      " \"own\": {\"boil_time\": \"5 min\"}}";
  const RecipeDocument document(text, "herb.json");
  const InputError error({Fault{"", "/own/boil_time", "a time", "a volume", ""},
                          Fault{"", "/plant/states/fresh/moisture", "a", "b", ""},
                          Fault{"", "/own/mains", "nothing", "b", ""}, Fault{"", "", "a", "b", ""},
                          Fault{"mine.json", "/own", "a", "b", ""}});
  const auto located = document.located(error, no_files).faults();
  CHECK(located[0].text() == "herb.json:2:23: own: boil_time: Found a time. Write a volume.");
  // The recipe only names its plant.
  CHECK(located[1].text().starts_with("herb.json:1:24: plant: states"));
  CHECK(located[2].text() == "herb.json:2:9: own: The key \"mains\" is missing. Write b.");
  CHECK(located[3].text() == "herb.json: Found a. Write b.");
  CHECK(located[4].text() == "mine.json: own: Found a. Write b.");
  // A fault that has its file stays as it is.
  const auto again = document.located(InputError(located), no_files,
                                      {parse_override("own.boil_time=6 min", "--vary")});
  CHECK(again.faults()[0].text() == located[0].text());
  const auto varied =
      document.located(error, no_files, {parse_override("own.boil_time=6 min", "--vary")}).faults();
  CHECK(varied[0].text() ==
        "herb.json: own: boil_time: Found a time. Write a volume. It comes from --vary.");
}

TEST_CASE("a value that no recipe can have is refused beforehand", "[recipe]") {
  for (const char* good :
       {"charge=5 g", "charge=", "goal.confidence=80 %", "site.mains=230 V", "own.boil_time=5 min",
        "state=dried", "method=hydro", "still.heater.power=800 W", "still=mine.json",
        "plant=hedge-herb", "goal={\"oil\": \"2 mL\"}", "prices.energy_per_kwh=0.3"}) {
    INFO(good);
    CHECK(check_fault(good).empty());
  }
  CHECK(check_fault("charge=5") ==
        "Found the number 5 without a unit for --vary charge. Write a mass with its unit: g, kg, "
        "mg, oz or lb. Put it in quotes, such as \"5 g\".");
  CHECK_THAT(check_fault("chrge=5 g"), ContainsSubstring("Did you mean \"charge\"?"));
  CHECK_THAT(check_fault("still=bench-colum"), ContainsSubstring("for --vary still"));
  CHECK_THAT(check_fault("still.heater.powr=5 W"), ContainsSubstring("Did you mean \"power\"?"));
  CHECK_THAT(check_fault("still.heater.power=5 kg"), ContainsSubstring("for --vary"));
  CHECK_THAT(check_fault("state=wet"), ContainsSubstring("Write fresh"));
}
