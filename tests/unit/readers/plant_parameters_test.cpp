// Which figure is selected: the plant's own, that of another cut, state or method, or the class
// default. The plants are made up here, and the tables have round figures.
#include "readers/plant_parameters.hpp"

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "physics/basis.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using test_stills::between;
using test_stills::exactly;
using test_stills::herb;

namespace {

Tables tables() {
  Tables l = test_stills::rules();
  FormDefaults leafy;
  PlantState dried;
  dried.moisture = exactly(percent(11));
  dried.bulk_density = {{Cut::whole, exactly(grams_per_litre(60))}};
  leafy.states = {{State::dried, dried}};
  l.forms = {{PlantForm::leafy_herb, leafy}};
  const auto release = [](double half_life) {
    return OilRelease{exactly(minutes(half_life)), std::nullopt, std::nullopt};
  };
  l.release_classes = {{"surface-glands", {"surface-glands", "", {{Method::hydro, release(33)}}}},
                       {"crushed-seed", {"crushed-seed", "", {{Method::steam, release(27)}}}},
                       {"whole-seed", {"whole-seed", "", {{Method::steam, release(111)}}}}};
  l.design_defaults.cut_density = {{Cut::whole, exactly(fraction(0.5))},
                                   {Cut::chopped, exactly(fraction(1))},
                                   {Cut::crushed, exactly(fraction(1.2))},
                                   {Cut::ground, exactly(fraction(1.6))}};
  l.design_defaults.hydrosol_oil =
      between(milligrams_per_litre(200), milligrams_per_litre(350), milligrams_per_litre(600));
  l.design_defaults.hydrosol_saturation = between(fraction(0.2), fraction(0.4), fraction(0.6));
  return l;
}

Plant plain() {
  Plant plant = herb();
  plant.form = PlantForm::leafy_herb;
  plant.release_class = "surface-glands";
  return plant;
}

Liquid liquid(const char* key, double molar_mass, std::optional<double> mg_per_l) {
  Liquid l;
  l.key = key;
  l.name = key;
  l.molar_mass = exactly(grams_per_mole(molar_mass));
  if (mg_per_l) l.water_solubility = exactly(milligrams_per_litre(*mg_per_l));
  return l;
}

}  // namespace

TEST_CASE("bulk density: own cut, then the form's, then another cut scaled", "[plant_parameters]") {
  const Tables l = tables();
  Plant plant = plain();
  auto chosen = bulk_density_of(plant, State::dried, Cut::chopped, l);
  CHECK_THAT(in_grams_per_litre(chosen.figure.typical()), WithinRel(100.0, 1e-12));
  CHECK(chosen.default_used.empty());
  chosen = bulk_density_of(plant, State::dried, Cut::whole, l);  // only the form has one
  CHECK_THAT(in_grams_per_litre(chosen.figure.typical()), WithinRel(60.0, 1e-12));
  CHECK(chosen.default_used == "bulk density (class default for leafy herb)");
  chosen = bulk_density_of(plant, State::dried, Cut::ground, l);  // 100 g/L chopped x 1.6
  CHECK_THAT(in_grams_per_litre(chosen.figure.typical()), WithinRel(160.0, 1e-12));
  CHECK(chosen.default_used == "bulk density of chopped material, scaled to ground");
  plant.states.at(State::dried).bulk_density.clear();
  chosen = bulk_density_of(plant, State::dried, Cut::ground, l);  // 60 g/L whole / 0.5 x 1.6
  CHECK_THAT(in_grams_per_litre(chosen.figure.typical()), WithinRel(192.0, 1e-12));
  CHECK(chosen.default_used ==
        "bulk density of whole material, scaled to ground (class default for leafy herb)");
  plant.form.reset();
  CHECK_THROWS_AS(bulk_density_of(plant, State::dried, Cut::ground, l), InputError);
}

