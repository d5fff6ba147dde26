// Quantities as people type them: which forms are read, as what, and what the others are answered.
#include <cmath>
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/quantity/units.hpp"
#include "quantity/water_amount.hpp"

using namespace firstdrop;

namespace {

struct Taken {
  const char* text;
  double si;
};

// Litres and kilograms are 1e-3 m3 and 1 kg. The others are the values of GNU units 2.22, as in
// units_test.cpp: uscup, uspint, usquart, usgallon, usfloz, ustablespoon, usteaspoon; lb, oz; ft,
// inch; tempF.
constexpr double cup = 0.0002365882365;
constexpr double pint = 0.000473176473;
constexpr double quart = 0.000946352946;
constexpr double gallon = 0.003785411784;
constexpr double fluid_ounce = 2.95735295625e-05;
constexpr double tablespoon = 1.478676478125e-05;
constexpr double teaspoon = 4.92892159375e-06;
constexpr double pound = 0.45359237;
constexpr double ounce = 0.028349523125;
constexpr double foot = 0.3048;
constexpr double inch = 0.0254;

template <class Q>
double si_of(Q amount) {
  return amount.si();
}
double si_of(Temperature amount) {
  return amount.kelvin();
}

template <class Q>
void check_taken(const std::vector<Taken>& rows) {
  for (const Taken& row : rows) {
    CAPTURE(row.text);
    const auto parsed = parse_quantity<Q>(row.text);
    CAPTURE(parsed.fault.text());
    REQUIRE(parsed);
    CHECK_THAT(si_of(*parsed), WithinRel(row.si, 1e-14));
  }
}

struct Refused {
  const char* text;
  const char* said;  ///< all that the person reads
};

template <class Q>
void check_refused(const std::vector<Refused>& rows) {
  for (const Refused& row : rows) {
    CAPTURE(row.text);
    const auto parsed = parse_quantity<Q>(row.text);
    REQUIRE_FALSE(parsed);
    CHECK(parsed.fault.text() == row.said);
  }
}

}  // namespace

TEST_CASE("temperatures as people type them", "[typed]") {
  check_taken<Temperature>({
      {"70 F", 294.26111111111109},  // tempF(70)
      {"70F", 294.26111111111109},
      {"70f", 294.26111111111109},
      {"70°F", 294.26111111111109},
      {"70 degF", 294.26111111111109},
      {"70 deg F", 294.26111111111109},
      {"70 deg. F", 294.26111111111109},
      {"70 degrees F", 294.26111111111109},
      {"70 degrees fahrenheit", 294.26111111111109},
      {"70 Fahrenheit", 294.26111111111109},
      {"70 ℉", 294.26111111111109},
      {"21C", 294.15},
      {"21 c", 294.15},
      {"21 degrees C", 294.15},
      {"21 Degrees C", 294.15},
      {"21 Celsius", 294.15},
      {"21 centigrade", 294.15},
      {"21 ℃", 294.15},
      {"21 ºC", 294.15},
      {"21 ° C", 294.15},
      {"-2,5 °C", 270.65},
      {"294.15 kelvin", 294.15},
  });
  check_refused<Temperature>({
      {"70G", "Can't read \"70G\" as a temperature. Write 70 °C, 70 °F or 70 K."},
      {"70",
       "Can't read \"70\" as a temperature. Write 70 °C, 70 °F or 70 K. The unit is missing."},
      {"70°",
       "Can't read \"70°\" as a temperature. Write 70 °C or 70 °F. A temperature needs its scale."},
      {"70 degrees",
       "Can't read \"70 degrees\" as a temperature. Write 70 °C or 70 °F. A temperature needs its "
       "scale."},
      {"-1/2 °C",
       "Can't read \"-1/2 °C\" as a temperature. Write -0.5 °C. Fractions have no sign."},
  });
}

