// What must hold of every plan. It is checked for random recipes over everything that a recipe may
// say, and for the recipes that once broke a property.
//
// The environment variable FIRSTDROP_PROPERTY_RECIPES sets how many valid recipes to plan; a
// nightly run takes a million. FIRSTDROP_PROPERTY_SEED selects another stream of them.
// FIRSTDROP_PROPERTY_KEEP names a folder for the smallest recipe that breaks a property. The
// recipes of a seed are the same on every machine.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "brief_properties.hpp"
#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "monotone_properties.hpp"
#include "plan_properties.hpp"
#include "random_recipe.hpp"
#include "shrink.hpp"
#include "source_folder.hpp"
#include "test_environment.hpp"
#include "test_random.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using property::Pairs;
using property::Violations;
using random_recipe::Document;
using test_random::Random;

namespace {

#if defined(__SANITIZE_ADDRESS__) || !defined(NDEBUG)
constexpr long usual_recipes = 1500;
#else
constexpr long usual_recipes = 10000;
#endif
constexpr int samples = 8;
// Report at most this many violated properties.
constexpr std::size_t enough_failures = 8;

long recipes() {
  return std::max(1L, from_environment("FIRSTDROP_PROPERTY_RECIPES", usual_recipes));
}
std::uint64_t seed() {
  return static_cast<std::uint64_t>(from_environment("FIRSTDROP_PROPERTY_SEED", 20240611));
}

/// The draws for case `i` of a stream, whatever came before it.
Random random_of(std::uint64_t stream, long i) {
  return Random(stream * 0x9E3779B97F4A7C15U + static_cast<std::uint64_t>(i));
}

struct Outcome {
  std::optional<Plan> plan;  ///< none if the recipe can't be planned
  Violations violations;
};

/// Plans a recipe and checks the plan against all properties. The sample points drawn for it are
/// always the same, so that a kept case fails until it is fixed.
Outcome judged(const Recipe& recipe, Pairs& pairs) {
  Outcome outcome;
  try {
    outcome.plan = make_plan(recipe, shipped_tables(), samples);
    Random random(recipe.seed);
    outcome.violations = property::plan_violations(*outcome.plan, shipped_tables(), random);
    static PlanMaker maker(shipped_tables());
    const Violations in_brief = property::brief_violations(*outcome.plan, maker, samples);
    outcome.violations.insert(outcome.violations.end(), in_brief.begin(), in_brief.end());
    if (!outcome.plan->run) return outcome;
    const Violations between =
        property::monotone_violations(*outcome.plan, shipped_tables(), samples, random, pairs);
    outcome.violations.insert(outcome.violations.end(), between.begin(), between.end());
  } catch (const InputError&) {
    return outcome;
  } catch (const std::exception& error) {
    outcome.violations.push_back({"nothing but an InputError is thrown", error.what()});
  }
  return outcome;
}

std::string words_of(const Violations& violations, const std::string& property) {
  for (const auto& violation : violations) {
    if (violation.property == property) return violation.words;
  }
  return "";
}

/// The smallest recipe found that breaks the same property.
Document smallest(const Document& document, const std::string& property) {
  return property::shrink(document, [&](const Document& smaller) {
    const auto recipe = random_recipe::read(smaller, shipped_tables());
    if (!recipe) return false;
    Pairs unused;
    return !words_of(judged(*recipe, unused).violations, property).empty();
  });
}

struct Counts {
  long valid = 0;
  long accepted = 0;
  long cautioned = 0;  ///< among the accepted
  long refused = 0;
  long no_plan = 0;
};

void print(const std::map<std::string, Counts>& counts, const Pairs& pairs, long drawn,
           const std::map<std::string, long>& failures) {
  Counts all;
  for (const auto& [kind, c] : counts) {
    std::cout << kind << ": " << c.valid << " valid, " << c.accepted << " accepted (" << c.cautioned
              << " with a caution), " << c.refused << " refused, " << c.no_plan
              << " without a plan\n";
    all.valid += c.valid;
    all.accepted += c.accepted;
    all.cautioned += c.cautioned;
    all.refused += c.refused;
    all.no_plan += c.no_plan;
  }
  std::cout << "all: " << all.valid << " valid of " << drawn << " drawn, " << all.accepted
            << " accepted (" << all.cautioned << " with a caution), " << all.refused << " refused, "
            << all.no_plan << " without a plan\n";
  for (const auto& [name, count] : pairs) std::cout << count << " pairs: " << name << '\n';
  for (const auto& [name, count] : failures) std::cout << count << " VIOLATE: " << name << '\n';
  std::cout << std::flush;
}

/// Writes a case to the folder for kept cases, with the property that it broke.
void keep(Document document, const std::string& property, const std::string& words) {
  const char* folder = std::getenv("FIRSTDROP_PROPERTY_KEEP");
  if (!folder) return;
  std::string name = property;
  std::replace(name.begin(), name.end(), ' ', '-');
  document["note"] = "Broke: " + property + " (" + words + ").";
  std::ofstream(std::filesystem::path(folder) / (name + ".json")) << document.dump(2) << '\n';
}

std::vector<std::filesystem::path> kept() {
  std::vector<std::filesystem::path> files;
  const std::filesystem::path folder = source_folder() / "tests/property/counterexamples";
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".json") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

Document document_in(const std::filesystem::path& path) {
  std::ifstream file(path);
  REQUIRE(file);
  return Document::parse(file);
}

}  // namespace

