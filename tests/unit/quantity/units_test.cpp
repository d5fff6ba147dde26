#include "firstdrop/quantity/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "catch.hpp"

using namespace firstdrop;

namespace {

struct Row {
  const char* symbol;     ///< the symbol as firstdrop writes it
  double si;              ///< SI value of one unit
  const char* reference;  ///< the expression that gave this value in GNU units 2.22
  const char* also = "";  ///< its other spellings, with | between them
};

std::vector<std::string> spellings(const Row& row) {
  std::vector<std::string> all{row.symbol};
  std::string_view rest = row.also;
  while (!rest.empty()) {
    const std::size_t bar = std::min(rest.find('|'), rest.size());
    all.emplace_back(rest.substr(0, bar));
    rest.remove_prefix(std::min(bar + 1, rest.size()));
  }
  return all;
}

/// Checks that every spelling of the family is in a row, and every one in a row both as text and as
/// a number with a unit.
template <class Q>
void check_units(const std::vector<Row>& rows) {
  std::set<std::string> checked;
  for (const Row& row : rows) {
    for (const std::string& spelling : spellings(row)) {
      CAPTURE(spelling, row.reference);
      checked.insert(spelling);
      const auto one = parse_quantity<Q>("1 " + spelling);
      REQUIRE(one);
      CHECK_THAT((*one).si(), WithinRel(row.si, 1e-14));
      const auto some = from_unit<Q>(7.25, spelling);
      REQUIRE(some);
      CHECK_THAT((*some).si(), WithinRel(7.25 * row.si, 1e-14));
    }
  }
  const auto symbols = unit_symbols<Q>();
  CHECK(checked == std::set<std::string>(symbols.begin(), symbols.end()));
  CHECK(checked.size() == symbols.size());
}

/// The quantity; fails the test if there is none.
template <class Q>
Q taken(std::string_view text) {
  const auto parsed = parse_quantity<Q>(text);
  CAPTURE(std::string(text), parsed.fault.text());
  REQUIRE(parsed);
  return *parsed;
}
template <class Q>
Q taken_from_unit(double number, std::string_view unit) {
  const auto parsed = from_unit<Q>(number, unit);
  CAPTURE(number, std::string(unit), parsed.fault.text());
  REQUIRE(parsed);
  return *parsed;
}

template <class Q>
Fault fault_of(std::string_view text) {
  const auto parsed = parse_quantity<Q>(text);
  CAPTURE(std::string(text));
  REQUIRE_FALSE(parsed);
  CHECK_FALSE(parsed.fault.found.empty());
  CHECK_FALSE(parsed.fault.wanted.empty());
  return parsed.fault;
}

template <class Q>
bool accepts(std::string_view text) {
  return static_cast<bool>(parse_quantity<Q>(text));
}

}  // namespace

