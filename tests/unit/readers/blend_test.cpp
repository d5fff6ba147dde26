// Several plants in one charge.
#include "firstdrop/readers/blend.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "model/model_parameters.hpp"
#include "model/parameters_at.hpp"
#include "readers/plant_parameters.hpp"
#include "test_stills.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const Shared<Plant>& shipped(const char* key) {
  return shipped_tables().plants.at(key);
}

Recipe read(const std::string& plants, const std::string& more = "") {
  return read_recipe(
      R"({"recipe": 1, "plants": )" + plants + R"(, "still": "bench-column")" + more + "}",
      "r.json", shipped_tables(), {});
}

std::string faults_of(const std::string& plants, const std::string& more = "") {
  try {
    read(plants, more);
  } catch (const InputError& error) {
    return error.what();
  }
  return "";
}

constexpr const char* two =
    R"([{"plant": "lavender", "share": "60 %"}, {"plant": "rosemary", "share": "40 %"}])";

}  // namespace

TEST_CASE("a blend's figures are mixed by mass", "[blend]") {
  const Plant blend = blended(
      {{shipped("lavender"), percent(60)}, {shipped("rosemary"), percent(40)}}, shipped_tables());
  CHECK(blend.name == "lavender and rosemary");
  CHECK(blend.key == "lavender+rosemary");
  const auto of = [&](const Plant& plant, const auto& get) { return get(plant); };
  const auto moisture = [](const Plant& plant) {
    return moisture_of(plant, State::fresh, shipped_tables()).figure.typical().si();
  };
  CHECK_THAT(of(blend, moisture), WithinRel(0.6 * of(shipped("lavender"), moisture) +
                                                0.4 * of(shipped("rosemary"), moisture),
                                            1e-12));
  // A litre of the blend takes what its parts take by themselves.
  const auto bulk = [](const Plant& plant) {
    return bulk_density_of(plant, State::fresh, Cut::chopped, shipped_tables())
        .figure.typical()
        .si();
  };
  CHECK_THAT(
      1 / of(blend, bulk),
      WithinRel(0.6 / of(shipped("lavender"), bulk) + 0.4 / of(shipped("rosemary"), bulk), 1e-12));
  double shares = 0.0;
  for (const Fraction share : oil_shares(blend, State::fresh, Method::steam, shipped_tables()))
    shares += share;
  CHECK_THAT(shares, WithinRel(1.0, 1e-12));
  CHECK(blend.hazards.size() ==
        shipped("lavender")->hazards.size() + shipped("rosemary")->hazards.size());
  CHECK(blend.hazards.front().text == "Lavender: " + shipped("lavender")->hazards.front().text);
}

TEST_CASE("a blend holds the oil of its plants", "[blend]") {
  Recipe recipe = read(two, R"(, "charge": "200 g", "goal": {"hydrosol": "300 mL"})");
  const Plan blend = make_plan(recipe, shipped_tables(), 0);
  Mass oil;
  for (const auto& [key, grams_of_it] : {std::pair("lavender", 120.0), {"rosemary", 80.0}}) {
    Recipe one = recipe;
    one.plant = shipped(key);
    const ModelParameters parameters = model_parameters(one, shipped_tables());
    oil += oil_in_charge(parameters, SamplePoint::medians(), grams(grams_of_it));
  }
  CHECK_THAT(in_grams(blend.run->uncertainty.oil_in_charge.typical),
             WithinRel(in_grams(oil), 1e-9));
}

TEST_CASE("a blend of a plant with its like is that plant", "[blend]") {
  // Two plants with the same figures under two names. All but the range of the oil is the same: the
  // oil contents of two plants are taken as independent.
  for (const State state : {State::fresh, State::dried}) {
    for (const auto& [still, method] :
         {std::pair("bench-column", Method::steam), {"copper-pot", Method::hydro}}) {
      if (!shipped_tables().stills.contains(still)) continue;
      Recipe one;
      one.plant = shipped("sage");
      one.state = state;
      one.still = shipped_tables().stills.at(still);
      one.method = method;
      Recipe both = one;
      Plant other = *shipped("sage");
      other.name = "garden sage";
      both.plant =
          blended({{shipped("sage"), percent(30)}, {other, percent(70)}}, shipped_tables());
      const Plan a = make_plan(one, shipped_tables(), 64);
      const Plan b = make_plan(both, shipped_tables(), 64);
      CAPTURE(to_string(state), still);
      REQUIRE(a.run);
      REQUIRE(b.run);
      CHECK(a.charge.mass == b.charge.mass);
      CHECK(a.run->water.pour == b.run->water.pour);
      CHECK_THAT(in_minutes(b.run->times.stop), WithinRel(in_minutes(a.run->times.stop), 1e-9));
      CHECK_THAT(in_grams(b.run->nominal.oil), WithinRel(in_grams(a.run->nominal.oil), 1e-9));
      const Range<Mass>& apart = a.run->uncertainty.oil_in_charge;
      const Range<Mass>& mixed = b.run->uncertainty.oil_in_charge;
      CHECK(mixed.low > apart.low);
      CHECK(mixed.high < apart.high);
    }
  }
}