TEST_CASE("every plan keeps its promises", "[property]") {
  const long wanted = recipes();
  std::map<std::string, Counts> counts;
  std::map<std::string, long> failures;
  Pairs pairs;
  long drawn = 0;
  for (long valid = 0; valid < wanted; ++drawn) {
    Random random = random_of(seed(), drawn);
    const Document document = random_recipe::document(random, shipped_tables());
    const auto recipe = random_recipe::read(document, shipped_tables());
    if (!recipe) continue;
    ++valid;
    const Outcome outcome = judged(*recipe, pairs);
    Counts& count = counts[to_string(recipe->method_used()) + " with " +
                           to_string(recipe->still->condenser.kind)];
    ++count.valid;
    if (!outcome.plan) {
      ++count.no_plan;
    } else {
      ++(outcome.plan->verdict == Verdict::refused ? count.refused : count.accepted);
      if (outcome.plan->verdict == Verdict::caution) ++count.cautioned;
    }
    for (const auto& violation : outcome.violations) {
      if (++failures[violation.property] > 1 || failures.size() > enough_failures) continue;
      const Document small = smallest(document, violation.property);
      Pairs unused;
      const auto again = judged(*random_recipe::read(small, shipped_tables()), unused);
      const std::string words = words_of(again.violations, violation.property);
      keep(small, violation.property, words);
      FAIL_CHECK(violation.property << ": " << violation.words << "\nrecipe " << drawn
                                    << " of the stream; smallest that breaks it (" << words
                                    << "):\n"
                                    << small.dump(2));
    }
    if (valid % 50000 == 0) print(counts, pairs, drawn + 1, failures);
  }
  print(counts, pairs, drawn, failures);
  // The recipes must be spread over methods, condensers and verdicts.
  CHECK(counts.size() == 9);
  for (const auto& [kind, count] : counts) {
    CAPTURE(kind);
    CHECK(count.accepted > count.valid / 20);
    CHECK(count.refused > count.valid / 20);
    CHECK(count.no_plan < count.valid / 8);
  }
  CHECK(wanted * 10 > drawn * 7);
  CHECK(pairs.size() == 10);
  for (const auto& [name, count] : pairs) {
    CAPTURE(name);
    CHECK(count > wanted / 200);
  }
}

TEST_CASE("recipes that once broke a property keep it now", "[property]") {
  const auto files = kept();
  REQUIRE_FALSE(files.empty());
  for (const auto& path : files) {
    CAPTURE(path.filename().string());
    const Document document = document_in(path);
    CHECK_FALSE(document.value("note", "").empty());  // what it broke, and why
    auto recipe = random_recipe::read(document, shipped_tables());
    REQUIRE(recipe);
    for (recipe->seed = 0; recipe->seed < 40; ++recipe->seed) {
      Pairs pairs;
      const Outcome outcome = judged(*recipe, pairs);
      for (const auto& violation : outcome.violations) {
        FAIL_CHECK(violation.property << ": " << violation.words);
      }
    }
  }
}