// The number in each row is the answer of GNU units 2.22 (units -t -o%.17g EXPRESSION SI-UNIT) to
// the expression beside it. GNU units calculates in steps and so loses the last one or two digits.
TEST_CASE("units against GNU units", "[units]") {
  check_units<Mass>({
      {"g", 0.001, "g", "gram|grams|gramme|grammes"},
      {"kg", 1, "kg", "kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes"},
      {"mg", 9.9999999999999995e-07, "mg", "milligram|milligrams|milligramme|milligrammes"},
      {"oz", 0.028349523125000001, "oz", "oz.|ounce|ounces"},
      {"lb", 0.45359237000000002, "lb", "lbs|lb.|lbs.|pound|pounds"},
  });
  check_units<Volume>({
      {"mL", 1.0000000000000002e-06, "mL", "ml|milliliter|milliliters|millilitre|millilitres"},
      {"L", 0.0010000000000000002, "L", "l|liter|liters|litre|litres"},
      {"cup", 0.00023658823650000004, "uscup", "cups"},
      {"fl oz", 2.9573529562500005e-05, "usfloz",
       "floz|fl. oz|fl. oz.|fluid oz|fluid oz.|fluid ounce|fluid ounces"},
      {"qt", 0.00094635294600000015, "usquart", "qts|qt.|qts.|quart|quarts"},
      {"pt", 0.00047317647300000007, "uspint", "pts|pt.|pts.|pint|pints"},
      {"tbsp", 1.4786764781250002e-05, "ustablespoon", "tbsps|tbsp.|tbsps.|tablespoon|tablespoons"},
      {"tsp", 4.9289215937500005e-06, "usteaspoon", "tsps|tsp.|tsps.|teaspoon|teaspoons"},
      {"cL", 1.0000000000000003e-05, "centiliter",
       "cl|centiliter|centiliters|centilitre|centilitres"},
      {"dL", 0.00010000000000000002, "deciliter", "dl|deciliter|deciliters|decilitre|decilitres"},
      {"gal", 0.0037854117840000006, "usgallon", "gals|gal.|gals.|gallon|gallons"},
      {"cm3", 1.0000000000000002e-06, "cm3", "cm³|cc"},
      {"m3", 1, "m3", "m³"},
  });
  check_units<TemperatureDifference>({{"K", 1, "K", "kelvin|kelvins"}});
  check_units<Power>({{"W", 1, "W", "watt|watts"}, {"kW", 1000, "kW", "kilowatt|kilowatts"}});
  check_units<Energy>({{"J", 1, "J", "joule|joules"},
                       {"kJ", 1000, "kJ", "kilojoule|kilojoules"},
                       {"kWh", 3600000, "kWh", "kilowatt hour|kilowatt hours"}});
  check_units<Duration>({{"s", 1, "s", "sec|secs|sec.|secs.|second|seconds"},
                         {"min", 60, "min", "mins|min.|mins.|minute|minutes"},
                         {"h", 3600, "hour", "hr|hrs|hr.|hrs.|hour|hours"}});
  check_units<Length>({
      {"mm", 0.001, "mm", "millimeter|millimeters|millimetre|millimetres"},
      {"cm", 0.01, "cm", "centimeter|centimeters|centimetre|centimetres"},
      {"m", 1, "m", "meter|meters|metre|metres"},
      {"in", 0.025400000000000002, "in", "in.|inch|inches"},
      {"ft", 0.30480000000000002, "ft", "ft.|foot|feet"},
  });
  check_units<Area>({
      {"cm2", 0.0001, "cm2", "cm²|sq cm"},
      {"m2", 1, "m2", "m²|sq m"},
      {"in2", 0.00064516000000000009, "in^2", "in²|sq in|square inch|square inches"},
      {"ft2", 0.092903040000000006, "ft^2", "ft²|sq ft|square foot|square feet"},
  });
  // Conventional mercury: 13.5951 g/cm3 under standard gravity. The same program gives 3376.998 Pa
  // for an inch of mercury at 60 degF (inch Hg60F), which is not what "inHg" means here.
  check_units<Pressure>({
      {"Pa", 1, "Pa"},
      {"hPa", 100, "hPa"},
      {"kPa", 1000, "kPa"},
      {"mbar", 100, "mbar"},
      {"mmHg", 133.32238741499998, "mmHg", "mm Hg"},
      {"inHg", 3386.3886403409997, "inHg", "in Hg"},
  });
  check_units<Density>({
      {"g/L", 0.99999999999999978, "g/L", "g/l"},
      {"kg/L", 999.99999999999989, "kg/L", "kg/l"},
      {"g/mL", 999.99999999999989, "g/mL", "g/ml"},
      {"kg/m3", 1, "kg/m3", "kg/m³"},
      {"mg/L", 0.0009999999999999998, "mg/L", "mg/l"},
      {"oz/cup", 119.82642731689661, "oz/uscup"},
      {"oz/qt", 29.956606829224153, "oz/usquart"},
      {"lb/gal", 119.82642731689661, "lb/usgallon"},
  });
  check_units<VolumeFlow>({
      {"mL/min", 1.666666666666667e-08, "mL/min", "ml/min"},
      {"L/h", 2.7777777777777787e-07, "L/hour", "l/h"},
      {"L/min", 1.6666666666666671e-05, "L/min", "l/min"},
      {"fl oz/min", 4.9289215937500003e-07, "usfloz/min"},
      {"gal/min", 6.3090196400000003e-05, "usgallon/min"},
  });
  check_units<Fraction>({{"%", 0.01, "%", "percent|per cent|pct"},
                         {"kg/kg", 1, "kg/kg"},
                         {"g/g", 1, "g/g"},
                         {"g/100 g", 0.01, "g/100 g"}});
  check_units<Rate>({
      {"1/min", 0.016666666666666666, "1/min"},
      {"1/s", 1, "1/s"},
      {"1/h", 0.00027777777777777778, "1/hour"},
  });
  check_units<SpecificVolume>({
      {"L/kg", 0.0010000000000000002, "L/kg", "l/kg"},
      {"mL/kg", 1.0000000000000002e-06, "mL/kg", "ml/kg"},
      {"mL/g", 0.0010000000000000002, "mL/g", "ml/g"},
      {"mL/100 g", 1.0000000000000003e-05, "mL/100 g", "ml/100 g"},
  });
  check_units<SpecificHeat>({{"kJ/(kg K)", 1000, "kJ/(kg K)"}, {"J/(g K)", 1000, "J/(g K)"}});
  check_units<HeatTransfer>({{"W/(m2 K)", 1, "W/(m2 K)", "W/(m² K)"}});
  check_units<MolarMass>({{"g/mol", 0.001, "g/mol"}});
  check_units<Current>({{"A", 1, "A", "amp|amps|ampere|amperes"}});
  check_units<Voltage>({{"V", 1, "V", "volt|volts"}});
}

