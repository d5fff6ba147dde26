#include "physics/reserve.hpp"

#include "catch.hpp"

using namespace firstdrop;

TEST_CASE("the reserve is the largest of its three reasons", "[reserve]") {
  // A fifth of 2 kg is 400 g.
  CHECK_THAT(in_grams(water_reserve(kilograms(2), percent(20), grams(300), grams(0))),
             WithinRel(400.0, 1e-12));
  CHECK(water_reserve(kilograms(1), percent(20), grams(300), grams(0)) == grams(300));
  CHECK(water_reserve(kilograms(2), percent(20), grams(300), grams(900)) == grams(900));
  CHECK(water_reserve(kilograms(0), percent(20), grams(0), grams(0)) == grams(0));
}

TEST_CASE("room for water shrinks by the pieces in it and never below none", "[reserve]") {
  CHECK_THAT(in_litres(fill_room(litres(10), percent(75), litres(0))), WithinRel(7.5, 1e-12));
  CHECK_THAT(in_litres(fill_room(litres(10), percent(75), litres(2))), WithinRel(5.5, 1e-12));
  CHECK(fill_room(litres(10), percent(75), litres(8)) == litres(0));
}

TEST_CASE("room below a grid keeps its clearance", "[reserve]") {
  CHECK_THAT(in_litres(room_below_grid(litres(4), percent(20))), WithinRel(3.2, 1e-12));
  CHECK(room_below_grid(litres(4), percent(100)) == litres(0));
}