TEST_CASE("a conversion pairs the ends of ranges and keeps the weakest evidence",
          "[plant_parameters]") {
  Tables l = tables();
  Plant plant = plain();
  plant.states.at(State::dried).bulk_density = {
      {Cut::whole,
       {{grams_per_litre(40), grams_per_litre(60), grams_per_litre(80)},
        {"weighed", {"a-paper"}, Known::read}}}};
  plant.form.reset();
  l.design_defaults.cut_density[Cut::whole] = {{fraction(0.4), fraction(0.5), fraction(0.8)},
                                               {"rule", {"from-memory"}, Known::from_memory}};
  const auto chosen = bulk_density_of(plant, State::dried, Cut::chopped, l);
  // 40 / 0.8, 60 / 0.5 and 80 / 0.4.
  CHECK_THAT(in_grams_per_litre(chosen.figure.range.low), WithinRel(50.0, 1e-12));
  CHECK_THAT(in_grams_per_litre(chosen.figure.range.typical), WithinRel(120.0, 1e-12));
  CHECK_THAT(in_grams_per_litre(chosen.figure.range.high), WithinRel(200.0, 1e-12));
  // The factors of the test tables have the weakest evidence.
  CHECK(chosen.figure.evidence.known == Known::own_invention);
  l.design_defaults.cut_density[Cut::chopped].evidence.known = Known::read;
  CHECK(bulk_density_of(plant, State::dried, Cut::chopped, l).figure.evidence.known ==
        Known::from_memory);
}

TEST_CASE("what drying lost is added for wilted as for fresh herb", "[plant_parameters]") {
  Tables l = tables();
  l.design_defaults.drying_retention = {{percent(60), percent(80), percent(100)},
                                        {"", {}, Known::read}};
  Plant plant = plain();
  OilContent content;
  content.by_mass = Cited<Fraction>{{percent(1), percent(2), percent(3)}, {"", {}, Known::read}};
  content.per = OilPer::dry_matter;
  plant.states.at(State::dried).oil_content = content;
  plant.states.at(State::fresh).oil_content.reset();
  for (const State state : {State::fresh, State::wilted}) {
    const ChosenOilContent chosen = oil_content_of(plant, state, l);
    // The median is 2 / 0.8. The ends are factors of 2 and 1.25 below it, and of 1.5 and 1.3333
    // above it. Their logarithms add as squares: exp(hypot(0.69315, 0.22314)) = 2.0713,
    // exp(hypot(0.40547, 0.28768)) = 1.6441.
    CHECK_THAT(in_percent(chosen.figure.range.typical), WithinRel(2.5, 1e-12));
    CHECK_THAT(in_percent(chosen.figure.range.low), WithinRel(2.5 / 2.07126, 1e-4));
    CHECK_THAT(in_percent(chosen.figure.range.high), WithinRel(2.5 * 1.64406, 1e-4));
    CHECK(chosen.figure.evidence.known == Known::computed);  // no longer read, once converted
  }
  CHECK(oil_content_of(plant, State::dried, l).figure.evidence.known == Known::read);
}

TEST_CASE("water held: by the form, else that of herb", "[plant_parameters]") {
  Tables l = tables();
  Plant plant = plain();
  CHECK(hold_up_of(plant, l).figure.typical() == l.design_defaults.hold_up.typical());
  l.forms.at(PlantForm::leafy_herb).hold_up = exactly(fraction(1.3));
  CHECK(hold_up_of(plant, l).figure.typical() == fraction(1.3));
}

TEST_CASE("moisture: own, then the form's", "[plant_parameters]") {
  const Tables l = tables();
  Plant plant = plain();
  CHECK(moisture_of(plant, State::dried, l).figure.typical() == percent(10));
  plant.states.at(State::dried).moisture.reset();
  const auto chosen = moisture_of(plant, State::dried, l);
  CHECK(chosen.figure.typical() == percent(11));
  CHECK(chosen.default_used == "moisture (class default for leafy herb)");
  plant.states.at(State::fresh).moisture.reset();  // the form has none for fresh herb
  CHECK_THROWS_AS(moisture_of(plant, State::fresh, l), InputError);
}