TEST_CASE("temperatures against GNU units", "[units]") {
  struct SamplePoint {
    const char* text;
    double kelvin;
    const char* reference;
  };
  for (const SamplePoint& point : {
           SamplePoint{"18 °C", 291.14999999999998, "tempC(18)"},
           SamplePoint{"18 degC", 291.14999999999998, "tempC(18)"},
           SamplePoint{"-5 °C", 268.14999999999998, "tempC(-5)"},
           SamplePoint{"65 °F", 291.48333333333329, "tempF(65)"},
           SamplePoint{"65 degF", 291.48333333333329, "tempF(65)"},
           SamplePoint{"212 °F", 373.14999999999998, "tempF(212)"},
           SamplePoint{"-40 °F", 233.14999999999998, "tempF(-40)"},
           SamplePoint{"300 K", 300, "300 K"},
       }) {
    CAPTURE(point.text, point.reference);
    const auto parsed = parse_quantity<Temperature>(point.text);
    REQUIRE(parsed);
    CHECK_THAT((*parsed).kelvin(), WithinRel(point.kelvin, 1e-14));
  }
  const auto symbols = unit_symbols<Temperature>();
  CHECK(std::set<std::string>(symbols.begin(), symbols.end()) ==
        std::set<std::string>{"°C",
                              "degC",
                              "C",
                              "c",
                              "° C",
                              "ºC",
                              "℃",
                              "deg C",
                              "deg. C",
                              "degree C",
                              "degrees C",
                              "celsius",
                              "centigrade",
                              "degree celsius",
                              "degrees celsius",
                              "degree centigrade",
                              "degrees centigrade",
                              "°F",
                              "degF",
                              "F",
                              "f",
                              "° F",
                              "ºF",
                              "℉",
                              "deg F",
                              "deg. F",
                              "degree F",
                              "degrees F",
                              "fahrenheit",
                              "degree fahrenheit",
                              "degrees fahrenheit",
                              "K",
                              "kelvin",
                              "kelvins"});
  CHECK(taken_from_unit<Temperature>(18, "°C") == celsius(18));
}

