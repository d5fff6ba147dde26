// The plan as JSON: it has every key that scripts may rely on, and none that doesn't apply.
#include <algorithm>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "catch.hpp"
#include "firstdrop/output/write.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using namespace test_stills;
using nlohmann::json;

namespace {

json report(const Recipe& r) {
  return json::parse(plan_json(plan(r)));
}

void has(const json& j, const std::string& section, const std::vector<std::string>& keys) {
  REQUIRE(j.contains(section));
  for (const std::string& key : keys) {
    CAPTURE(section, key);
    CHECK(j.at(section).contains(key));
  }
}

void is_range(const json& range) {
  REQUIRE(range.is_object());
  for (const char* key : {"p10", "p50", "p90"}) REQUIRE(range.at(key).is_number());
  CHECK(range.at("p10").get<double>() <= range.at("p50").get<double>());
  CHECK(range.at("p50").get<double>() <= range.at("p90").get<double>());
}

void has_no_null(const json& j) {
  CHECK_FALSE(j.is_null());
  if (j.is_structured()) {
    for (const auto& item : j) has_no_null(item);
  }
}

}  // namespace

TEST_CASE("a full plan has every key of the contract", "[report]") {
  Recipe r = recipe(herb(), iced_still(litres(1), litres(4), kilograms(1)),
                    HydrosolGoal{millilitres(500)});
  r.prices = {0.32, 6.0, "EUR"};
  const json j = report(r);
  CHECK(j.at("plan") == 1);
  CHECK(j.at("title") == "test");
  CHECK(j.at("verdict").is_string());
  REQUIRE(j.at("findings").is_array());
  for (const json& f : j.at("findings")) {
    for (const char* key : {"code", "level", "text"}) CHECK(f.at(key).is_string());
  }
  has(j, "charge", {"mass_g", "dry_matter_g", "volume_ml", "fill_pct", "runs"});
  has(j, "water",
      {"pour_ml", "first_fill_ml", "distilled_ml", "held_by_charge_ml", "uncondensed_ml",
       "left_at_stop_ml", "reserve_ml", "pot_fill_pct"});
  has(j, "boiling", {"pressure_kpa", "temperature_c", "latent_heat_kj_per_kg"});
  has(j, "times",
      {"boil_min", "first_drop_min", "stop_min", "reserve_min", "dry_min", "earliest_stop_min",
       "latest_min", "reserve_worst_min", "dry_worst_min"});
  has(j, "rates",
      {"distillate_ml_per_min", "steam_kg_per_h_per_kg_charge", "steam_velocity_cm_per_s",
       "bed_pressure_drop_pa"});
  has(j, "hydrosol", {"ml", "dissolved_oil_mg_per_l"});
  has(j, "oil",
      {"in_charge_g", "vaporised_g", "in_receiver_g", "in_receiver_ml", "density_g_per_ml",
       "share_pct"});
  has(j, "cooling",
      {"duty_w", "ice_kg", "ice_changes", "reservoir_end_c", "reservoir_limit_min",
       "surface_needed_m2"});
  has(j, "energy", {"kwh", "cost"});
  has(j, "balance", {"mass_residual_g", "energy_residual_kj"});
  CHECK(j.at("stop_criterion") == "hydrosol");
  CHECK(j.at("chance_of_goal_pct").is_number());
  REQUIRE_FALSE(j.at("timeline").empty());
  for (const json& point : j.at("timeline")) {
    for (const char* key :
         {"at_min", "phase", "pot_water_ml", "pot_c", "hydrosol_ml", "oil_ml", "reservoir_c"}) {
      CHECK(point.contains(key));
    }
  }
  for (const json& change : j.at("cooling").at("ice_changes")) {
    CHECK(change.at("at_min").is_number());
    CHECK(change.at("ice_kg").is_number());
  }
  REQUIRE_FALSE(j.at("sources").empty());
  for (const json& key : j.at("sources")) CHECK(rules().sources.count(key.get<std::string>()) == 1);
  for (const char* key : {"ml", "dissolved_oil_mg_per_l"}) is_range(j.at("hydrosol").at(key));
  for (const auto& range : j.at("oil")) {
    if (range.is_object()) is_range(range);
  }
  has_no_null(j);
}

TEST_CASE("the timeline as CSV has a row for each point, and none of a refused plan", "[report]") {
  constexpr std::string_view head =
      "at_min,clock,phase,event,pot_water_ml,pot_c,hydrosol_ml,oil_ml,oil_p10_ml,oil_p90_ml,"
      "reservoir_c\r\n";
  Recipe r = recipe(herb(), column_still(), HydrosolGoal{millilitres(500)});
  r.start = "2026-12-31T23:30";
  Plan p = plan(r);
  const std::string csv = timeline_csv(p);
  CHECK(csv.starts_with(head));
  CHECK(std::count(csv.begin(), csv.end(), '\n') ==
        static_cast<std::ptrdiff_t>(p.run->timeline.size()) + 1);
  CHECK(csv.find("\r\n0,2026-12-31 23:30,warming,heat on,") != std::string::npos);
  CHECK(csv.find(",2027-01-01 00:") != std::string::npos);
  // Names from outside must never get into the CSV, because a spreadsheet would run a formula.
  p.recipe.title = p.recipe.plant.change().name = p.recipe.still.change().title = "=HYPERLINK(1)";
  CHECK(timeline_csv(p) == csv);

  // Numbers of any size are plain.
  TimelinePoint& point = p.run->timeline.front();
  point.oil = {millilitres(0), cubic_metres(3e-15), cubic_metres(1e15)};
  CHECK(timeline_csv(p).find(",0.000000003,0,1000000000000000000000,") != std::string::npos);

  p.verdict = Verdict::refused;
  CHECK_THROWS_AS(timeline_csv(p), RefusedError);
}

