// Parts of the distillate, each in a receiver of its own.
#include <string>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/finding_words.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "physics/run.hpp"
#include "test_random.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

Recipe recipe_of(const std::string& fractions, const std::string& more = "") {
  return read_recipe(R"({"recipe": 1, "plant": "lavender", "still": "bench-column",
                         "goal": {"hydrosol": "800 mL"}, "fractions": )" +
                         fractions + more + "}",
                     "r.json", shipped_tables(), {});
}

std::string faults_of(const std::string& fractions, const std::string& more = "") {
  try {
    recipe_of(fractions, more);
  } catch (const InputError& error) {
    return error.what();
  }
  return "";
}

}  // namespace

TEST_CASE("fractions add up to the run", "[fractions]") {
  test_random::Random random(5);
  for (int i = 0; i < 60; ++i) {
    CAPTURE(i);
    RunValues values = test_random::run_values(random, static_cast<Method>(i % 3));
    const Run run(values);
    REQUIRE_FALSE(run.failure());
    const Volume all = run.distillate_rate() * minutes(random.log_uniform(5, 200));
    const Volume first = all * random.between(0.05, 0.5);
    const Volume second = first + (all - first) * random.between(0.1, 0.9);
    const Duration stop = run.time_of_hydrosol(all);
    const OilCourse course(run, {first, second});
    Mass vaporised;
    Mass separated;
    Duration from = run.first_drop();
    for (const Volume end : {first, second, all}) {
      const OilBalance one = course.between(from, run.time_of_hydrosol(end));
      vaporised += one.vaporised;
      separated += one.separated;
      CHECK(one.separated >= grams(-1e-9));
      CHECK_THAT((one.dissolved + one.separated).si(), WithinRel(one.vaporised.si(), 1e-9));
      from = run.time_of_hydrosol(end);
    }
    const double oil = values.oil_recoverable.si();
    CHECK_THAT(vaporised.si(), WithinAbs(run.oil_vaporised_at(stop).si(), oil * 1e-12));
    CHECK_THAT(separated.si(), WithinAbs(course.at(stop).separated.si(), oil * 1e-12));
    // The water of a receiver dissolves only its own oil. What mixes in one receiver can dissolve
    // more or less of it; without mixing it is the same.
    values.mixing = fraction(0);
    const Run unmixed(values);
    CHECK_THAT(OilCourse(unmixed, {first, second}).at(stop).separated.si(),
               WithinAbs(OilCourse(unmixed).at(stop).separated.si(), oil * 1e-12));
    // A fraction that mixes fully: as much dissolves as its water holds, or all of its oil.
    values.mixing = fraction(1);
    const Run mixed(values);
    const OilBalance tail = OilCourse(mixed, {first}).between(mixed.time_of_hydrosol(first), stop);
    const Mass holds = values.hydrosol_oil * (all - first);
    CHECK_THAT(tail.dissolved.si(), WithinAbs(std::min(tail.vaporised, holds).si(), oil * 1e-12));
  }
}

TEST_CASE("a plan tells what each fraction brings", "[fractions]") {
  const Plan plan = make_plan(recipe_of(R"([{"until": "200 mL"}, {"until": "500 mL"}, {}])"),
                              shipped_tables(), 256);
  REQUIRE(plan.may_be_run());
  REQUIRE(plan.run->fractions.size() == 3);
  const std::vector<FractionRanges>& yields = plan.run->uncertainty.fractions;
  REQUIRE(yields.size() == 3);
  CHECK_THAT(in_millilitres(yields[0].hydrosol.typical), WithinRel(200.0, 1e-9));
  CHECK_THAT(in_millilitres(yields[1].hydrosol.typical), WithinRel(300.0, 1e-9));
  CHECK(yields[0].dissolved_oil.typical > yields[2].dissolved_oil.typical);
  CHECK(yields[0].oil.typical > yields[1].oil.typical);
  REQUIRE(plan.run->receiver_changes.size() == 2);
  const std::string sheet = run_sheet(plan, SheetFormat::markdown);
  for (const char* words :
       {"Fraction 1 is complete: 200 mL in total.", "Receiver for fraction 3 under the outlet",
        "3 receivers, one for each fraction", "Lavender hydrosol, fraction 2 of 3"})
    CHECK_THAT(sheet, ContainsSubstring(words));
}

TEST_CASE("a fraction that never begins", "[fractions]") {
  const Plan plan = make_plan(recipe_of(R"([{"until": "200 mL"}, {"until": "900 mL"}, {}])"),
                              shipped_tables(), 16);
  const Finding* const empty = finding_of<found::FractionEmpty>(plan.findings);
  REQUIRE(empty != nullptr);
  CHECK(finding_text(*empty, Units::metric) ==
        "Fraction 3 never begins: it would at 900 mL, and the run stops at 800 mL. Let it begin "
        "earlier, or ask for more hydrosol.");
}

TEST_CASE("what isn't a list of fractions", "[fractions]") {
  CHECK_THAT(faults_of(R"([{"until": "200 mL"}])"), ContainsSubstring("fractions"));
  CHECK_THAT(faults_of(R"([{"until": "200 mL"}, {"until": "400 mL"}])"),
             ContainsSubstring("no until in the last fraction: it lasts until the stop"));
  CHECK_THAT(faults_of(R"([{}, {"until": "400 mL"}, {}])"),
             ContainsSubstring("until in every fraction but the last"));
  CHECK_THAT(faults_of(R"([{"until": "400 mL"}, {"until": "300 mL"}, {}])"),
             ContainsSubstring("ends that rise: each counts all that has been caught so far"));
  CHECK_THAT(faults_of(R"([{"until": "400 mL"}, {}])", R"(, "receiver_volume": "1 L")"),
             ContainsSubstring("fractions beside receiver_volume"));
}
