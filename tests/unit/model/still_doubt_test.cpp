// Figures of a still that look like slips.
#include "firstdrop/model/still_doubt.hpp"

#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "catch.hpp"
#include "firstdrop/output/still_words.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using namespace test_stills;
using nlohmann::json;

namespace {

json bench_column() {
  return json::parse(R"({"still": 1, "title": "Bench column",
    "pot": {"material": "stainless-steel", "volume": "3 L", "diameter": "180 mm", "mass": "1.2 kg",
            "fill_limit": "80 %", "minimum_water": "400 mL"},
    "column": {"volume": "1.5 L", "diameter": "100 mm", "mass": "0.6 kg"},
    "head": {"mass": "0.4 kg", "surface": "0.03 m2"},
    "heater": {"kind": "electric-plate", "power": "1 kW"},
    "condenser": {"kind": "reservoir", "surface": "0.08 m2", "coolant": "20 L",
                  "ice_per_change": "2 kg"},
    "wall_hold_up": "20 g"})");
}

std::vector<std::string> doubts(const json& text) {
  std::vector<std::string> all;
  for (const StillDoubt& one :
       doubts_about(read_still(text.dump(), "still.json", shipped()), shipped()))
    all.push_back(doubt_text(one, Units::metric));
  return all;
}

}  // namespace

TEST_CASE("no shipped still is doubted", "[still]") {
  for (const auto& [key, still] : shipped().stills) {
    CAPTURE(key);
    CHECK(doubts_about(*still, shipped()).empty());
  }
  CHECK(doubts(bench_column()).empty());
}

TEST_CASE("a doubt says what the figure would mean", "[still]") {
  // Each of these passed in silence once.
  json text = bench_column();
  text["pot"]["mass"] = "110 kg";
  CHECK(doubts(text).at(0) == "A pot of 110 kg would have walls 151 mm thick.");
  text = bench_column();
  text["column"]["volume"] = "120 mL";
  text["column"]["diameter"] = "50 mm";
  CHECK(doubts(text).at(0) == "A column of 120 mL holds about 19 g of fresh herb.");
  text = bench_column();
  text["wall_hold_up"] = "1.2 kg";
  CHECK(doubts(text).at(0) == "1.2 kg of water on the walls is a film 7.1 mm thick.");
  text = bench_column();
  text["condenser"]["surface"] = "5 m2";
  CHECK(doubts(text).at(0) ==
        "A condenser with 5.000 m² of surface condenses about 170 kW of steam, and about 740 W "
        "comes.");
}

TEST_CASE("most slips by a factor of ten are doubted or refused", "[still]") {
  struct Slip {
    const char* pointer;
    const char* tenth;  // doubted, unless listed in `passes`
    const char* tenfold;
  };
  const std::vector<Slip> slips = {
      {"/pot/mass", "120 g", "12 kg"},
      {"/pot/minimum_water", "40 mL", "2.3 L"},
      {"/column/mass", "60 g", "6 kg"},
      {"/head/mass", "40 g", "4 kg"},
      {"/head/surface", "30 cm2", "0.3 m2"},
      {"/heater/power", "100 W", "10 kW"},
      {"/condenser/surface", "80 cm2", "0.8 m2"},
      {"/condenser/coolant", "2.3 L", "200 L"},
      {"/wall_hold_up", "2 g", "200 g"},
  };
  // A pot with 2.3 L of water at least can't hold ten times as much, and a bath of 2.3 L warms in
  // 4 min; no limit can be narrower without doubting true figures.
  const std::set<std::string> passes = {"2.3 L"};
  int caught = 0;
  for (const Slip& slip : slips) {
    for (const char* value : {slip.tenth, slip.tenfold}) {
      CAPTURE(slip.pointer, value);
      json text = bench_column();
      text[json::json_pointer(slip.pointer)] = value;
      const bool doubted = !doubts(text).empty();
      CHECK(doubted != passes.contains(value));
      caught += doubted ? 1 : 0;
    }
  }
  CHECK(caught == 16);
}
