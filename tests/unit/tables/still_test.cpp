// Tests whether a still has invented figures.
#include "firstdrop/tables/still.hpp"

#include <nlohmann/json.hpp>
#include <string>

#include "catch.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using nlohmann::json;

namespace {

/// A shipped still as a person's own still file, with `known` set to this for every figure.
json all_known_as(const std::string& key, const std::string& known) {
  json still = json::parse(embedded_table_texts().stills).at("entries").at(key);
  still["still"] = 1;
  const auto change = [&](const auto& self, json& node) -> void {
    if (node.is_object() && node.contains("known")) node["known"] = known;
    if (!node.is_structured()) return;
    for (json& child : node) self(self, child);
  };
  change(change, still);
  return still;
}

bool is_invented(const json& still) {
  return has_invented_figures(read_still(still.dump(), "", shipped_tables()));
}

}  // namespace

TEST_CASE("every shipped still has invented figures", "[still]") {
  REQUIRE(shipped_tables().stills.size() >= 6);
  for (const auto& [key, still] : shipped_tables().stills) {
    INFO(key);
    CHECK(has_invented_figures(*still));
  }
}

TEST_CASE("one invented figure is enough, wherever it stands", "[still]") {
  int figures = 0;
  for (const auto& [key, shipped] : shipped_tables().stills) {
    const json measured = all_known_as(key, "measured");
    CHECK_FALSE(is_invented(measured));
    CHECK_FALSE(is_invented(all_known_as(key, "common-practice")));
    CHECK(is_invented(all_known_as(key, "own-invention")));
    const json flat = measured.flatten();
    for (const auto& [pointer, value] : flat.items()) {
      if (!pointer.ends_with("/known")) continue;
      INFO(key << pointer);
      json one = measured;
      one[json::json_pointer(pointer)] = "own-invention";
      CHECK(is_invented(one));
      ++figures;
    }
  }
  CHECK(figures > 90);
}
