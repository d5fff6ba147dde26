// What the program writes fits its schemas, and a document with one wrong place doesn't.
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <vector>

#include "batch/batch.hpp"
#include "campaign/campaign.hpp"
#include "campaign/campaign_json.hpp"
#include "campaign/campaign_report.hpp"
#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "output/explain.hpp"
#include "output/plan_lines.hpp"
#include "output/water_run_outputs.hpp"
#include "physics/water.hpp"
#include "quantity/clock_time.hpp"
#include "schemas/schema_check.hpp"
#include "source_folder.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using nlohmann::json;
using schema_check::faults;

namespace {

constexpr int few_samples = 16;
#if defined(__SANITIZE_ADDRESS__) || !defined(NDEBUG)
constexpr std::size_t spoilt_every = 8;
#else
constexpr std::size_t spoilt_every = 2;
#endif

json explained(const Plan& plan) {
  return json::parse(plan_json(plan, explain(plan, shipped_tables())));
}

json in_brief(const Recipe& recipe, int samples) {
  std::string line;
  append_brief(line, make_plan(recipe, shipped_tables(), samples, Detail::brief));
  return json::parse(line);
}

/// The texts that were kept from the fuzzer's searches.
std::vector<std::string> kept_texts(const std::string& target) {
  std::vector<std::string> texts;
  for (const char* folder : {"corpus", "found"}) {
    const auto path = source_folder() / "tests/fuzz" / folder / target;
    if (!std::filesystem::is_directory(path)) continue;
    for (const auto& entry : std::filesystem::directory_iterator(path)) {
      std::ifstream file(entry.path(), std::ios::binary);
      texts.emplace_back(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
    }
  }
  REQUIRE_FALSE(texts.empty());
  return texts;
}

std::string no_files(const std::string& name) {
  throw InputError(Fault{name, "", "no such file", "a file", "", 0, 0});
}

Recipe recipe_of(const std::string& members) {
  return read_recipe(R"({"recipe": 1, "title": "One", )" + members + "}", "it", shipped_tables(),
                     no_files);
}

/// Recipes whose plans, together with those of plain_recipes(), have every key of a plan.
std::vector<Recipe> telling_recipes() {
  const std::string ice = R"("still": "bench-basket", )";
  const std::string bucket = R"("still": "bench-column", )";
  const std::string tap = R"("still": "farm-grid", )";
  return {
      recipe_of(ice + R"("plant": "peppermint", "goal": {"hydrosol": "500 mL"})"),
      recipe_of(bucket + R"("plant": "lavender", "lot": "L-7", "receiver_volume": "200 mL", )"
                         R"("goal": {"hydrosol": "800 mL", "confidence": "60 %"}, )"
                         R"("prices": {"energy_per_kwh": 0.3, "plant_per_kg": 6, )"
                         R"("currency": "EUR"})"),
      recipe_of(bucket + R"("plant": "rosemary", "goal": {"oil_share": "70 %"})"),
      recipe_of(bucket + R"("plant": "rosemary", "goal": {"oil": "1 mL"})"),
      recipe_of(bucket + R"("plant": "lavender", "fractions": [{"until": "200 mL"}, {}])"),
      recipe_of(bucket + R"("plant": "clove-bud", "state": "dried")"),
      recipe_of(bucket + R"("plants": [{"plant": "lavender", "share": "60 %"},
                                       {"plant": "rosemary", "share": "40 %"}])"),
      recipe_of(tap + R"("plant": "lemongrass", "charge": "3 kg", "setting": "60 %", )"
                      R"("goal": {"time": "90 min"})"),
      recipe_of(R"("still": "herb-pot", "plant": "rose", "method": "hydro", "charge": "1 kg")"),
      recipe_of(bucket + R"("plant": "lavender", "goal": {"hydrosol": "3 L"})"),
      recipe_of(bucket + R"("plant": "lavender", "setting": "4 %")"),
      // Refused for want of a measured condenser.
      recipe_of(R"("plant": "lavender", "still": {
          "pot": {"material": "stainless-steel", "volume": "3 L"}, "column": {"volume": "1.5 L"},
          "heater": {"kind": "electric-plate", "power": "1 kW"},
          "condenser": {"kind": "reservoir", "coolant": "20 L"}})"),
  };
}

/// Calls visit(spoilt, how) for copies of the document, each with one wrong place. Leaves out
/// values below "set", where anything is valid.
void for_each_spoilt(const json& document,
                     const std::function<void(const json&, const std::string&)>& visit) {
  const std::function<void(const json&, const json::json_pointer&)> spoil =
      [&](const json& value, const json::json_pointer& pointer) {
        const std::string place = pointer.to_string();
        const auto with = [&](const json& other) {
          json spoilt = document;
          spoilt[pointer] = other;
          visit(spoilt, other.dump() + " at " + place);
        };
        with(nullptr);
        if (value.is_number() || value.is_boolean()) with("1");
        if (value.is_string()) with(1);
        if (value.is_structured()) with("zzz");
        if (value.is_object()) {
          json spoilt = document;
          spoilt[pointer]["zzz"] = 1;
          visit(spoilt, "a key zzz in " + place);
          for (const auto& [key, member] : value.items()) {
            if (key != "set") spoil(member, pointer / key);
          }
        } else if (value.is_array() && !value.empty()) {
          spoil(value.front(), pointer / 0);
          spoil(value.back(), pointer / (value.size() - 1));
        }
      };
  spoil(document, json::json_pointer());
}