TEST_CASE("release: own, then the class's, then the nearest method", "[plant_parameters]") {
  const Tables l = tables();
  Plant plant = plain();
  plant.release.erase(Method::hydro);
  ChosenRelease chosen = release_of(plant, Method::hydro, Cut::chopped, l);
  CHECK(chosen.release.half_life.typical() == minutes(33));
  CHECK(chosen.method == Method::hydro);
  CHECK(chosen.default_used == "release (class default for surface glands)");
  // Neither the class nor the plant has a figure by steam. The plant's own over water on a grid is
  // the nearest.
  plant.release.erase(Method::steam);
  chosen = release_of(plant, Method::steam, Cut::chopped, l);
  CHECK(chosen.release.half_life.typical() == minutes(15));
  CHECK(chosen.method == Method::water_and_steam);
  CHECK(chosen.default_used == "release for water-and-steam");
  plant.release.clear();
  chosen = release_of(plant, Method::steam, Cut::chopped, l);
  CHECK(chosen.method == Method::hydro);
  CHECK(chosen.default_used == "release for hydro (class default for surface glands)");
  plant.release_class.clear();
  CHECK_THROWS_AS(release_of(plant, Method::steam, Cut::chopped, l), InputError);
}

TEST_CASE("seed comes by its cut", "[plant_parameters]") {
  const Tables l = tables();
  Plant plant = plain();
  plant.release_class = "seed";
  plant.release.clear();
  CHECK(release_class_of(plant, Cut::whole) == "whole-seed");
  CHECK(release_class_of(plant, Cut::ground) == "crushed-seed");
  CHECK(release_of(plant, Method::steam, Cut::crushed, l).release.half_life.typical() ==
        minutes(27));
  CHECK(release_of(plant, Method::steam, Cut::whole, l).release.half_life.typical() ==
        minutes(111));
  // A seed's own figures are for crushed seed, so whole seed doesn't take them.
  plant.release = herb().release;
  CHECK(release_of(plant, Method::steam, Cut::crushed, l).release.half_life.typical() ==
        minutes(12));
  CHECK(release_of(plant, Method::steam, Cut::whole, l).release.half_life.typical() ==
        minutes(111));
  // Without a class for whole seed, `default_used` says that the figures are for crushed seed.
  plant.form = PlantForm::seed;
  plant.release_class.clear();
  CHECK(release_of(plant, Method::steam, Cut::crushed, l).default_used.empty());
  CHECK(release_of(plant, Method::steam, Cut::whole, l).default_used == "release of crushed seed");
}

TEST_CASE("recovery: by how the content was found, own where the plant has one",
          "[plant_parameters]") {
  const Tables l = tables();
  Plant plant = plain();
  plant.recovery.clear();
  CHECK(recovery_of(plant, Method::steam, Distilled::to_stated_end, l).figure.typical() ==
        fraction(1));
  CHECK(recovery_of(plant, Method::steam, Distilled::to_exhaustion, l).figure.typical() ==
        l.design_defaults.recovery.at(Method::steam).typical());
  plant.recovery[Method::steam] = exactly(percent(64));
  const auto own = recovery_of(plant, Method::steam, Distilled::to_exhaustion, l);
  CHECK(own.figure.typical() == percent(64));
  CHECK(own.default_used.empty());
}

