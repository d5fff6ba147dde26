// The table of findings: whole, and true to the code.
#include "firstdrop/finding.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string>

#include "catch.hpp"
#include "firstdrop/planner.hpp"
#include "source_folder.hpp"
#include "test_library.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using namespace test_stills;

namespace {

std::string text_of(const std::string& path) {
  std::ifstream file(source_folder() / path);
  REQUIRE(file);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// Small letters with hyphens between them that stand in quotes: codes, among other names.
std::set<std::string> quoted_names(const std::string& text) {
  std::set<std::string> names;
  for (auto begin = text.find('"'); begin != std::string::npos; begin = text.find('"', begin + 1)) {
    const auto end = text.find_first_not_of("abcdefghijklmnopqrstuvwxyz-", begin + 1);
    if (end == std::string::npos || text[end] != '"') continue;
    const std::string name = text.substr(begin + 1, end - begin - 1);
    const auto hyphen = name.find('-');
    if (hyphen == std::string::npos || hyphen == 0 || name.back() == '-') continue;
    names.insert(name);
  }
  return names;
}

bool is_sentence(const std::string& text) {
  return text.size() > 8 && text.back() == '.' && !(text.front() >= 'a' && text.front() <= 'z');
}

}  // namespace

TEST_CASE("the table of findings is whole", "[findings]") {
  CHECK(shipped().findings.size() > 60);
  int guided = 0;
  for (const auto& [code, kind] : shipped().findings) {
    CAPTURE(code);
    CHECK_FALSE(kind.levels.empty());
    CHECK(is_sentence(kind.meaning));
    CHECK(is_sentence(kind.what_to_do));
    if (!kind.guidance) continue;
    ++guided;
    CHECK(is_sentence(kind.guidance->reason));
    CHECK_FALSE(kind.guidance->follows.empty());
    CHECK_FALSE(kind.guidance->evidence.basis.empty());
    CHECK_FALSE(kind.guidance->evidence.sources.empty());
  }
  CHECK(guided >= 30);
  // The hazards of a run each have a reason and a body.
  for (const char* code :
       {"gas-indoors", "open-flame", "circuit-overloaded", "circuit-near-limit", "circuit-check",
        "steam-escapes", "coolant-when-late", "vapour-in-the-room", "glass-over-heat",
        "oil-at-flash-point", "flash-point", "regulated-substance", "toxic-oil", "hydrosol-storage",
        "reserve-reached", "target-exceeds-pot", "bed-blocks", "oil-freezes", "still-size-rules"}) {
    CAPTURE(code);
    REQUIRE(shipped().findings.contains(code));
    CHECK(shipped().findings.at(code).guidance.has_value());
  }
}

TEST_CASE("the table has every code of the program, and no other", "[findings]") {
  std::set<std::string> in_code;
  for (const char* path : {"src/planner.cpp", "src/cautions.cpp", "src/cooling.cpp"}) {
    in_code.merge(quoted_names(text_of(path)));
  }
  for (const std::string& code : in_code) {
    CAPTURE(code);
    CHECK(shipped().findings.contains(code));
  }
  for (const auto& [code, kind] : shipped().findings) {
    CAPTURE(code);
    CHECK(in_code.contains(code));
  }
}

TEST_CASE("every finding is provoked by a test", "[findings]") {
  const std::string tests = text_of("tests/unit/plan_test.cpp");
  for (const auto& [code, kind] : shipped().findings) {
    if (kind.standing) continue;  // counted as a group
    CAPTURE(code);
    CHECK(tests.find("\"" + code + "\"") != std::string::npos);
  }
}

TEST_CASE("findings keep to the table: all plants, stills and methods", "[findings]") {
  std::set<std::string> seen;
  for (const Recipe& recipe : plain_recipes()) {
    const Plan p = make_plan(recipe, shipped(), 16);
    for (const Finding& f : p.findings) {
      CAPTURE(recipe.still->key, recipe.plant->key, f.code);
      REQUIRE(shipped().findings.contains(f.code));
      const FindingKind& kind = shipped().findings.at(f.code);
      CHECK(std::count(kind.levels.begin(), kind.levels.end(), f.level) == 1);
      CHECK(f.standing == kind.standing);
      if (!kind.guidance) continue;
      CHECK(f.reason == kind.guidance->reason);
      for (const std::string& source : kind.guidance->evidence.sources) {
        CHECK(p.sources.contains(source));
      }
      seen.insert(f.code);
    }
  }
  CHECK(seen.size() > 15);
}
