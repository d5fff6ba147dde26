#include "firstdrop/quantity/quantity.hpp"

#include <sstream>
#include <string>
#include <type_traits>

#include "catch.hpp"

using namespace firstdrop;

TEST_CASE("a product of quantities has the product's dimension", "[quantity]") {
  STATIC_REQUIRE(std::is_same_v<decltype(grams(1) / litres(1)), Density>);
  STATIC_REQUIRE(std::is_same_v<decltype(watts(1) * hours(1)), Energy>);
  STATIC_REQUIRE(std::is_same_v<decltype(litres(1) / minutes(1)), VolumeFlow>);
  STATIC_REQUIRE(std::is_same_v<decltype(grams(1) / grams(1)), Fraction>);
  STATIC_REQUIRE(std::is_same_v<decltype(1.0 / minutes(1)), Rate>);
  STATIC_REQUIRE(std::is_same_v<decltype(celsius(2) - celsius(1)), TemperatureDifference>);
  STATIC_REQUIRE(
      std::is_same_v<decltype(watts_per_square_metre_kelvin(1) * square_metres(1) * kelvins(1)),
                     Power>);
  STATIC_REQUIRE(
      std::is_same_v<decltype(kilojoules_per_kilogram_kelvin(1) * kilograms(1)), HeatCapacity>);
}

TEST_CASE("only a pure number turns into a double", "[quantity]") {
  STATIC_REQUIRE(std::is_convertible_v<Fraction, double>);
  STATIC_REQUIRE_FALSE(std::is_convertible_v<Mass, double>);
  STATIC_REQUIRE_FALSE(std::is_convertible_v<Temperature, double>);
  STATIC_REQUIRE_FALSE(std::is_convertible_v<double, Mass>);
  STATIC_REQUIRE_FALSE(std::is_convertible_v<Volume, Mass>);
  STATIC_REQUIRE_FALSE(std::is_convertible_v<TemperatureDifference, Temperature>);
}

TEST_CASE("sums, differences, scale and order", "[quantity]") {
  CHECK(in_grams(grams(260) + grams(40)) == 300.0);
  CHECK_THAT(in_grams(grams(260) - grams(300)), WithinRel(-40.0, 1e-14));
  CHECK(in_grams(-grams(5)) == -5.0);
  CHECK(in_litres(litres(2) * 0.5) == 1.0);
  CHECK(in_litres(0.5 * litres(2)) == 1.0);
  CHECK(in_litres(litres(2) / 4.0) == 0.5);
  CHECK(grams(999) < kilograms(1));
  CHECK(grams(1000) == kilograms(1));
  CHECK(celsius(99) < celsius(100));
  Mass mass = grams(1);
  mass += grams(3);
  mass -= grams(2);
  CHECK(in_grams(mass) == 2.0);
  CHECK(Mass().si() == 0.0);
  CHECK(Temperature() == celsius(0));
}

TEST_CASE("temperature is a point, its difference an interval", "[quantity]") {
  CHECK_THAT(in_kelvins(celsius(100) - celsius(20)), WithinRel(80.0, 1e-14));
  CHECK_THAT(in_celsius(celsius(20) + kelvins(5)), WithinRel(25.0, 1e-13));
  CHECK_THAT(in_celsius(celsius(20) - kelvins(5)), WithinRel(15.0, 1e-13));
  CHECK(celsius(0).kelvin() == 273.15);
}

TEST_CASE("physics by hand", "[quantity]") {
  // 1 kW for an hour is 3600 kJ, which is one kilowatt-hour.
  CHECK_THAT(in_kilojoules(kilowatts(1) * hours(1)), WithinRel(3600.0, 1e-14));
  CHECK_THAT(in_kilowatt_hours(kilowatts(1) * hours(1)), WithinRel(1.0, 1e-14));
  // 260 g at a bulk density of 160 g/L fill 1.625 L.
  CHECK_THAT(in_litres(grams(260) / grams_per_litre(160)), WithinRel(1.625, 1e-14));
  // A circle with a diameter of 2 m has an area of pi square metres.
  CHECK_THAT(in_square_metres(circle_area(metres(2))), WithinRel(3.14159265358979, 1e-14));
}