/// Removes from `keys` every key that the document has at any depth.
void remove_seen(std::set<std::string>& keys, const json& document) {
  for (const auto& [key, value] : document.items()) {
    if (document.is_object()) keys.erase(key);
    if (value.is_structured()) remove_seen(keys, value);
  }
}

std::set<std::string> keys_named(const json& part) {
  std::set<std::string> keys;
  for (const auto& [key, value] : part.items()) {
    if (key == "properties" && value.is_object() && part.is_object() &&
        part.value("type", json()) == "object") {
      for (const auto& member : value.items()) keys.insert(member.key());
    }
    if (value.is_structured()) keys.merge(keys_named(value));
  }
  return keys;
}

}  // namespace

TEST_CASE("plans fit their schema, with all of its keys", "[schema]") {
  std::set<std::string> unseen = keys_named(schema_check::schema("plan"));
  CHECK(unseen.size() > 130);
  std::set<std::string> unseen_in_brief = keys_named(schema_check::schema("batch-line"));
  const std::vector<Recipe> telling = telling_recipes();
  std::vector<Recipe> recipes = plain_recipes();
  recipes.insert(recipes.end(), telling.begin(), telling.end());
  for (const Recipe& recipe : recipes) {
    CAPTURE(recipe.plant->key, recipe.still->key, to_string(recipe.method_used()));
    Plan made = make_plan(recipe, shipped_tables(), few_samples);
    add_ways_out(made, shipped_tables(), few_samples);
    const json plan = explained(made);
    CHECK(faults("plan", plan) == "");
    remove_seen(unseen, plan);
    remove_seen(unseen_in_brief, plan);
    for (const int samples : {0, few_samples}) {
      const json line = in_brief(recipe, samples);
      CHECK(faults("batch-line", line) == "");
      remove_seen(unseen_in_brief, line);
    }
  }
  // Only a batch has these keys.
  for (const char* key : {"set", "error", "file", "line", "column", "reason", "faults", "pointer",
                          "found", "wanted", "hint"}) {
    unseen.erase(key);
    unseen_in_brief.erase(key);
  }
  CHECK(unseen == std::set<std::string>{});
  CHECK(unseen_in_brief == std::set<std::string>{});
}

TEST_CASE("summaries fit their schema, with all of its keys", "[schema]") {
  std::set<std::string> unseen = keys_named(schema_check::schema("summary"));
  CHECK(unseen.size() > 30);
  const auto check = [&](const BatchResult& result, const RecipeGrid& grid) {
    const json summary = json::parse(batch_summary_json(result, grid));
    CHECK(faults("summary", summary) == "");
    remove_seen(unseen, summary);
  };
  for (const int samples : {0, few_samples}) {
    BatchResult result;
    for (const Recipe& recipe : telling_recipes())
      result.summary.add(outcome_of(make_plan(recipe, shipped_tables(), samples)));
    PlanOutcome one = outcome_of(make_plan(telling_recipes().front(), shipped_tables(), samples));
    for (std::size_t i = 0; i <= BatchSummary::most_plants; ++i) {
      one.plant = "plant " + std::to_string(i);
      result.summary.add(one);
    }
    result.summary.add(BrokenRecipe{"it.json", 3, "no plant", 1});
    check(result, RecipeGrid());
    result.variants = {result.summary, BatchSummary()};
    check(result, RecipeGrid({}, {"units=us,metric"}));
  }
  CHECK(unseen == std::set<std::string>{});
}

TEST_CASE("what a water run has shown fits its schema, with all of its keys", "[schema]") {
  std::set<std::string> unseen = keys_named(schema_check::schema("water-run"));
  CHECK(unseen.size() > 20);
  const Still& still = shipped_tables().stills.at("bench-column");
  const WaterRunSetup setup{
      still,       Method::steam, site_water(standard_pressure(metres(0)), celsius(20)),
      celsius(20), celsius(20),   fraction(1),
      grams(1198)};
  WaterRunLog log;
  log.boil = {minutes(11.5), "11.5 min"};
  log.first_drop = {minutes(12.5), "12.5 min"};
  log.caught = {{{millilitres(102), "102 mL"}, {minutes(19), "19 min"}},
                {{millilitres(6.6), "6.6 mL"}, {minutes(25), "25 min"}},
                {{millilitres(246), "246 mL"}, {minutes(28), "28 min"}}};
  log.left = {grams(936), "936 g"};
  log.energy = {joules(1.66e6), "0.46 kWh"};
  const StillFigures before = figures_before_runs(still, setup.method, shipped_tables());
  const WaterRunModel model(setup, before, shipped_tables());
  const auto result = learn_from(model, before, log);
  REQUIRE(result);
  const auto misfits = misfits_of(model, log, *result);
  const json written =
      json::parse(water_run_json({setup, log, *result, misfits, *parse_local_day("2026-12-01")}));
  CHECK(faults("water-run", written) == "");
  remove_seen(unseen, written);
  CHECK(unseen == std::set<std::string>{});
  CHECK(written.at("entries").at(3).at("would_fit") == "6.6 fl oz");
}

