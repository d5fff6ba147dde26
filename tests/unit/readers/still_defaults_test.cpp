// What a still has where its owner hasn't measured it. The figures are worked out by hand from the
// rows of data/design_defaults.json and data/materials.json.
#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using namespace test_stills;
using nlohmann::json;

namespace {

json short_still() {
  return json::parse(R"({"still": 1,
    "pot": {"material": "stainless-steel", "volume": "3 L"},
    "column": {"volume": "1.5 L"},
    "heater": {"kind": "electric-plate", "power": "1 kW"},
    "condenser": {"kind": "reservoir", "coolant": "20 L"}})");
}

Still read(const json& text) {
  return read_still(text.dump(), "still.json", shipped());
}

bool is_default(const Evidence& evidence) {
  return evidence.known == Known::default_value && evidence.basis.starts_with("default: ");
}

}  // namespace

TEST_CASE("a short file of a still has a default for every figure that it leaves out", "[still]") {
  const Still still = read(short_still());
  CHECK(still.title == "Own still");
  CHECK(still.methods == std::vector<Method>{Method::steam});
  CHECK(still.column->material == "stainless-steel");
  CHECK(still.head.material == "stainless-steel");
  CHECK(still.condenser.wall == "stainless-steel");

  // A pot as high as it is wide: V = pi/4 d^3.
  CHECK_THAT(in_millimetres(still.pot.diameter.typical()), WithinRel(156.3, 1e-3));
  // A column twice as high as it is wide.
  CHECK_THAT(in_millimetres(still.column->diameter.typical()), WithinRel(98.47, 1e-3));
  // Side 0.07677 m2 and base 0.01919 m2, 0.5, 1 and 2 mm of steel of 7900 kg/m3.
  CHECK_THAT(in_kilograms(still.pot.mass.range.low), WithinRel(0.379, 2e-3));
  CHECK_THAT(in_kilograms(still.pot.mass.typical()), WithinRel(0.758, 2e-3));
  CHECK_THAT(in_kilograms(still.pot.mass.range.high), WithinRel(1.516, 2e-3));
  CHECK(still.pot.fill_limit.typical() == percent(80));
  // 20 mm over 191.9 cm2.
  CHECK_THAT(in_millilitres(still.pot.minimum_water.typical()), WithinRel(383.8, 1e-3));
  // 1, 2.5 and 5 times the column's 76.15 cm2.
  CHECK_THAT(in_square_metres(still.head.surface.range.low), WithinRel(0.007615, 1e-3));
  CHECK_THAT(in_square_metres(still.head.surface.range.high), WithinRel(0.038075, 1e-3));
  // 0.5, 1.2 and 2.5 times 0.02 m3 to the power of 2/3, 0.07368 m2.
  CHECK_THAT(in_square_metres(still.condenser.surface.range.low), WithinRel(0.03684, 1e-3));
  CHECK_THAT(in_square_metres(still.condenser.surface.typical()), WithinRel(0.08842, 1e-3));
  CHECK(still.condenser.outlet.typical() == celsius(40));
  CHECK(still.condenser.coolant_limit.typical() == celsius(35));
  CHECK(still.condenser.ice_per_change->typical() == grams(0));  // nobody need have ice
  // 0.1 mm on the column's 0.06094 m2, the head's 0.01904 m2 and the condenser's 0.08842 m2.
  CHECK_THAT(in_grams(still.wall_hold_up.typical()), WithinRel(16.84, 2e-3));

  CHECK(default_figures(still).size() == 13);
  CHECK(is_default(still.pot.mass.evidence));
  CHECK(is_default(still.condenser.surface.evidence));
  CHECK_FALSE(is_default(still.pot.volume.evidence));
  CHECK_FALSE(is_default(still.condenser.coolant->evidence));
}

TEST_CASE("what a file gives isn't changed by defaults", "[still]") {
  json text = short_still();
  text["title"] = "Mine";
  text["pot"]["mass"] = "1.2 kg";
  text["pot"]["fill_limit"] = "default";
  text["wall_hold_up"] = "0 g";
  const Still still = read(text);
  CHECK(still.title == "Mine");
  CHECK(still.pot.mass.typical() == kilograms(1.2));
  CHECK(still.pot.mass.evidence.known == Known::measured);
  CHECK(still.pot.fill_limit.typical() == percent(80));
  CHECK(is_default(still.pot.fill_limit.evidence));
  CHECK(still.wall_hold_up.typical() == grams(0));
  CHECK(still.wall_hold_up.evidence.known == Known::measured);
}