// Checks each maker against the SI value by the unit's definition, and against its inverse.
TEST_CASE("makers and their mirror images", "[quantity]") {
  const auto mirrors = [](auto make, auto in, double per_unit) {
    CHECK_THAT(make(1.0).si(), WithinRel(per_unit, 1e-14));
    CHECK_THAT(in(make(7.25)), WithinRel(7.25, 1e-14));
  };
  mirrors(percent, in_percent, 0.01);
  mirrors(kilograms, in_kilograms, 1.0);
  mirrors(grams, in_grams, 1e-3);
  mirrors(metres, in_metres, 1.0);
  mirrors(millimetres, in_millimetres, 1e-3);
  mirrors(square_metres, in_square_metres, 1.0);
  mirrors(litres, in_litres, 1e-3);
  mirrors(millilitres, in_millilitres, 1e-6);
  mirrors(seconds, in_seconds, 1.0);
  mirrors(minutes, in_minutes, 60.0);
  mirrors(hours, in_hours, 3600.0);
  mirrors(per_minute, in_per_minute, 1.0 / 60.0);
  mirrors(kilograms_per_hour, in_kilograms_per_hour, 1.0 / 3600.0);
  mirrors(millilitres_per_minute, in_millilitres_per_minute, 1e-6 / 60.0);
  mirrors(watts, in_watts, 1.0);
  mirrors(kilojoules, in_kilojoules, 1e3);
  mirrors(pascals, in_pascals, 1.0);
  mirrors(kilopascals, in_kilopascals, 1e3);
  mirrors(grams_per_litre, in_grams_per_litre, 1.0);
  mirrors(milligrams_per_litre, in_milligrams_per_litre, 1e-3);
  mirrors(litres_per_kilogram, in_litres_per_kilogram, 1e-3);
  mirrors(kelvins, in_kelvins, 1.0);
  mirrors(kilojoules_per_kilogram, in_kilojoules_per_kilogram, 1e3);
  mirrors(kilojoules_per_kilogram_kelvin, in_kilojoules_per_kilogram_kelvin, 1e3);

  CHECK(fraction(0.2).si() == 0.2);
  CHECK(cubic_metres(2).si() == 2.0);
  CHECK(kilowatts(2).si() == 2000.0);
  CHECK(joules(2).si() == 2.0);
  CHECK(kilograms_per_cubic_metre(2).si() == 2.0);
  CHECK(pascal_seconds(2).si() == 2.0);
  CHECK(watts_per_square_metre_kelvin(2).si() == 2.0);
  CHECK(watts_per_kelvin(2).si() == 2.0);
  CHECK(joules_per_kelvin(2).si() == 2.0);
  CHECK_THAT(grams_per_mole(18).si(), WithinRel(0.018, 1e-14));
  CHECK(in_centimetres_per_second(metres_per_second(2)) == 200.0);
  CHECK_THAT(in_grams_per_minute(kilograms_per_hour(6)), WithinRel(100.0, 1e-14));
  CHECK_THAT(in_litres_per_minute(millilitres_per_minute(1500)), WithinRel(1.5, 1e-14));
  CHECK_THAT(in_grams_per_millilitre(grams_per_litre(885)), WithinRel(0.885, 1e-14));
  CHECK_THAT(in_celsius(celsius(7.25)), WithinRel(7.25, 1e-13));
}

namespace {

template <class Q>
std::string printed(Q quantity) {
  std::ostringstream out;
  out << quantity;
  return out.str();
}

}  // namespace

TEST_CASE("quantities print with their unit", "[quantity]") {
  CHECK(printed(percent(5)) == "5 %");
  CHECK(printed(grams(260)) == "260 g");
  CHECK(printed(litres(1.7)) == "1700 mL");
  CHECK(printed(celsius(98.2)) == "98.2 °C");
  CHECK(printed(kelvins(12)) == "12 K");
  CHECK(printed(kilopascals(95.004)) == "95.004 kPa");
  CHECK(printed(minutes(65.8539)) == "65.8539 min");
  CHECK(printed(kilojoules_per_kilogram(2256.47)) == "2256.47 kJ/kg");
  CHECK(printed(grams(1) * kilowatts(1)) == "1 kg2 m2 s-3");
  CHECK(printed(kilograms(1) / (metres(1) * metres(1))) == "1 kg m-2");
}