TEST_CASE("campaigns as planned fit their schema, with all of its keys", "[schema]") {
  std::set<std::string> unseen = keys_named(schema_check::schema("campaign-plan"));
  CHECK(unseen.size() > 50);
  const std::string bench = R"("bench": {"first_day": "2026-07-06", "from": "08:00", )"
                            R"("to": "20:00", "ice_per_day": "4.5 kg"})";
  const std::string lavender = R"("plant": "lavender", "still": "bench-column", )"
                               R"("prices": {"energy_per_kwh": 0.3, "plant_per_kg": 6, )"
                               R"("currency": "EUR"})";
  const std::string iced =
      R"("plant": "lavender", "still": "bench-basket", "goal": {"time": "90 min"})";
  const std::string tap = R"("plant": "lemongrass", "still": "farm-grid")";
  const auto entry = [](const std::string& recipe, const std::string& order) {
    return R"({"recipe": {)" + recipe + "}, " + order + "}";
  };
  const std::string all = entry(lavender, R"("wanted": {"oil": "0.5 g", "confidence": "80 %"})") +
                          ", " + entry(lavender, R"("wanted": {"oil": "0.5 mL"})") + ", " +
                          entry(lavender, R"("wanted": {"hydrosol": "900 mL"})") + ", " +
                          entry(iced, R"("harvest": "110 g")") + ", " +
                          entry(tap, R"("harvest": "5 kg")") + ", " +
                          entry(lavender + R"(, "setting": "2 %")", R"("harvest": "1 kg")") +
                          R"(, {"recipe": "named.json", "harvest": "400 g"})";
  const auto read_file = [&](const std::string&) { return R"({"recipe": 1, )" + lavender + "}"; };
  const std::string text = R"({"campaign": 1, )" + bench + R"(, "work": [)" + all + "]}";
  const Campaign campaign = read_campaign(text, "it", shipped_tables(), read_file);
  const json plan =
      json::parse(campaign_json(plan_campaign(campaign, shipped_tables(), few_samples)));
  CHECK(faults("campaign-plan", plan) == "");
  remove_seen(unseen, plan);
  CHECK(unseen == std::set<std::string>{});
}

TEST_CASE("what the fuzzer kept fits its schema once it is read, and so do its plans", "[schema]") {
  const Tables& tables = shipped_tables();
  int read = 0;
  int planned = 0;
  const auto try_to = [&](const auto& body) {
    try {
      body();
    } catch (const InputError&) {
    } catch (const RangeError&) {
    }
  };
  const auto check = [&](const std::string& key, const std::string& text) {
    CAPTURE(key, text);
    const bool marked = text.starts_with("\xEF\xBB\xBF");
    CHECK(faults(key, json::parse(marked ? text.substr(3) : text)) == "");
    ++read;
  };
  for (const std::string& text : kept_texts("recipe")) {
    try_to([&] {
      const Recipe recipe = read_recipe(text, "it", tables, no_files);
      check("recipe", text);
      const Plan plan = make_plan(recipe, tables, few_samples);
      CAPTURE(text);
      CHECK(faults("plan", explained(plan)) == "");
      ++planned;
    });
  }
  for (const std::string& text : kept_texts("still")) {
    try_to([&] {
      read_still(text, "it", tables);
      check("still", text);
    });
  }
  for (const std::string& text : kept_texts("plant")) {
    try_to([&] {
      read_plant(text, "it", tables);
      check("plant", text);
    });
  }
  for (const std::string& text : kept_texts("campaign")) {
    try_to([&] {
      const Campaign campaign = read_campaign(text, "it", tables, no_files);
      check("campaign", text);
      const CampaignPlan plan = plan_campaign(campaign, tables, few_samples);
      CAPTURE(text);
      CHECK(faults("campaign-plan", json::parse(campaign_json(plan))) == "");
      ++planned;
    });
  }
  CHECK(read > 40);
  CHECK(planned > 20);
}

TEST_CASE("a plan that is wrong in any place does not fit its schema", "[schema]") {
  int spoilt_ones = 0;
  const auto check = [&](const std::string& key, const json& document) {
    for_each_spoilt(document, [&](const json& spoilt, const std::string& how) {
      CAPTURE(key, how);
      CHECK(faults(key, spoilt) != "");
      ++spoilt_ones;
    });
  };
  const std::vector<Recipe> telling = telling_recipes();
  for (std::size_t i = 1; i < telling.size(); i += spoilt_every) {
    check("plan", json::parse(plan_json(make_plan(telling[i], shipped_tables(), few_samples))));
    check("batch-line", in_brief(telling[i], few_samples));
  }
  CHECK(spoilt_ones > 500);
}