TEST_CASE("volumes as people type them", "[typed]") {
  check_taken<Volume>({
      {"2 pt", 2 * pint},
      {"1 pint", pint},
      {"2 Pints", 2 * pint},
      {"1 QT", quart},
      {"3 quarts", 3 * quart},
      {"1 gallon", gallon},
      {"5 Gal", 5 * gallon},
      {"5 gal.", 5 * gallon},
      {"2 CUPS", 2 * cup},
      {"2 tbsp", 2 * tablespoon},
      {"2 Tbsp.", 2 * tablespoon},
      {"1 tablespoon", tablespoon},
      {"3 tsp", 3 * teaspoon},
      {"3 teaspoons", 3 * teaspoon},
      {"12 floz", 12 * fluid_ounce},
      {"12 fl. oz.", 12 * fluid_ounce},
      {"12 Fluid Ounces", 12 * fluid_ounce},
      {"5 cl", 5e-5},
      {"5 cL", 5e-5},
      {"2 dl", 2e-4},
      {"30 cc", 3e-5},
      {"2 liters", 2e-3},
      {"1 Litre", 1e-3},
      {"250 millilitres", 2.5e-4},
      {"250 ml", 2.5e-4},
      {"1/2 cup", cup / 2},
      {"½ L", 5e-4},
      {"½L", 5e-4},
      {"1 1/4 cups", 1.25 * cup},
      {"2-1/2 cups", 2.5 * cup},
      {"1½ qt", 1.5 * quart},
      {"1 ½ qt", 1.5 * quart},
      {"2/3 cup", 2 * cup / 3},
      {"⅔ cup", 2 * cup / 3},
      {"3/16 L", 1.875e-4},
      {"2 qt 1 cup", 2 * quart + cup},
      {"1 gal 2 cups", gallon + 2 * cup},
      {"1 gal 1 1/2 cups", gallon + 1.5 * cup},
      {"1 cup 2 tbsp 1/2 tsp", cup + 2 * tablespoon + teaspoon / 2},
      {"1 L 500 mL", 1.5e-3},
      {"1,5 L", 1.5e-3},
      {"1,25 L", 1.25e-3},
      {"0,500 L", 5e-4},
      {"0,5 L", 5e-4},
      {"1,2345 L", 1.2345e-3},
      {"1.500 L", 1.5e-3},
  });
  check_refused<Volume>({
      {"8 oz", "Can't read \"8 oz\" as a volume. Write 8 fl oz. \"oz\" is a weight."},
      {"2 ML", "Can't read \"2 ML\" as a volume. Write 2 mL. \"ML\" would be a million litres."},
      {"2 T",
       "Can't read \"2 T\" as a volume. Write 2 tbsp or 2 tsp. \"T\" and \"t\" are easily mixed "
       "up."},
      {"2 c", "Can't read \"2 c\" as a volume. Write 2 cups. \"c\" could be cups or centilitres."},
      {"2 C", "Can't read \"2 C\" as a volume. Write 2 cups. \"c\" could be cups or centilitres."},
      {"1,500 mL",
       "Can't read \"1,500 mL\" as a volume. Write 1500 mL or 1.5 mL. A comma before three digits "
       "could mean either."},
      {"1.500,5 mL",
       "Can't read \"1.500,5 mL\" as a volume. Write 1500.5 mL. A number has one decimal mark and "
       "no others."},
      {"1,234.5 mL",
       "Can't read \"1,234.5 mL\" as a volume. Write 1234.5 mL. A number has one decimal mark and "
       "no others."},
      {"1,500,000 mL",
       "Can't read \"1,500,000 mL\" as a volume. Write 1500000 mL. A number has no marks between "
       "its thousands."},
      {"1'500 mL",
       "Can't read \"1'500 mL\" as a volume. Write 1500 mL. A number has no marks between its "
       "thousands."},
      {"1 500 mL",
       "Can't read \"1 500 mL\" as a volume. Write 1500 mL. Write one number without blanks, then "
       "its unit."},
      {"1-2 cups",
       "Can't read \"1-2 cups\" as a volume. Write a volume with its unit: mL, L, cup, fl oz, qt, "
       "gal, cm3 or m3. Write a single amount."},
      {"1/7 cup",
       "Can't read \"1/7 cup\" as a volume. Write 0.143 cup. Fractions are read up to sixteenths, "
       "such as 1/2, 1 1/2 and 3/16."},
      {"1 L 2 cups",
       "Can't read \"1 L 2 cups\" as a volume. Write a volume with its unit: mL, L, cup, fl oz, "
       "qt, "
       "gal, cm3 or m3. Metric and US units don't go together in one amount."},
      {"1 cup 2 qt",
       "Can't read \"1 cup 2 qt\" as a volume. Write a volume with its unit: mL, L, cup, fl oz, "
       "qt, "
       "gal, cm3 or m3. Go from the largest unit down to the smallest, each once."},
      {"1/2 gal 1 cup",
       "Can't read \"1/2 gal 1 cup\" as a volume. Write a volume with its unit: mL, L, cup, fl oz, "
       "qt, gal, cm3 or m3. Only the last part may have a fraction."},
      {"3 lb",
       "Can't read \"3 lb\" as a volume. Write a volume with its unit: mL, L, cup, fl oz, "
       "qt, gal, cm3 or m3. \"lb\" is a unit of mass."},
  });
}

TEST_CASE("masses as people type them", "[typed]") {
  check_taken<Mass>({
      {"260 grams", 0.26},
      {"1 gramme", 1e-3},
      {"2 kilos", 2},
      {"2 Kilograms", 2},
      {"2 KG", 2},
      {"2 Kg", 2},
      {"5 ounces", 5 * ounce},
      {"5 oz.", 5 * ounce},
      {"1 pound", pound},
      {"2 lbs", 2 * pound},
      {"2 lb.", 2 * pound},
      {"2 LBS", 2 * pound},
      {"1/2 lb", pound / 2},
      {"1 lb 4 oz", pound + 4 * ounce},
      {"1lb4oz", pound + 4 * ounce},
      {"1 pound 4 1/2 ounces", pound + 4.5 * ounce},
      {"1 kg 200 g", 1.2},
      {"1,25 kg", 1.25},
  });
  check_refused<Mass>({
      {"260 gr", "Can't read \"260 gr\" as a mass. Write 260 g. \"gr\" could be grams or grains."},
      {"260",
       "Can't read \"260\" as a mass. Write a mass with its unit: g, kg, mg, oz or lb. The "
       "unit is missing."},
      {"1,234 g",
       "Can't read \"1,234 g\" as a mass. Write 1234 g or 1.234 g. A comma before three "
       "digits could mean either."},
      {"2 L",
       "Can't read \"2 L\" as a mass. Write a mass with its unit: g, kg, mg, oz or lb. \"L\" "
       "is a unit of volume."},
      {"2 M",
       "Can't read \"2 M\" as a mass. Write a mass with its unit: g, kg, mg, oz or lb. \"m\" could "
       "be several units."},
      {"1 lb 4 g",
       "Can't read \"1 lb 4 g\" as a mass. Write a mass with its unit: g, kg, mg, oz or "
       "lb. Metric and US units don't go together in one amount."},
  });
}