// Nine printed values of NIST Special Publication 811 (2008), appendix B.8, as transcribed by
// others. A difference of half a unit in the last digit is allowed.
TEST_CASE("units outside the SI against NIST SP 811", "[units]") {
  CHECK_THAT(taken_from_unit<Mass>(1, "lb").si(), WithinAbs(4.535924e-1, 0.5e-7));
  CHECK_THAT(taken_from_unit<Mass>(1, "oz").si(), WithinAbs(2.834952e-2, 0.5e-8));
  CHECK_THAT(taken_from_unit<Volume>(1, "cup").si(), WithinAbs(2.365882e-4, 0.5e-10));
  CHECK_THAT(taken_from_unit<Volume>(1, "fl oz").si(), WithinAbs(2.957353e-5, 0.5e-11));
  CHECK_THAT(taken_from_unit<Volume>(1, "pint").si(), WithinAbs(4.731765e-4, 0.5e-10));
  CHECK_THAT(taken_from_unit<Volume>(1, "tbsp").si(), WithinAbs(1.478676e-5, 0.5e-11));
  CHECK_THAT(taken_from_unit<Volume>(1, "tsp").si(), WithinAbs(4.928922e-6, 0.5e-12));
  CHECK_THAT(taken_from_unit<Pressure>(1, "inHg").si(), WithinAbs(3.386389e3, 0.5e-3));
  CHECK_THAT(taken_from_unit<Pressure>(1, "mmHg").si(), WithinAbs(1.333224e2, 0.5e-4));
}

TEST_CASE("text gives the same double as the named maker", "[units]") {
  CHECK(taken<Mass>("260 g") == grams(260));
  CHECK(taken<Volume>("1.7 L") == litres(1.7));
  CHECK(taken<Volume>("800 mL") == millilitres(800));
  CHECK(taken<Power>("1 kW") == kilowatts(1));
  CHECK(taken<Duration>("45 min") == minutes(45));
  CHECK(taken<Temperature>("18 °C") == celsius(18));
  CHECK(taken<Length>("540 m") == metres(540));
  CHECK(taken<Fraction>("20 %") == percent(20));
  CHECK(taken<Fraction>("0.7 %") == percent(0.7));
  CHECK(taken<Density>("160 g/L") == grams_per_litre(160));
  CHECK(taken<Density>("300 mg/L") == milligrams_per_litre(300));
  CHECK(taken<VolumeFlow>("14 mL/min") == millilitres_per_minute(14));
  CHECK(taken<Pressure>("95.1 kPa") == kilopascals(95.1));
  CHECK(taken<Rate>("0.05 1/min") == per_minute(0.05));
}

TEST_CASE("kitchen measures", "[units]") {
  // A gallon is 231 cubic inches, 16 cups or 128 fluid ounces.
  CHECK_THAT(in_millilitres(taken<Volume>("2 cups")), WithinRel(473.176473, 1e-14));
  CHECK_THAT(in_millilitres(taken<Volume>("1 cup")), WithinRel(236.5882365, 1e-14));
  CHECK_THAT(in_millilitres(taken<Volume>("12 fl oz")), WithinRel(354.88235475, 1e-14));
  CHECK_THAT(in_litres(taken<Volume>("5 gal")), WithinRel(18.92705892, 1e-14));
}

