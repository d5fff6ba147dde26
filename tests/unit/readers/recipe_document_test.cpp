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
        "herb.json: /charge: found \"-5 g\"; wanted from 1 g to 1000 kg; it comes from "
        "--set");
  CHECK_THAT(fault_with("", {"site.rom=5 °C"}),
             ContainsSubstring("did you mean \"room\"?; it comes from --set"));
  CHECK_THAT(fault_with(R"("charge": "-5 g")", {"seed=5"}), !ContainsSubstring("--set"));
  CHECK_THAT(
      fault_with(R"("charge": "5 g")", {"charge.mass=5 g"}),
      ContainsSubstring("/charge: found \"5 g\"; wanted an object, to have mass in it; --set "
                        "asks for charge.mass"));
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
        "found the number 5 without a unit for --vary charge; wanted a mass with its unit: g, kg, "
        "mg, oz, lb; in quotes, such as \"5 g\"");
  CHECK_THAT(check_fault("chrge=5 g"), ContainsSubstring("did you mean \"charge\"?"));
  CHECK_THAT(check_fault("still=bench-colum"), ContainsSubstring("for --vary still"));
  CHECK_THAT(check_fault("still.heater.powr=5 W"), ContainsSubstring("did you mean \"power\"?"));
  CHECK_THAT(check_fault("still.heater.power=5 kg"), ContainsSubstring("for --vary"));
  CHECK_THAT(check_fault("state=wet"), ContainsSubstring("wanted a state: fresh"));
}