TEST_CASE("numbers are those of the plan, in the unit of their key", "[report]") {
  const Recipe r = recipe(herb(), column_still(), HydrosolGoal{millilitres(500)});
  const Plan p = plan(r, default_samples);
  const json j = json::parse(plan_json(p));
  const auto number = [&](const char* section, const char* key) {
    return j.at(section).at(key).get<double>();
  };
  CHECK_THAT(number("charge", "mass_g"), WithinRel(150.0, 1e-12));
  CHECK_THAT(number("charge", "dry_matter_g"), WithinRel(45.0, 1e-12));
  CHECK_THAT(number("charge", "fill_pct"), WithinRel(100 * 150.0 / 170, 1e-9));
  CHECK_THAT(number("water", "distilled_ml"), WithinRel(500.0, 1e-9));
  CHECK_THAT(number("boiling", "pressure_kpa"), WithinRel(101.325, 1e-12));
  CHECK_THAT(number("boiling", "temperature_c"), WithinAbs(99.974, 1e-3));
  CHECK_THAT(number("boiling", "latent_heat_kj_per_kg"), WithinRel(2256.54, 1e-3));
  CHECK_THAT(number("times", "stop_min"), WithinRel(in_minutes(p.run->times.stop), 1e-12));
  CHECK_THAT(number("rates", "distillate_ml_per_min"), WithinRel(17.53, 1e-3));
  // kWh: 1 kW for the time of the run.
  CHECK_THAT(number("energy", "kwh"), WithinRel(in_hours(p.run->times.stop), 1e-12));
  CHECK_THAT(j.at("hydrosol").at("ml").at("p50").get<double>(), WithinRel(500.0, 1e-9));
  CHECK_THAT(j.at("oil").at("density_g_per_ml").at("p50").get<double>(), WithinAbs(0.89, 2e-3));
  // 150 g x 0.8 %.
  CHECK_THAT(j.at("oil").at("in_charge_g").at("p50").get<double>(), WithinRel(1.2, 0.01));
}

TEST_CASE("what does not apply is left out", "[report]") {
  json j = report(recipe(herb(), column_still(), TimeGoal{minutes(45)}));
  CHECK_FALSE(j.contains("chance_of_goal_pct"));
  CHECK_FALSE(j.at("energy").contains("cost"));
  CHECK_FALSE(j.at("cooling").contains("ice_kg"));
  CHECK_FALSE(j.at("cooling").contains("ice_changes"));
  CHECK_FALSE(j.at("cooling").contains("flow_l_per_min"));
  CHECK(j.at("stop_criterion") == "time");
  j = report(recipe(herb(), tap_still(millilitres_per_minute(2000)), TimeGoal{minutes(45)}));
  CHECK(j.at("cooling").contains("flow_l_per_min"));
  CHECK_FALSE(j.at("cooling").contains("reservoir_end_c"));
  CHECK_FALSE(j.at("timeline").back().contains("reservoir_c"));
  j = report(recipe(herb(), hydro_still(), HydrosolGoal{millilitres(500)}));
  CHECK_FALSE(j.at("rates").contains("bed_pressure_drop_pa"));
  CHECK_FALSE(j.at("rates").contains("steam_velocity_cm_per_s"));
  has_no_null(j);
}

TEST_CASE("a refused plan without a run says why and no more", "[report]") {
  Recipe r = recipe(herb(), column_still());
  r.setting = percent(4);
  const json j = report(r);
  CHECK(j.at("verdict") == "refused");
  CHECK(j.at("findings").front().at("code") == "never-boils");
  CHECK_THAT(j.at("findings").front().at("value").get<double>(), WithinRel(29.6, 1e-9));
  CHECK(j.at("findings").front().at("limit").is_number());
  for (const char* section : {"water", "times", "rates", "oil", "timeline", "stop_criterion"}) {
    CHECK_FALSE(j.contains(section));
  }
  CHECK(j.contains("charge"));
  CHECK(j.contains("boiling"));
  has_no_null(j);
}

TEST_CASE("a limit has its unit, also where there is no value", "[report]") {
  const json j = report(recipe(herb(), column_still(), TimeGoal{hours(5)}));
  const json& finding = j.at("findings").front();
  CHECK(finding.at("code") == "target-exceeds-pot");
  CHECK_FALSE(finding.contains("value"));
  CHECK(finding.at("limit").get<double>() > 100.0);
  CHECK(finding.at("unit") == "mL");
}

TEST_CASE("text of any kind survives", "[report]") {
  Recipe r = recipe(herb(), column_still(), TimeGoal{minutes(45)});
  r.title = "Hedge \"lavender\", 1\\2\n\xC3\xA9t\xC3\xA9";
  CHECK(report(r).at("title") == r.title);
}

TEST_CASE("no text brings markup into the JSON", "[report]") {
  Recipe r = recipe(herb(), column_still(), TimeGoal{minutes(45)});
  r.title = "<script>alert('&')</script>";
  CHECK(plan_json(plan(r)).find_first_of("<>&") == std::string::npos);
  CHECK(report(r).at("title") == r.title);
}

TEST_CASE("texts of a recipe made in code may be anything, the JSON is sound", "[report]") {
  Recipe r = recipe(herb(), column_still());
  r.title = "caf\xe9";  // Latin-1
  CHECK(report(r).at("title") == "caf\ufffd");
}