TEST_CASE("the shipped stills have no defaults", "[still]") {
  for (const auto& [key, still] : shipped().stills) {
    CAPTURE(key);
    CHECK(default_figures(*still).empty());
  }
}

TEST_CASE("defaults follow the kind of still", "[still]") {
  json text = short_still();
  SECTION("herb in the water leaves room for foam") {
    text.erase("column");
    const Still still = read(text);
    CHECK(still.methods == std::vector<Method>{Method::hydro});
    CHECK(still.pot.fill_limit.typical() == percent(66));
  }
  SECTION("a grid without a column is for water and steam") {
    text.erase("column");
    text["grid"] = {{"water_below", "1 L"}, {"space", "1.5 L"}};
    const Still still = read(text);
    CHECK(still.methods == std::vector<Method>{Method::water_and_steam});
    // The base, as a plate of steel 1 mm thick.
    CHECK_THAT(in_grams(still.grid->mass.typical()), WithinRel(151.6, 2e-3));
  }
  SECTION("an ice bath takes ice") {
    text["condenser"]["kind"] = "ice-bath";
    CHECK_THAT(in_kilograms(read(text).condenser.ice_per_change->typical()), WithinRel(6.0, 1e-9));
  }
  SECTION("a tube has its own surface, most of it in the coolant") {
    text["condenser"]["tube_length"] = "2 m";
    text["condenser"]["tube_diameter"] = "10 mm";
    const Range<Area> surface = read(text).condenser.surface.range;
    CHECK_THAT(in_square_metres(surface.typical), WithinRel(0.85 * 0.062832, 1e-4));
    CHECK_THAT(in_square_metres(surface.low), WithinRel(0.70 * 0.062832, 1e-4));
  }
  SECTION("a dome is between flat and round") {
    text["condenser"]["dome_diameter"] = "200 mm";
    const Range<Area> surface = read(text).condenser.surface.range;
    CHECK_THAT(in_square_metres(surface.low), WithinRel(0.031416, 1e-4));
    CHECK_THAT(in_square_metres(surface.high), WithinRel(0.062832, 1e-4));
  }
  SECTION("a column of glass on a pot of steel has a head of glass") {
    text["column"]["material"] = "glass";
    CHECK(read(text).head.material == "glass");
  }
  SECTION("a kitchen tap") {
    text["condenser"] = {
        {"kind", "run-through"}, {"tube_length", "1 m"}, {"tube_diameter", "10 mm"}};
    CHECK_THAT(in_litres_per_minute(read(text).condenser.flow_limit->range.low),
               WithinRel(3.8, 1e-9));
  }
}

TEST_CASE("what decides a plan has no default", "[still]") {
  const auto fault = [](const json& text) {
    try {
      read(text);
    } catch (const InputError& error) {
      return std::string(error.what());
    }
    return std::string();
  };
  for (const char* pointer : {"/pot/material", "/pot/volume", "/column/volume", "/heater/kind",
                              "/heater/power", "/condenser/kind", "/condenser/coolant"}) {
    CAPTURE(pointer);
    json text = short_still();
    const json::json_pointer place(pointer);
    text.at(place.parent_pointer()).erase(place.back());
    CHECK_THAT(fault(text), ContainsSubstring(place.back()));
    json by_word = short_still();
    by_word[place] = "default";
    CHECK(fault(by_word) != "");
  }
  json element = short_still();
  element["heater"]["kind"] = "immersed-element";
  CHECK_THAT(fault(element), ContainsSubstring("minimum_water"));
  element["pot"]["minimum_water"] = "900 mL";
  CHECK(fault(element) == "");
  json tap = short_still();
  tap["condenser"] = {{"kind", "run-through"}};
  CHECK_THAT(fault(tap), ContainsSubstring("tube_length"));
  json half = short_still();
  half["condenser"]["tube_length"] = "2 m";
  CHECK_THAT(fault(half), ContainsSubstring("tube_diameter"));
}
