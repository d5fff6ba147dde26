// Plants of whose oil nothing is known: their plans say nothing of oil and everything else.
#include <regex>
#include <string>
#include <vector>

#include "catch.hpp"
#include "cli/pages/plan_page.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/finding_words.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "output/explain.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using Catch::Matchers::WithinRel;

namespace {

/// Words about oil, but for those of the finding that nothing is known of it, of the plant's own
/// entry and of reasons that hold for every run.
std::vector<std::string> words_of_oil(std::string text, const Plan& plan) {
  const auto without = [&](const std::string& words) {
    for (auto at = text.find(words); !words.empty() && at != std::string::npos;
         at = text.find(words))
      text.erase(at, words.size());
  };
  for (const Finding& finding : plan.findings) {
    if (finding.kind->guidance) without(finding.kind->guidance->reason);
    if (finding.is<found::OilUnknown>() || finding.is<found::PlantNote>())
      without(finding_text(finding, plan.recipe.units));
  }
  without("oil-unknown");
  std::vector<std::string> found;
  static const std::regex oil(R"((.{0,40})\b(oils?|oil_[a-z_]+|oily)\b(.{0,20}))",
                              std::regex::icase);
  for (std::sregex_iterator at(text.begin(), text.end(), oil), end; at != end; ++at)
    found.push_back(at->str());
  return found;
}

Recipe hydrosol_recipe(const char* more = "") {
  return read_recipe(
      std::string(R"({"recipe": 1, "plant": "elderflower", "still": "bench-column")") + more + "}",
      "r.json", shipped_tables(), {});
}

}  // namespace

TEST_CASE("a plan of a plant without oil figures says nothing of oil", "[plan][hydrosol-plant]") {
  for (const char* more : {"", R"(, "goal": {"hydrosol": "200 mL"}, "start": "2026-06-20T09:30")",
                           R"(, "goal": {"time": "50 min"})", R"(, "state": "dried")"}) {
    CAPTURE(more);
    const Plan plan = make_plan(hydrosol_recipe(more), shipped_tables(), 64);
    REQUIRE(plan.may_be_run());
    CHECK_FALSE(plan.run->has_oil);
    const std::vector<std::string> none;
    const cli::Look look{false, 200};
    CHECK(words_of_oil(cli::plan_page(plan, look), plan) == none);
    CHECK(words_of_oil(plan_json(plan), plan) == none);
    std::string explained;
    for (const Chapter& chapter : explain(plan, shipped_tables()))
      for (const ExplainedFigure& figure : chapter.figures)
        explained += figure.symbol + " " + figure.name + " " + figure.rule + "\n";
    CHECK(words_of_oil(explained, plan) == none);
    for (const SheetFormat format : {SheetFormat::text, SheetFormat::markdown, SheetFormat::html})
      CHECK(words_of_oil(run_sheet(plan, format), plan) == none);
  }
}

TEST_CASE("a run of a plant without oil figures ends with the customary hydrosol",
          "[plan][hydrosol-plant]") {
  const Plan plan = make_plan(hydrosol_recipe(), shipped_tables(), 16);
  CHECK(plan.run->stop_criterion == StopRule::customary);
  // 0.7 to 1.0 L per kilogram of fresh flowers (King's American Dispensatory, 1898).
  CHECK_THAT(in_litres(*plan.run->stop.hydrosol) / in_kilograms(plan.charge.mass),
             WithinRel(0.84, 0.05));
  // Without a figure of its own, that of all plants: 1.5 L per kilogram (hydrosol_per_fresh of
  // design_defaults.json).
  Recipe birch = hydrosol_recipe();
  birch.plant = shipped_tables().plants.at("birch-leaf");
  const Plan any = make_plan(birch, shipped_tables(), 16);
  CHECK_THAT(in_litres(*any.run->stop.hydrosol) / in_kilograms(any.charge.mass),
             WithinRel(1.5, 0.05));
}

TEST_CASE("nobody can ask for oil that isn't known", "[plan][hydrosol-plant]") {
  for (const char* more : {R"(, "goal": {"oil": "2 mL"})", R"(, "goal": {"oil_share": "75 %"})",
                           R"(, "own": {"oil_content": "0.7 %"})"}) {
    CAPTURE(more);
    CHECK_THROWS_WITH(hydrosol_recipe(more),
                      ContainsSubstring("Nothing is known of the oil of elderflower"));
  }
}

TEST_CASE("nobody may work from the plan of a plant that isn't to be distilled",
          "[plan][hydrosol-plant]") {
  int refused = 0;
  int spoiled = 0;
  for (const auto& [key, plant] : shipped_tables().plants) {
    if (!plant->unsuited) continue;
    CAPTURE(key);
    Recipe recipe = hydrosol_recipe();
    recipe.plant = plant;
    recipe.state = plant->states.begin()->first;
    recipe.cut = default_cut(plant, recipe.state);
    Plan plan = make_plan(recipe, shipped_tables(), 16);
    const Finding& first = plan.findings.front();
    if (plant->unsuited->refused) {
      ++refused;
      CHECK(plan.verdict == Verdict::refused);
      REQUIRE(first.is<found::NotToBeDistilled>());
      add_ways_out(plan, shipped_tables(), 16);
      CHECK(plan.ways_out.empty());
    } else {
      ++spoiled;
      CHECK(plan.verdict == Verdict::caution);
      REQUIRE(first.is<found::SteamSpoils>());
    }
    CHECK_THAT(finding_text(first, Units::metric), ContainsSubstring(plant->unsuited->why));
  }
  CHECK(refused >= 2);
  CHECK(spoiled >= 1);
}
