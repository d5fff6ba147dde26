// The line of a plan in brief. A property test over random recipes checks that its figures equal
// those of the full plan.
#include <nlohmann/json.hpp>
#include <string>

#include "catch.hpp"
#include "firstdrop/plan/planner.hpp"
#include "output/plan_lines.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using namespace test_stills;
using nlohmann::json;

namespace {

Plan brief(const Recipe& recipe, int samples = 0) {
  return make_plan(recipe, rules(), samples, Detail::brief);
}

std::string line_of(const Plan& plan) {
  std::string line;
  append_brief(line, plan);
  return line;
}

Recipe iced(Goal goal = HydrosolGoal{millilitres(500)}) {
  return recipe(herb(), iced_still(litres(1), litres(4), kilograms(1)), std::move(goal));
}

}  // namespace

TEST_CASE("a plan in brief is one line of JSON", "[brief]") {
  Recipe r = iced();
  r.title = "A \"first\" cut & <more> \\ ü";
  r.lot = "L-7";
  std::string line = "before";
  append_brief(line, brief(r));
  REQUIRE(line.starts_with("before{"));
  CHECK(line.find('\n') == std::string::npos);
  CHECK(line.find('<') == std::string::npos);  // no markup for a page that it is pasted into
  const json j = json::parse(line.substr(6));
  CHECK(j.at("brief") == 1);
  CHECK(j.at("title") == r.title);
  CHECK(j.at("lot") == "L-7");
  CHECK(line.find("\"lot\"") == line.rfind("\"lot\""));  // a repeated key would be bad JSON
  CHECK(j.at("water").at("first_fill_ml").is_number());
  CHECK(j.at("times").at("stop_min").is_number());
  CHECK(j.at("stop_at").at("hydrosol_ml") == 500.0);
}

TEST_CASE("in brief there are ranges where there are samples", "[brief]") {
  const json numbers = json::parse(line_of(brief(iced())));
  CHECK_FALSE(numbers.at("hydrosol").contains("ml"));
  CHECK_FALSE(numbers.contains("chance_of_goal_pct"));
  CHECK_THAT(numbers.at("hydrosol").at("nominal_ml").get<double>(), WithinRel(500.0, 1e-9));

  const json ranges = json::parse(line_of(brief(iced(), 64)));
  CHECK(ranges.contains("chance_of_goal_pct"));
  const json& oil = ranges.at("oil").at("in_receiver_g");
  CHECK(oil.at("p10").get<double>() <= oil.at("p50").get<double>());
  CHECK(oil.at("p50").get<double>() <= oil.at("p90").get<double>());
  // The nominal run is the same with and without samples.
  CHECK(ranges.at("oil").at("nominal_in_receiver_g") ==
        numbers.at("oil").at("nominal_in_receiver_g"));
}

TEST_CASE("nobody shall work from a refused plan in brief", "[brief]") {
  const json j = json::parse(line_of(brief(iced(HydrosolGoal{litres(50)}))));
  CHECK(j.at("verdict") == "refused");
  for (const char* key : {"water", "times", "hydrosol", "oil", "cooling", "energy", "stop_at"}) {
    CAPTURE(key);
    CHECK_FALSE(j.contains(key));
  }
  REQUIRE(j.at("findings").size() == 1);
  CHECK(j.at("findings").front().at("code") == "target-exceeds-pot");
  const auto text = j.at("findings").front().at("text").get<std::string>();
  CHECK(text.find("takes more water than this pot can give") != std::string::npos);
  CHECK_FALSE(j.contains("ways_out"));
}

TEST_CASE("a plan in brief has no notes and no rows of the table", "[brief]") {
  Recipe r = iced();
  r.still.change().heater.kind = HeaterKind::gas_burner;
  const Plan plan = brief(r);
  REQUIRE_FALSE(plan.findings.empty());
  for (const Finding& finding : plan.findings) {
    CHECK(finding.level == Level::caution);
    CHECK(finding.kind->meaning.empty());
  }
  CHECK(plan.verdict == Verdict::caution);
  CHECK(plan.run->timeline.empty());
  CHECK(plan.sources.empty());
}

TEST_CASE("a goal that rests on odds is settled in brief as in a full plan", "[brief]") {
  Recipe r = iced(OilGoal{grams(0.4)});
  const Plan whole = make_plan(r, rules());
  const Plan numbers = brief(r);
  REQUIRE(whole.run);
  REQUIRE(numbers.run);
  CHECK(numbers.charge.mass == whole.charge.mass);
  CHECK(numbers.run->stop.hydrosol == whole.run->stop.hydrosol);
  CHECK_FALSE(numbers.run->uncertainty.chance_of_goal);
}

TEST_CASE("without samples the sums of a typical run are there", "[brief]") {
  const Plan plan = brief(iced());
  REQUIRE(plan.run);
  const Uncertainty& uncertainty = plan.run->uncertainty;
  CHECK(uncertainty.samples == 0);
  CHECK(uncertainty.hydrosol.low == uncertainty.hydrosol.high);
  CHECK(uncertainty.plug.typical == plan.run->energy.plug);
  REQUIRE(uncertainty.ice.has_value() == plan.run->cooling.ice.has_value());
  if (uncertainty.ice) CHECK(uncertainty.ice->typical == *plan.run->cooling.ice);
  CHECK(uncertainty.oil_in_receiver.typical == plan.run->nominal.oil);
}