TEST_CASE("the forms of a number", "[units]") {
  CHECK(taken<Mass>("260g") == grams(260));
  CHECK(taken<Mass>("+260 g") == grams(260));
  CHECK(taken<Mass>("-260 g") == grams(-260));
  CHECK(taken<Mass>("2.6e2 g") == grams(260));
  CHECK(taken<Mass>("2.6E+2g") == grams(260));
  CHECK(taken<Mass>("2600e-1 g") == grams(260));
  CHECK(taken<Mass>("0260 g") == grams(260));
  CHECK(taken<Mass>(".5 g") == grams(0.5));
  CHECK(taken<Mass>("0 g") == grams(0));
  CHECK(taken<Fraction>("20%") == percent(20));
  CHECK(taken<Temperature>("-5°C") == celsius(-5));
  CHECK(taken<Fraction>("2 g/100 g") == percent(2));

  for (const char* text :
       {"- 260 g", "--260 g", "+-260 g",   "1.7.2 g", "1..7 g",    "0x10 g",  "1e g",
        "e5 g",    ". g",     "1/1 g",     "2/1 g",   "0/2 g",     "1/0 g",   "1/7 g",
        "01/2 g",  "1/2.5 g", "1 1/2/3 g", "0 1/2 g", "1.5 1/2 g", "1-2 g",   "1--1/2 g",
        "½½ g",    "½ 1/2 g", "1/ 2 g",    "1,5,5 g", ",5 g",      "1, g",    "1,5e3 g",
        "260 g!",  "260 g g", "260 260 g", "(260 g)", "~260 g",    "2'600 g", "１ g"}) {
    CAPTURE(text);
    CHECK_FALSE(accepts<Mass>(text));
  }
}

TEST_CASE("blanks", "[units]") {
  CHECK(taken<Mass>("260   g") == grams(260));
  CHECK(taken<Mass>("260\u00a0g") == grams(260));
  CHECK(taken<Mass>("260\u2009g") == grams(260));
  CHECK(taken<Mass>("260\u202fg") == grams(260));
  CHECK(taken<Mass>(" 260 g ") == grams(260));
  CHECK(taken<Mass>("\u00a0260 g\u2009") == grams(260));
  CHECK(taken<Volume>("12 fl\u00a0 oz") == taken<Volume>("12 fl oz"));
  CHECK(taken<SpecificVolume>("1 mL/100\u00a0g") == litres_per_kilogram(0.01));

  CHECK_FALSE(accepts<Mass>("260\tg"));
  CHECK_FALSE(accepts<Mass>("260 g\n"));
  CHECK_FALSE(accepts<Mass>("260\u2003g"));  // em space
  CHECK_FALSE(accepts<Mass>("260 k g"));
  CHECK_FALSE(accepts<Volume>("12 f loz"));
  CHECK_FALSE(accepts<Mass>(std::string_view("260 g\0", 6)));
  CHECK_FALSE(accepts<Mass>("260\xc2g"));  // the first byte of a no-break space
}

TEST_CASE("times of several parts", "[units]") {
  CHECK(taken<Duration>("1 h 20 min") == minutes(80));
  CHECK(taken<Duration>("1 h 20 min 5 s") == seconds(4805));
  CHECK(taken<Duration>("1 h 5 s") == seconds(3605));
  CHECK(taken<Duration>("20 min 5 s") == seconds(1205));
  CHECK(taken<Duration>("1h20min") == minutes(80));
  CHECK(taken<Duration>("1 h\u00a020 min") == minutes(80));
  CHECK(taken<Duration>("1 h 20.5 min") == seconds(4830));
  CHECK(taken<Duration>("1 h 0 min") == hours(1));
  CHECK(taken<Duration>("1.5 h") == minutes(90));
  CHECK(taken<Duration>("-5 min") == minutes(-5));

  CHECK_THAT(fault_of<Duration>("20 min 1 h").hint,
             ContainsSubstring("from the largest unit down"));
  CHECK_THAT(fault_of<Duration>("1 h 1 h").hint, ContainsSubstring("each once"));
  CHECK_THAT(fault_of<Duration>("1.5 h 20 min").hint, ContainsSubstring("only the last part"));
  CHECK_THAT(fault_of<Duration>("-1 h 20 min").hint, ContainsSubstring("no sign"));
  CHECK_THAT(fault_of<Duration>("1 h -20 min").hint, ContainsSubstring("no sign"));
  CHECK(fault_of<Duration>("1 h 20 mni").hint == R"(did you mean "1 h 20 min"?)");
  CHECK(fault_of<Duration>("1 h 20 m").wanted == "1 h 20 min");
  CHECK(fault_of<Duration>("1:20").wanted == "1 h 20 min or 1 min 20 s");
  CHECK_FALSE(accepts<Duration>("1 h 20"));
  CHECK_FALSE(accepts<Duration>("1 h min"));
  CHECK_FALSE(accepts<Duration>("1 h, 20 min"));
  CHECK_FALSE(accepts<Duration>("1 h and 20 min"));
  CHECK(fault_of<Mass>("1 h 20 min").hint == "\"h\" is a unit of time");
  CHECK(fault_of<Mass>("5 g 3 mg").hint == "write one number and one unit");
}