TEST_CASE("each plant of a blend has its own pace", "[blend]") {
  // Clove releases its oil far more slowly than lavender.
  const Recipe recipe = read(
      R"([{"plant": "lavender", "share": "50 %"}, {"plant": "valerian-root", "share": "50 %"}])",
      R"(, "state": "dried")");
  const ModelParameters parameters = model_parameters(recipe, shipped_tables());
  const std::vector<BlendPace>& paces = parameters.selected->blend_paces;
  REQUIRE(paces.size() == 2);
  const auto half_life = [&](const char* key) {
    return release_of(shipped(key), Method::steam, recipe.cut, shipped_tables())
        .release.half_life.typical();
  };
  CHECK_THAT(paces[0].pace / paces[1].pace,
             WithinRel(half_life("valerian-root") / half_life("lavender"), 1e-12));
  CHECK_THAT(double(paces[0].of_oil) + double(paces[1].of_oil), WithinRel(1.0, 1e-12));
}

TEST_CASE("what isn't a blend", "[blend]") {
  CHECK_THAT(faults_of(R"([{"plant": "lavender", "share": "100 %"}])"),
             ContainsSubstring("plants, item 1: share: Found \"100 %\"."));
  CHECK_THAT(faults_of(R"([{"plant": "lavender", "share": "60 %"}])"),
             ContainsSubstring("plants: Found 1 plant. Write 2 to 8 plants."));
  CHECK_THAT(
      faults_of(
          R"([{"plant": "lavender", "share": "60 %"}, {"plant": "rosemary", "share": "30 %"}])"),
      ContainsSubstring("plants: Found shares of 90 % together. Write shares of 100 % together."));
  CHECK_THAT(
      faults_of(
          R"([{"plant": "lavender", "share": "60 %"}, {"plant": "lavender", "share": "40 %"}])"),
      ContainsSubstring("Found lavender twice. Write each plant once."));
  CHECK_THAT(
      faults_of(
          R"([{"plant": "neroli", "share": "60 %"}, {"plant": "anise-seed", "share": "40 %"}])"),
      ContainsSubstring("Found no state that all of these plants have."));
  CHECK_THAT(faults_of(two, R"(, "plant": "sage")"),
             ContainsSubstring("Found plants beside a plant. Write one of plant and plants."));
  CHECK_THAT(
      faults_of(
          R"([{"plant": "lavendar", "share": "60 %"}, {"plant": "rosemary", "share": "40 %"}])"),
      ContainsSubstring("Did you mean \"lavender\""));
  CHECK_THAT(faults_of(R"([{"plant": "lavender"}, {"plant": "rosemary", "share": "40 %"}])"),
             ContainsSubstring("The key \"share\" is missing."));
  CHECK_THAT(faults_of(two, R"(, "state": "frozen")"), ContainsSubstring("state"));
  // Three thirds, to one decimal.
  CHECK(read(R"([{"plant": "lavender", "share": "33.3 %"}, {"plant": "sage", "share": "33.3 %"},
                 {"plant": "rosemary", "share": "33.3 %"}])")
            .plant->blend.front()
            .share == fraction(1.0 / 3.0));
}

TEST_CASE("a blend is warned of for each of its plants", "[blend]") {
  const Plan plan = make_plan(
      read(R"([{"plant": "lavender", "share": "50 %"}, {"plant": "tansy", "share": "50 %"}])"),
      shipped_tables(), 16);
  CHECK(plan.verdict == Verdict::refused);
  CHECK(finding_of<found::NotToBeDistilled>(plan.findings) != nullptr);
  const Plan unknown = make_plan(read(R"([{"plant": "lavender", "share": "50 %"},
               {"plant": {"name": "apple mint", "like": "spearmint"}, "share": "50 %"}])"),
                                 shipped_tables(), 16);
  CHECK(unknown.findings.front().is<found::PlantUnknown>());
}

TEST_CASE("a plant without oil figures adds none to a blend", "[blend]") {
  const Recipe recipe =
      read(R"([{"plant": "lavender", "share": "50 %"}, {"plant": "elderflower", "share": "50 %"}])",
           R"(, "charge": "200 g")");
  const ModelParameters parameters = model_parameters(recipe, shipped_tables());
  Recipe one = recipe;
  one.plant = shipped("lavender");
  const ModelParameters of_lavender = model_parameters(one, shipped_tables());
  CHECK_THAT(
      in_grams(oil_in_charge(parameters, SamplePoint::medians(), grams(200))),
      WithinRel(in_grams(oil_in_charge(of_lavender, SamplePoint::medians(), grams(100))), 1e-9));
  const Recipe neither =
      read(R"([{"plant": "nettle", "share": "50 %"}, {"plant": "elderflower", "share": "50 %"}])");
  CHECK_FALSE(has_oil_figures(neither.plant));
  CHECK_FALSE(make_plan(neither, shipped_tables(), 16).run->has_oil);
}
