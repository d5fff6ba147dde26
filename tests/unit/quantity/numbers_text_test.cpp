#include "quantity/numbers_text.hpp"

#include <cmath>

#include "catch.hpp"
#include "firstdrop/quantity/units.hpp"

using namespace firstdrop;

namespace {

// From a gram or millilitre up to a tonne, in steps that don't fall on marks.
template <class Check>
void for_sizes(Check check) {
  for (double x = 1.003; x < 1e6; x *= 1.0137) check(x);
}

}  // namespace

TEST_CASE("quantities in metric units", "[numbers_text]") {
  const Units units = Units::metric;
  CHECK(text(grams(0.384), units) == "0.38 g");
  CHECK(text(grams(265), units) == "265 g");
  CHECK(text(grams(1350), units) == "1.35 kg");
  CHECK(text(millilitres(848), units) == "850 mL");
  CHECK(text(litres(1.65), units) == "1.65 L");
  CHECK(text(celsius(98.27), units) == "98.3 °C");
  CHECK(text(millilitres_per_minute(16.62), units) == "16.6 mL/min");
  CHECK(text(square_metres(0.031), units) == "310 cm²");
  CHECK(text(square_metres(0.16), units) == "0.160 m²");
}

// Worked out by hand with 28.3495 g/oz, 29.5735 mL/fl oz and 3.785412 L/gal. Trailing comments give
// the unrounded numbers.
TEST_CASE("quantities in US units", "[numbers_text]") {
  const Units units = Units::us;
  CHECK(text(grams(0.384), units) == "0.38 g");        // fine scales show grams
  CHECK(text(grams(265), units) == "9.3 oz");          // 9.348
  CHECK(text(grams(1350), units) == "2.98 lb");        // 2.9762
  CHECK(text(millilitres(14), units) == "14 mL");      // lab glass is marked in mL
  CHECK(text(millilitres(848), units) == "29 fl oz");  // 28.67
  CHECK(text(litres(1.94), units) == "66 fl oz");      // 65.6
  CHECK(text(litres(5), units) == "5.28 qt");          // 5.283
  CHECK(text(litres(50), units) == "13.2 gal");        // 13.21
  CHECK(text(celsius(98.2), units) == "209 °F");       // 208.8
  CHECK(text(celsius(-18), units) == "0 °F");          // -0.4
  CHECK(text(millilitres_per_minute(16.6), units) == "0.56 fl oz/min");
  CHECK(text(millilitres_per_minute(4000), units) == "1.06 gal/min");
  CHECK(text(square_metres(0.08), units) == "124 in²");   // 124.0
  CHECK(text(square_metres(0.16), units) == "1.72 ft²");  // 1.722
  CHECK(text(kilopascals(95.5), units) == "28.2 inHg");   // 28.20
  CHECK(text(grams_per_litre(160), units) == "5.34 oz/qt");
  CHECK(text(litres_per_kilogram(3.9), units) == "1.9 qt/lb");  // 1.869
  CHECK(text(metres(1), units) == "3.3 ft");
}

// At least two digits are shown, so rounding changes a number by at most 5 %.
TEST_CASE("what is said in US units is read again as the same", "[numbers_text]") {
  for_sizes([](double x) {
    const auto mass = parse_quantity<Mass>(text(grams(x), Units::us));
    REQUIRE(mass);
    CHECK_THAT(in_grams(*mass.value), WithinRel(x, 0.05));
    const auto volume = parse_quantity<Volume>(text(millilitres(x), Units::us));
    REQUIRE(volume);
    CHECK_THAT(in_millilitres(*volume.value), WithinRel(x, 0.05));
  });
}

TEST_CASE("a mark of scale or jug is shown in full, above or below what is asked for",
          "[numbers_text]") {
  for (const Units units : {Units::metric, Units::us}) {
    for_sizes([&](double x) {
      CAPTURE(x, to_string(units));
      const Mass mass = grams(x);
      for (const Mass mark : {neat_up(mass, units), neat_down(mass, units)}) {
        const auto shown = parse_quantity<Mass>(text(mark, units));
        REQUIRE(shown);
        CHECK_THAT(shown.value->si(), WithinAbs(mark.si(), 1e-9 * mark.si() + 1e-15));
      }
      CHECK(neat_up(mass, units) >= mass);
      CHECK(neat_down(mass, units) <= mass);

      const Volume volume = millilitres(x);
      for (const Volume mark : {neat_up(volume, units), neat_down(volume, units)}) {
        const auto shown = parse_quantity<Volume>(text(mark, units));
        REQUIRE(shown);
        CHECK_THAT(shown.value->si(), WithinAbs(mark.si(), 1e-9 * mark.si() + 1e-15));
      }
      CHECK(neat_up(volume, units) >= volume);
      CHECK(neat_down(volume, units) <= volume);

      CHECK(ice_up(mass, units) >= mass);
      const auto ice = parse_quantity<Mass>(text(ice_up(mass, units), units));
      REQUIRE(ice);
      if (x < 1e4) CHECK_THAT(ice.value->si(), WithinRel(ice_up(mass, units).si(), 1e-9));
    });
  }
}

TEST_CASE("a tap is opened no less than needed", "[numbers_text]") {
  for (const Units units : {Units::metric, Units::us}) {
    for (double x = 0.013; x < 50; x *= 1.07) {
      const VolumeFlow flow = millilitres_per_minute(x * 1e3);
      CHECK(tap_up(flow, units) >= flow);
      CHECK(in_litres_per_minute(tap_up(flow, units) - flow) < 0.2);
    }
  }
}