TEST_CASE("what was found stands in quotes, what is wanted lists the units", "[units]") {
  const Fault fault = fault_of<Mass>("260 grm");
  CHECK(fault.found == "Can't read \"260 grm\" as a mass");
  CHECK(fault.wanted == "a mass with its unit: g, kg, mg, oz or lb");
  CHECK(fault.hint == R"(did you mean "260 g"?)");
  CHECK(fault.file.empty());
  CHECK(fault.pointer.empty());
  CHECK(fault_of<Volume>("2").wanted ==
        "a volume with its unit: mL, L, cup, fl oz, qt, gal, cm3 or m3");
  // A few units are offered with the number.
  CHECK(fault_of<Temperature>("20").wanted == "20 °C, 20 °F or 20 K");
  CHECK(fault_of<Temperature>("warm").wanted == "a temperature with its unit: °C, °F or K");
  CHECK_THAT(fault_of<Duration>("long").wanted,
             ContainsSubstring("s, min or h, or several, as in 1 h 20 min"));
}

TEST_CASE("a number without unit, a unit without number", "[units]") {
  CHECK(fault_of<Mass>("260").hint == "the unit is missing");
  CHECK(fault_of<Mass>("260 ").hint == "the unit is missing");
  CHECK(fault_of<Fraction>("0.2").hint == "the unit is missing");
  CHECK(fault_of<Duration>("45").hint == "the unit is missing");
  CHECK(fault_of<Mass>("g").hint == "the number is missing");
  CHECK(fault_of<Mass>("some").hint == "the number comes first");
  CHECK(fault_of<Mass>("").found == "Can't read \"\" as a mass");
  CHECK(fault_of<Mass>("   ").found == "Can't read \"   \" as a mass");
}

TEST_CASE("a decimal comma is not guessed at", "[units]") {
  CHECK(taken<Volume>("1,5 L") == litres(1.5));
  CHECK(taken<Volume>("0,125 L") == litres(0.125));
  CHECK(taken<Temperature>("-1,5 °C") == celsius(-1.5));
  CHECK(taken<Duration>("1 h 20,5 min") == seconds(4830));
  // Three digits after the comma: it may be either kind.
  CHECK(fault_of<Mass>("1,500 g").wanted == "1500 g or 1.5 g");
  CHECK(fault_of<Mass>("10,020 g").wanted == "10020 g or 10.02 g");
  CHECK(fault_of<Mass>("1,000 g").wanted == "1000 g or 1 g");
  CHECK(fault_of<Mass>("1,500,000 g").wanted == "1500000 g");
  CHECK_THAT(fault_of<Mass>("1 500 g").hint, ContainsSubstring("without blanks"));
}

TEST_CASE("numbers that are not finite", "[units]") {
  for (const char* text : {"nan", "nan g", "NaN g", "inf g", "-inf g", "Infinity g", "nan(1) g"}) {
    CAPTURE(text);
    CHECK(fault_of<Mass>(text).hint == "the number must be finite");
  }
  CHECK(fault_of<Mass>("1e400 g").hint == "the number is too large or too small");
  CHECK(fault_of<Mass>("-1e400 g").hint == "the number is too large or too small");
  CHECK(fault_of<Mass>("1e-400 g").hint == "the number is too large or too small");
  // Finite as written, but infinite in watts.
  CHECK(fault_of<Power>("1e308 kW").hint == "the number is too large");
  CHECK(accepts<Power>("1e308 W"));
  CHECK_FALSE(accepts<Duration>("1e308 h 20 min"));
}