TEST_CASE("oil in the hydrosol: measured, or worked out from what dissolves",
          "[plant_parameters]") {
  Tables l = tables();
  l.liquids = {{"alcohol", liquid("alcohol", 150, 1500)},
               {"ester", liquid("ester", 200, std::nullopt)}};
  Plant plant = plain();
  CHECK(hydrosol_oil_of(plant, l).figure.typical() == plant.hydrosol_oil->typical());
  plant.hydrosol_oil.reset();
  // If nothing is known of the oil, the default for all plants is used.
  auto chosen = hydrosol_oil_of(plant, l);
  CHECK(chosen.figure.typical() == milligrams_per_litre(350));
  CHECK(chosen.default_used == "oil in the hydrosol (default for all plants)");
  // 60 % alcohol of 150 g/mol and 20 % ester of 200 g/mol are 0.4 and 0.1 mol per 100 g. The rest
  // is taken to be like the listed 80 %, which gives 0.625 mol in all. So 0.4 / 0.625 x 1500 = 960
  // mg/L could dissolve.
  plant.constituents = {{"alcohol", exactly(percent(60))}, {"ester", exactly(percent(20))}};
  const auto dissolves = oil_solubility(oil_parts(plant, l));
  REQUIRE(dissolves);
  CHECK_THAT(in_milligrams_per_litre(dissolves->dissolved), WithinRel(960.0, 1e-12));
  CHECK_THAT(in_percent(dissolves->share_covered), WithinRel(60.0, 1e-12));
  // 960 x 0.4 + 350 x 0.4 (the part of unknown solubility) = 524 mg/L. Low: 960 x 0.2 + 200 x 0.4 =
  // 272.
  chosen = hydrosol_oil_of(plant, l);
  CHECK_THAT(in_milligrams_per_litre(chosen.figure.typical()), WithinRel(524.0, 1e-12));
  CHECK_THAT(in_milligrams_per_litre(chosen.figure.range.low), WithinRel(272.0, 1e-12));
  CHECK_THAT(in_milligrams_per_litre(chosen.figure.range.high), WithinRel(816.0, 1e-12));
  CHECK(chosen.default_used == "oil in the hydrosol (worked out from solubilities)");
  CHECK_FALSE(chosen.figure.range.by_ratio);
  l.design_defaults.hydrosol_saturation.range.by_ratio = true;
  CHECK(hydrosol_oil_of(plant, l).figure.range.by_ratio);
}

TEST_CASE("a range by factors stays one through conversions", "[plant_parameters]") {
  Tables l = tables();
  Plant plant = plain();
  auto& content = *plant.states.at(State::fresh).oil_content;
  content.by_mass->range = {percent(0.4), percent(0.8), percent(1.6), true};
  // Fresh at 70 % water: 1.333, 2.667 and 5.333 % per dry matter, less the loss on drying.
  const ChosenOilContent dried = oil_content_of(plant, State::dried, l);
  CHECK(dried.figure.range.by_ratio);
  CHECK_THAT(in_percent(dried.figure.typical()), WithinRel(0.8 / 0.3 * 0.9, 1e-12));
  // The same for a content by volume.
  content.by_volume =
      between(litres_per_kilogram(0.004), litres_per_kilogram(0.008), litres_per_kilogram(0.016));
  content.by_volume->range.by_ratio = true;
  content.by_mass.reset();
  CHECK(oil_content_of(plant, State::fresh, l).figure.range.by_ratio);
}

TEST_CASE("what a co-distillation limit leaves out is named with the reason",
          "[plant_parameters]") {
  Tables l = tables();
  Liquid known = liquid("known", 150, std::nullopt);
  known.vapour_pressure = Antoine{20.0, kelvins(3500), kelvins(-60), celsius(20), celsius(150), {}};
  Liquid late = known;
  late.key = late.name = "late";
  late.vapour_pressure->valid_from = celsius(101);
  l.liquids = {{"known", known}, {"late", late}, {"none", liquid("none", 150, std::nullopt)}};
  Plant plant = plain();
  plant.constituents = {{"known", exactly(percent(60))},
                        {"late", exactly(percent(20))},
                        {"none", exactly(percent(10))}};
  const auto bound = codistillation_limit(kilopascals(101.325), oil_parts(plant, l));
  REQUIRE(bound);
  REQUIRE(bound->parts.size() == 1);
  CHECK(codistillation_limit_left_out(plant, l, *bound) ==
        "late (its equation holds from 101 to 150 °C), none (no vapour pressure equation)");
  plant.constituents.resize(1);
  CHECK(codistillation_limit_left_out(plant, l, *bound).empty());
}