TEST_CASE("a wrong property is found out, and its case made small", "[property]") {
  // A plainly wrong property: no plan ever has more than 10 mL held.
  const auto breaks = [](const Document& document) {
    const auto recipe = random_recipe::read(document, shipped_tables());
    if (!recipe) return false;
    try {
      const Plan plan = make_plan(*recipe, shipped_tables(), samples);
      return plan.run && plan.run->water.held > millilitres(10);
    } catch (const InputError&) {
      return false;
    }
  };
  int found = 0;
  for (long i = 0; i < 400 && found < 5; ++i) {
    Random random = random_of(99, i);
    const Document document = random_recipe::document(random, shipped_tables());
    if (!document["still"].is_object()) continue;
    if (!document.contains("plant") || !document["plant"].is_object()) continue;
    if (!breaks(document)) continue;
    ++found;
    const Document small = property::shrink(document, breaks);
    CAPTURE(document.dump(2), small.dump(2));
    CHECK(breaks(small));
    CHECK(small.dump().size() < 100);
    CHECK(document.dump().size() > 800);
  }
  CHECK(found == 5);
}

TEST_CASE("judges find what does not hold, and not a number least of all", "[property]") {
  property::Judge judge;
  judge.no_more("order", 1.0, 1.0);
  judge.no_more("order", 1.0 + 0.5 * property::rounding, 1.0);
  judge.no_more("order", -1.0, -1.0 + 0.5 * property::rounding);
  judge.same("same", 2.0, 2.0);
  CHECK(judge.clean());
  judge.no_more("order", 1.0 + 3 * property::rounding, 1.0);
  judge.no_more("not a number", std::nan(""), 1.0);
  judge.no_more("not a number", 1.0, std::nan(""));
  judge.same("same", 1.0, 1.1);
  judge.holds(false, "holds");
  CHECK(judge.take().size() == 5);
}

TEST_CASE("the same recipe gives the same plan to the last byte", "[property]") {
  int compared = 0;
  for (long i = 0; i < 250; ++i) {
    Random random = random_of(31, i);
    const Document document = random_recipe::document(random, shipped_tables());
    const auto recipe = random_recipe::read(document, shipped_tables());
    if (!recipe) continue;
    CAPTURE(i, document.dump());
    Pairs pairs;
    const auto first = judged(*recipe, pairs).plan;
    if (!first) continue;
    const auto second = judged(*recipe, pairs).plan;
    REQUIRE(second);
    CHECK(plan_json(*first) == plan_json(*second));
    ++compared;
  }
  CHECK(compared > 150);
}

TEST_CASE("a recipe that can be read can be planned, at the ends of its ranges", "[property]") {
  const Tables& tables = shipped_tables();
  int planned = 0;
  for (const char* room : {"-10 °C", "0 °C", "0.005 °C", "1 °C", "50 °C"}) {
    for (const char* pressure : {"50 kPa", "110 kPa"}) {
      for (const char* coolant : {"", R"(, "coolant": "0 °C")", R"(, "coolant": "60 °C")"}) {
        const std::string text = R"({"recipe": 1, "plant": "lavender", "still": "bench-column", )"
                                 R"("site": {"room": ")" +
                                 std::string(room) + R"(", "pressure": ")" + pressure + '"' +
                                 coolant + "}}";
        CAPTURE(text);
        try {
          const Recipe recipe = read_recipe(text, "recipe", tables, {});
          Pairs pairs;
          const Outcome outcome = judged(recipe, pairs);
          for (const auto& violation : outcome.violations) {
            FAIL_CHECK(violation.property << ": " << violation.words);
          }
          if (outcome.plan) ++planned;
        } catch (const InputError&) {
          continue;  // refused by the reader, which is fine too
        }
      }
    }
  }
  CHECK(planned >= 6);
}