TEST_CASE("a unit of another kind is called by its kind", "[units]") {
  CHECK(fault_of<Mass>("2 L").hint == "\"L\" is a unit of volume");
  CHECK(fault_of<Volume>("260 g").hint == "\"g\" is a unit of mass");
  CHECK(fault_of<Volume>("3 oz").hint == "\"oz\" is a weight");
  CHECK(fault_of<Power>("1 kWh").hint == "\"kWh\" is a unit of energy");
  CHECK(fault_of<Mass>("2 litres").hint == "\"litres\" is a unit of volume");
  CHECK_THAT(fault_of<TemperatureDifference>("5 °C").hint, ContainsSubstring("difference is in K"));
}

TEST_CASE("the nearest unit", "[units]") {
  CHECK(fault_of<Mass>("260 G").wanted == "260 g");
  CHECK(fault_of<Mass>("260 grms").hint == R"(did you mean "260 g"?)");
  CHECK(fault_of<Volume>("2 galons").hint == R"(did you mean "2 gal"?)");
  CHECK(fault_of<Volume>("2 ML").wanted == "2 mL");
  CHECK(fault_of<Temperature>("20 Celc"
                              "ius")
            .hint == R"(did you mean "20 °C"?)");
  CHECK(fault_of<Temperature>("65 Farenh"
                              "eit")
            .hint == R"(did you mean "65 °F"?)");
  CHECK(fault_of<Length>("1 km").wanted == "it in m");
  CHECK(fault_of<Pressure>("1 bar").wanted == "it in kPa or mbar");
  CHECK(fault_of<Rate>("0.05/min").wanted == "0.05 1/min");
  CHECK(fault_of<Density>("160 g/litre").hint.empty());
  CHECK(fault_of<Mass>("260 stone").hint.empty());
}

TEST_CASE("hints for slips of the pen", "[units]") {
  CHECK_THAT(fault_of<Volume>("5/2 cup").hint, ContainsSubstring("up to sixteenths"));
  CHECK(fault_of<Volume>("5/2 cup").wanted == "2.5 cup");
  CHECK_THAT(fault_of<Temperature>("\u22125 °C").hint, ContainsSubstring("plain hyphen"));
  CHECK_THAT(fault_of<Mass>("1.7.2 g").hint, ContainsSubstring("one decimal point"));
}

