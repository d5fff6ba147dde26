// Each way out of a refused random recipe leads to a plan that may be run.
#include <iostream>
#include <map>
#include <string>

#include "catch.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/tables/tables.hpp"
#include "property/random_recipe.hpp"
#include "test_environment.hpp"
#include "test_random.hpp"
#include "test_tables.hpp"

using namespace firstdrop;

TEST_CASE("each way out of a random refusal leads out", "[property][ways]") {
  const Tables& tables = shipped_tables();
  const long wanted = from_environment("FIRSTDROP_WAYS_OUT", 150);
  std::map<std::string, long> refused;
  std::map<std::string, long> without;
  long tried = 0;
  for (std::uint64_t i = 0; tried < wanted; ++i) {
    test_random::Random random(440'000'000 + i);
    const auto document = random_recipe::document(random, tables);
    const auto recipe = random_recipe::read(document, tables);
    if (!recipe) continue;
    const auto refusal = random_recipe::planned(*recipe, tables, 64, Detail::brief);
    if (!refusal || refusal->verdict != Verdict::refused) continue;
    const Plan& plan = *refusal;
    const std::string code(plan.findings.front().code());
    ++refused[code];
    const auto ways = ways_out(plan, tables, 64);
    if (ways.empty()) ++without[code];
    CAPTURE(i, code, document.dump());
    CHECK(ways.size() <= 3);
    for (const WayOut& way : ways) {
      ++tried;
      CAPTURE(way.text);
      const Plan out = make_plan(way.recipe, tables, 64);
      CHECK(out.verdict != Verdict::refused);
    }
  }
  long all = 0;
  for (const auto& [code, count] : refused) {
    all += count;
    std::cout << code << ": " << count << " refused, " << without[code] << " without a way out\n";
  }
  std::cout << tried << " ways out of " << all << " refusals tried\n";
}