TEST_CASE("lengths, times, powers and shares as people type them", "[typed]") {
  check_taken<Length>({
      {"5 feet", 5 * foot},
      {"1 foot", foot},
      {"6 inches", 6 * inch},
      {"1 inch", inch},
      {"5 ft 6 in", 5 * foot + 6 * inch},
      {"5 ft 6 1/2 in", 5 * foot + 6.5 * inch},
      {"1 m 20 cm", 1.2},
      {"540 metres", 540},
      {"12 Millimeters", 0.012},
  });
  check_refused<Length>({
      {"6\"", "Can't read \"6\\\"\" as a length. Write 6 in. The mark could be inches or seconds."},
      {"5'", "Can't read \"5'\" as a length. Write 5 ft. The mark could be feet or minutes."},
      {"1 km", "Can't read \"1 km\" as a length. Write it in m. 1 km is 1000 m."},
  });
  check_taken<Duration>({
      {"2 hours", 7200},
      {"1 hr", 3600},
      {"1 hr 20 mins", 4800},
      {"45 Minutes", 2700},
      {"90 secs", 90},
      {"1 hour 30 minutes", 5400},
      {"1/2 hour", 1800},
      {"1 1/2 h", 5400},
      {"1½ h", 5400},
      {"1,5 h", 5400},
  });
  check_refused<Duration>({
      {"20 m", "Can't read \"20 m\" as a time. Write 20 min. \"m\" is metres."},
      {"1 h 20 m", "Can't read \"1 h 20 m\" as a time. Write 1 h 20 min. \"m\" is metres."},
      {"1:20",
       "Can't read \"1:20\" as a time. Write 1 h 20 min or 1 min 20 s. It could mean either."},
      {"20", "Can't read \"20\" as a time. Write 20 s, 20 min or 20 h. The unit is missing."},
  });
  check_taken<Power>(
      {{"800 watts", 800}, {"1,5 kilowatts", 1500}, {"2 KW", 2000}, {"1 1/2 kW", 1500}});
  check_taken<Fraction>({{"50 percent", 0.5},
                         {"50 per cent", 0.5},
                         {"50 pct", 0.5},
                         {"0,7 %", 0.007},
                         {"½ %", 0.005}});
  check_refused<Fraction>({
      {"0.5", "Can't read \"0.5\" as a share. Write 50 % or 0.5 %. The unit is missing."},
      {"0,5", "Can't read \"0,5\" as a share. Write 50 % or 0.5 %. The unit is missing."},
      {"1/2", "Can't read \"1/2\" as a share. Write 50 % or 0.5 %. The unit is missing."},
      {"50", "Can't read \"50\" as a share. Write 50 %. The unit is missing."},
  });
}

TEST_CASE("water by weight", "[typed]") {
  // IAPWS-IF97 gives 998.206 kg/m3 at 20 °C; tests/reference/water_subcooled.csv.
  for (const Taken& row :
       {Taken{"2950 g", 2.95 / 998.206}, Taken{"2950 g of water", 2.95 / 998.206},
        Taken{"2.95 kg", 2.95 / 998.206}, Taken{"6 1/2 lbs", 6.5 * pound / 998.206}}) {
    CAPTURE(row.text);
    const auto parsed = parse_water(row.text);
    REQUIRE(parsed);
    CHECK_THAT((*parsed).si(), WithinRel(row.si, 1e-5));
    CHECK(is_weighed(row.text));
  }
  for (const char* volume : {"1.7 L", "1.7 L of water", "2 qt 1 cup", "12 fl oz"}) {
    CAPTURE(volume);
    CHECK(parse_water(volume));
    CHECK_FALSE(is_weighed(volume));
  }
  CHECK(*parse_water("1.7 L") == litres(1.7));
  CHECK(
      parse_water("8 oz").fault.text() ==
      "Can't read \"8 oz\" as an amount of water. Write 8 fl oz, or the weight in lb or g. \"oz\" "
      "could be a weight or a volume here.");
  CHECK_FALSE(parse_water("2 L water"));
  CHECK_FALSE(parse_water("2 Lof water"));
  CHECK_FALSE(parse_quantity<Volume>("2 L of water"));
  CHECK_FALSE(parse_quantity<Mass>("2 kg of water"));
}