TEST_CASE("hostile text is shown, cut and never trusted", "[units]") {
  CHECK(fault_of<Mass>("260 \x1b[31mg").found == "Can't read \"260 \\u001b[31mg\" as a mass");
  CHECK(fault_of<Mass>("260 \xff").found == "Can't read \"260 \\xff\" as a mass");
  CHECK(fault_of<Mass>("26\n0 g").found == "Can't read \"26\\n0 g\" as a mass");
  CHECK(fault_of<Mass>("260\u2003g").found == "Can't read \"260\\u2003g\" as a mass");
  CHECK(fault_of<Mass>(std::string_view("260 g\0", 6)).found ==
        "Can't read \"260 g\\u0000\" as a mass");
  const std::string longest(1'000'000, '7');
  CHECK(fault_of<Mass>(longest).found == "Can't read \"" + std::string(60, '7') + "…\" as a mass");
  CHECK(fault_of<Mass>(std::string(100'000, ' ')).found.size() < 110);
  // A large number of digits is not a fault in itself.
  CHECK(taken<Mass>("260." + std::string(500, '0') + " g") == grams(260));
}

TEST_CASE("numbers of the tables", "[units]") {
  CHECK(taken_from_unit<Density>(160, "g/L") == grams_per_litre(160));
  const auto other = from_unit<Density>(160, "g");
  REQUIRE_FALSE(other);
  CHECK(other.fault.found == "\"160 g\"");
  CHECK_THAT(other.fault.wanted, ContainsSubstring("a density"));
  CHECK(other.fault.hint == "\"g\" is a unit of mass");
  CHECK(from_unit<Density>(160, "").fault.hint == "the unit is missing");
  CHECK(from_unit<Density>(160, "").fault.found == "\"160\"");
  CHECK_FALSE(from_unit<Density>(NAN, "g/L"));
  CHECK(from_unit<Density>(INFINITY, "g/L").fault.hint == "the number must be finite");
  CHECK(from_unit<Power>(1e308, "kW").fault.hint == "the number is too large");
}

// Any text is either accepted or refused with a message. The test tries all sequences of four
// tokens of the grammar, and valid quantities with one byte changed.
TEST_CASE("no text makes the reader fail", "[units]") {
  const std::array<std::string_view, 15> bytes{"1",   "0", ".", ",", "-", "e",    "g",   "h",
                                               "min", "s", " ", "/", "%", "\xc2", "\xa0"};
  std::size_t accepted = 0;
  std::size_t refused = 0;
  const auto offer = [&](const std::string& text) {
    const auto mass = parse_quantity<Mass>(text);
    const auto time = parse_quantity<Duration>(text);
    const auto share = parse_quantity<Fraction>(text);
    const int kinds = (mass ? 1 : 0) + (time ? 1 : 0) + (share ? 1 : 0);
    REQUIRE(kinds <= 1);  // no text can be of two of these kinds
    if (!mass) {
      REQUIRE(mass.fault.found.size() >= 2);
      REQUIRE(mass.fault.text().find('\n') == std::string::npos);
    }
    ++(kinds == 1 ? accepted : refused);
  };
  for (const auto a : bytes) {
    for (const auto b : bytes) {
      for (const auto c : bytes) {
        for (const auto d : bytes) {
          offer(std::string(a) + std::string(b) + std::string(c) + std::string(d));
        }
      }
    }
  }
  for (const std::string text : {"1 h 20 min 5 s", "-2.6e2 g", "20 %", "2 g/100 g"}) {
    for (std::size_t i = 0; i < text.size(); ++i) {
      for (int byte = 0; byte < 256; ++byte) {
        std::string changed = text;
        changed[i] = static_cast<char>(byte);
        offer(changed);
      }
    }
  }
  CHECK(accepted > 100);
  CHECK(refused > 10'000);
}

TEST_CASE("a number in another unit of its kind", "[units]") {
  CHECK_THAT(converted(98.2, "°C", "°F").value(), WithinAbs(208.76, 1e-12));
  CHECK_THAT(converted(32, "°F", "°C").value(), WithinAbs(0, 1e-12));
  CHECK_THAT(converted(2.5, "L", "mL").value(), WithinRel(2500.0, 1e-15));
  CHECK_THAT(converted(1, "lb", "oz").value(), WithinRel(16.0, 1e-15));
  CHECK_THAT(converted(1, "gal/min", "fl oz/min").value(), WithinRel(128.0, 1e-14));
  CHECK_FALSE(converted(1, "L", "kg"));
  CHECK_FALSE(converted(1, "L", "ltr"));
}

TEST_CASE("what people measure in place of a figure is worked out for them", "[units]") {
  CHECK(fault_of<VolumeFlow>("10 L in 1 min 40 s").wanted == "6 L/min");
  CHECK(fault_of<VolumeFlow>("1 gal in 30 s").wanted == "7.57 L/min");
  CHECK(fault_of<VolumeFlow>("10 L/100 s").wanted == "6 L/min");
  CHECK(fault_of<VolumeFlow>("6 l/m").wanted == "6 L/min");
  CHECK(fault_of<VolumeFlow>("1.3 gpm").wanted == "1.3 gal/min");
  CHECK(fault_of<VolumeFlow>("10 L in 0 s").wanted != "inf L/min");
  CHECK_THAT(fault_of<Length>("6 turns").hint, ContainsSubstring("3.14 times"));
}
