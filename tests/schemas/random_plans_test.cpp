// Random recipes fit the recipe schema, and their plans fit the schemas of plans and batch lines.
//
// FIRSTDROP_SCHEMA_RECIPES in the environment sets the number of valid recipes.
#include <algorithm>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "output/plan_lines.hpp"
#include "property/random_recipe.hpp"
#include "schemas/schema_check.hpp"
#include "test_environment.hpp"
#include "test_random.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using nlohmann::json;
using schema_check::faults;

namespace {

#if defined(__SANITIZE_ADDRESS__) || !defined(NDEBUG)
constexpr long usual_recipes = 300;
#else
constexpr long usual_recipes = 3000;
#endif
constexpr int samples = 8;

long recipes() {
  return std::max(1L, from_environment("FIRSTDROP_SCHEMA_RECIPES", usual_recipes));
}

}  // namespace

TEST_CASE("random recipes and their plans fit their schemas", "[schema]") {
  const long wanted = recipes();
  PlanMaker in_brief(shipped_tables());
  long planned = 0;
  std::uint64_t drawn = 0;
  for (long valid = 0; valid < wanted; ++drawn) {
    test_random::Random random(drawn);
    const json document = random_recipe::document(random, shipped_tables());
    const auto recipe = random_recipe::read(document, shipped_tables());
    if (!recipe) continue;
    ++valid;
    CAPTURE(drawn, document.dump());
    CHECK(faults("recipe", document) == "");
    try {
      const Plan plan = make_plan(*recipe, shipped_tables(), samples);
      CHECK(faults("plan", json::parse(plan_json(plan))) == "");
      std::string line;
      append_brief(line, in_brief.make(*recipe, samples, Detail::brief));
      CHECK(faults("batch-line", json::parse(line)) == "");
      ++planned;
    } catch (const InputError&) {
      continue;  // a recipe whose parts contradict each other has no plan
    }
  }
  CHECK(planned > wanted / 2);
}
