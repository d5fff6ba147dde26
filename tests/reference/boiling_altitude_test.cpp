// The boiling point by altitude against tables for home cooking and canning. They print whole
// degrees Fahrenheit, so the tolerance is half a degree. Their heights are geometric. Taking them
// as geopotential changes the boiling point by at most 0.01 °F here.
#include <initializer_list>

#include "catch.hpp"
#include "physics/water.hpp"

using namespace firstdrop;

TEST_CASE("boiling points agree with food-safety tables by altitude", "[water][reference]") {
  struct Row {
    double altitude_ft;
    double boiling_f;
    const char* source;
  };
  for (const Row& row :
       {Row{2000.0, 208.0,
            "USDA FSIS, high altitude cooking, script of a talk, "
            "http://www.fsis.usda.gov/News_&_Events/Script_cooking_high_altitude/index.asp"},
        Row{5000.0, 203.0,
            "Colorado State University, Preserve Smart, "
            "https://apps.chhs.colostate.edu/preservesmart/pages/why-elevation-matters/"},
        Row{7500.0, 198.0, "foodsafety.gov, https://www.foodsafety.gov/blog/high_altitude.html"},
        Row{10000.0, 194.0,
            "https://webcasty.com/2013/"
            "how-to-boil-water-water-boiling-at-high-altitudes/"}}) {
    CAPTURE(row.altitude_ft, row.source);
    const Length altitude = metres(row.altitude_ft * 0.3048);
    const double boiling_c = in_celsius(saturation_temperature(standard_pressure(altitude)));
    CHECK_THAT(boiling_c * 1.8 + 32.0, WithinAbs(row.boiling_f, 0.5));
  }
}
