// Heat into the pot and out of it: hand-worked values.
#include "catch.hpp"
#include "physics/heat_balance.hpp"

using namespace firstdrop;

TEST_CASE("heat into the pot is a plain product", "[heat]") {
  // 1 kW x 80 % x 74 % = 592 W.
  CHECK_THAT(in_watts(heat_into_pot(kilowatts(1), percent(80), percent(74))),
             WithinRel(592.0, 1e-12));
  CHECK(heat_into_pot(kilowatts(1), percent(0), percent(74)) == watts(0));
}

TEST_CASE("cylinder of a volume and a diameter", "[heat]") {
  // 2 L, 160 mm: base 0.0201062 m2, height 0.0994718 m, side 4 V / d = 0.05 m2.
  CHECK_THAT(in_metres(cylinder_height(litres(2), millimetres(160))), WithinRel(0.0994718, 1e-6));
  CHECK_THAT(in_square_metres(cylinder_side(litres(2), millimetres(160))), WithinRel(0.05, 1e-12));
  // The side of any cylinder is 4 V / d.
  CHECK_THAT(in_square_metres(cylinder_side(litres(7), millimetres(280))), WithinRel(0.1, 1e-12));
}

TEST_CASE("a pot loses by side and by the top that no column covers", "[heat]") {
  const HeatTransfer film = watts_per_square_metre_kelvin(10);
  // 0.05 + 0.0201062 m2.
  CHECK_THAT(pot_loss(film, litres(2), millimetres(160), square_metres(0)).si(),
             WithinRel(0.701062, 1e-6));
  // A column of 100 mm covers 0.0078540 m2 of the top.
  CHECK_THAT(pot_loss(film, litres(2), millimetres(160), circle_area(millimetres(100))).si(),
             WithinRel(0.622522, 1e-6));
  // With a column wider than the pot, the whole side still counts.
  CHECK_THAT(pot_loss(film, litres(2), millimetres(160), circle_area(millimetres(300))).si(),
             WithinRel(0.5, 1e-12));
}

TEST_CASE("a column loses by its side and its head", "[heat]") {
  // 4 x 0.001 / 0.1 = 0.04 m2 x 7 + 0.03 m2 x 10 = 0.58 W/K.
  CHECK_THAT(column_loss(watts_per_square_metre_kelvin(7), litres(1), millimetres(100),
                         watts_per_square_metre_kelvin(10), square_metres(0.03))
                 .si(),
             WithinRel(0.58, 1e-12));
}

TEST_CASE("steam is made by what is left over, and never taken back", "[heat]") {
  // (500 - 100) W / 2000 kJ/kg = 0.2 g/s.
  CHECK_THAT(steam_made(watts(500), watts(100), kilojoules_per_kilogram(2000)).si(),
             WithinRel(2e-4, 1e-12));
  CHECK(steam_made(watts(100), watts(100), kilojoules_per_kilogram(2000)) == MassFlow());
  CHECK(steam_made(watts(100), watts(500), kilojoules_per_kilogram(2000)) == MassFlow());
}
