// Fresh and dry, by mass and by volume: hand-worked values and inverses.
#include "physics/basis.hpp"

#include "catch.hpp"

using namespace firstdrop;

TEST_CASE("dry matter and moisture convert both ways", "[basis]") {
  // 100 g at 80 % water holds 20 g of dry matter, which at 10 % water weighs 20 / 0.9 = 22.22 g.
  CHECK_THAT(in_grams(dry_matter(grams(100), percent(80))), WithinRel(20.0, 1e-12));
  CHECK_THAT(in_grams(at_moisture(grams(100), percent(80), percent(10))),
             WithinRel(22.2222222, 1e-8));
  CHECK_THAT(in_grams(at_moisture(at_moisture(grams(100), percent(80), percent(10)), percent(10),
                                  percent(80))),
             WithinRel(100.0, 1e-12));
  CHECK(dry_matter(grams(100), percent(0)) == grams(100));
  CHECK_THAT(in_grams(at_moisture(grams(100), percent(35), percent(35))), WithinRel(100.0, 1e-14));
}

TEST_CASE("oil per loaded and per dry matter are inverses", "[basis]") {
  // 1 % of the dry matter is 0.2 % of a herb that is 80 % water.
  CHECK_THAT(in_percent(per_as_received(percent(1), percent(80))), WithinRel(0.2, 1e-12));
  CHECK_THAT(in_percent(per_dry_matter(percent(0.2), percent(80))), WithinRel(1.0, 1e-12));
  // 100 g of fresh herb holds the same oil before and after drying.
  const Fraction content = percent(1.3);
  const Mass fresh = grams(100);
  const Mass dried = at_moisture(fresh, percent(78), percent(11));
  CHECK_THAT(in_grams(fresh * per_as_received(content, percent(78))),
             WithinRel(in_grams(dried * per_as_received(content, percent(11))), 1e-12));
}

TEST_CASE("oil by volume becomes oil by mass", "[basis]") {
  // 12 mL/kg of an oil of 0.90 g/mL: 10.8 g/kg.
  CHECK_THAT(in_percent(oil_by_mass(litres_per_kilogram(0.012), kilograms_per_cubic_metre(900))),
             WithinRel(1.08, 1e-12));
}

TEST_CASE("oil by mass becomes oil by volume again", "[basis]") {
  // 1.08 % w/w of an oil of 0.90 g/mL is 1.2 mL per 100 g.
  const Density oil = kilograms_per_cubic_metre(900);
  const SpecificVolume by_volume = oil_by_volume(percent(1.08), oil);
  CHECK_THAT(by_volume / litres_per_kilogram(1), WithinRel(0.012, 1e-12));
  CHECK_THAT(in_percent(oil_by_mass(by_volume, oil)), WithinRel(1.08, 1e-12));
}
