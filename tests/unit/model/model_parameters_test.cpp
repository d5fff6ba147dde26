// Which figure each parameter takes for a recipe. Herb, stills and design defaults are those of
// test_stills.hpp.
#include "model/model_parameters.hpp"

#include <algorithm>
#include <cmath>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "model/parameter_sources.hpp"
#include "model/parameters_at.hpp"
#include "physics/basis.hpp"
#include "physics/water.hpp"
#include "test_stills.hpp"
#include "unit/model/parameters_of.hpp"

using namespace firstdrop;
using namespace test_stills;

namespace {

bool mentions(const std::vector<std::string>& notes, const std::string& text) {
  return std::any_of(notes.begin(), notes.end(),
                     [&](const auto& n) { return n.find(text) != std::string::npos; });
}

}  // namespace

TEST_CASE("the site sets pressure and boiling point", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  CHECK_THAT(in_pascals(parameters_of(r).ambient), WithinRel(101325.0, 1e-12));
  CHECK_THAT(in_celsius(parameters_of(r).boiling), WithinAbs(99.974, 0.001));
  r.site.altitude = metres(2000);
  CHECK_THAT(in_celsius(parameters_of(r).boiling), WithinAbs(93.32, 0.01));
  r.site.pressure = kilopascals(80);
  CHECK(fault_of(r).pointer == "/site");  // either tells the other
  r.site.altitude.reset();
  CHECK_THAT(in_celsius(parameters_of(r).boiling), WithinAbs(93.485, 0.001));
  CHECK(parameters_of(r).latent_heat == latent_heat(parameters_of(r).boiling));
}

TEST_CASE("coolant is as warm as the room unless said otherwise", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  r.site.room = celsius(26);
  CHECK(parameters_of(r).coolant == celsius(26));
  r.site.coolant = celsius(12);
  CHECK(parameters_of(r).coolant == celsius(12));
}

TEST_CASE("own bulk density beats the table and narrows the range", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  const ModelParameters table = parameters_of(r);
  CHECK(replaced_figures(table.recipe.own).empty());
  r.own.bulk_density = grams_per_litre(150);
  const ModelParameters own = parameters_of(r);
  // 5 % either way, against 120 to 220 g/L in the table.
  CHECK_THAT(own.selected->bulk_density.range.low.si(), WithinRel(142.5, 1e-12));
  CHECK_THAT(own.selected->bulk_density.typical().si(), WithinRel(150.0, 1e-12));
  CHECK_THAT(own.selected->bulk_density.range.high.si(), WithinRel(157.5, 1e-12));
  CHECK(own.selected->bulk_density.evidence.known == Known::measured);
  CHECK(mentions(replaced_figures(own.recipe.own), "bulk density"));
  const auto width = [](const ModelParameters& i) {
    return i.selected->bulk_density.range.most().si() - i.selected->bulk_density.range.least().si();
  };
  CHECK(width(own) < width(table) / 5);
}

TEST_CASE("own oil content is what came over to the end of a run, recovery and all",
          "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  r.own.oil_content = percent(0.5);
  const ModelParameters own = parameters_of(r);
  // 0.4, 0.5 and 0.6 % from a run that was stopped with 98, 95 and 88 % of what it could bring. The
  // median is 0.52632 %. Low is the median over exp(hypot(ln 1.25, ln 1.0316)), and high is the
  // median times exp(hypot(ln 1.2, ln 1.0795)).
  CHECK_THAT(in_percent(own.selected->oil_content.range.low), WithinRel(0.420146, 1e-5));
  CHECK_THAT(in_percent(own.selected->oil_content.range.high), WithinRel(0.641390, 1e-5));
  CHECK(own.selected->recovery.range.low == fraction(1));
  CHECK(own.selected->recovery.range.high == fraction(1));
  // 200 g x 0.5 % / 95 %, all of it recoverable.
  CHECK_THAT(in_grams(oil_in_charge(own, SamplePoint::medians(), grams(200))),
             WithinRel(1 / 0.95, 1e-12));
  CHECK_THAT(in_grams(oil_recoverable(own, SamplePoint::medians(), grams(200))),
             WithinRel(1 / 0.95, 1e-12));
  CHECK(mentions(replaced_figures(own.recipe.own), "oil content"));
}

TEST_CASE("own oil content by volume is that by mass with the oil's density",
          "[parameters][typed]") {
  Recipe r = recipe(herb(), column_still());
  const Density density = r.plant->oil_density->typical();
  r.own.oil_content = litres_per_kilogram(0.007);
  const ModelParameters by_volume = parameters_of(r);
  r.own.oil_content = litres_per_kilogram(0.007) * density;
  const ModelParameters by_mass = parameters_of(r);
  CHECK(by_volume.selected->oil_content.range.low == by_mass.selected->oil_content.range.low);
  CHECK(by_volume.selected->oil_content.typical() == by_mass.selected->oil_content.typical());
  CHECK(by_volume.selected->oil_content.range.high == by_mass.selected->oil_content.range.high);
}

TEST_CASE("recovery follows how far the yield was distilled", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  r.plant.change().recovery.clear();
  CHECK(parameters_of(r).selected->recovery.typical() ==
        rules().design_defaults.recovery.at(Method::steam).typical());
  r.still = hydro_still();
  r.method = Method::hydro;
  CHECK(parameters_of(r).selected->recovery.typical() ==
        rules().design_defaults.recovery.at(Method::hydro).typical());
  r.plant.change().states.at(State::fresh).oil_content->distilled = Distilled::to_stated_end;
  CHECK(parameters_of(r).selected->recovery.typical() == fraction(1));
}

TEST_CASE("a still's yield is divided by its end and multiplied by no recovery", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  r.plant.change().states.at(State::fresh).oil_content->distilled = Distilled::to_stated_end;
  // 0.8 % when 95 % has come over: a run to exhaustion brings 0.8 / 0.95 = 0.84211 % of 100 g.
  CHECK_THAT(in_grams(oil_recoverable(parameters_of(r), SamplePoint::medians(), grams(100))),
             WithinRel(0.842105, 1e-6));
}

TEST_CASE("fresh oil content serves dried herb by its dry matter, less the loss", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  r.state = State::dried;
  const ModelParameters dried = parameters_of(r);
  // 0.8 % of fresh herb at 70 % water is 2.667 % of dry matter. Nine tenths of that stay on drying:
  // 2.4 %. 100 g dried at 10 % water are 90 g dry: 2.16 g.
  CHECK(dried.selected->oil_per == OilPer::dry_matter);
  CHECK_THAT(in_grams(oil_in_charge(dried, SamplePoint::medians(), grams(100))),
             WithinRel(2.16, 1e-9));
  CHECK(mentions(dried.selected->defaults_used, "oil content of fresh"));
}

TEST_CASE("100 g fresh hold what their dried remainder holds", "[parameters]") {
  Tables no_loss = rules();
  no_loss.design_defaults.drying_retention = exactly(fraction(1));
  const Recipe fresh = recipe(herb(), column_still());
  Recipe dried = fresh;
  dried.state = State::dried;
  const Mass remainder = at_moisture(grams(100), percent(70), percent(10));
  CHECK_THAT(
      in_grams(oil_in_charge(model_parameters(fresh, no_loss), SamplePoint::medians(), grams(100))),
      WithinRel(in_grams(oil_in_charge(model_parameters(dried, no_loss), SamplePoint::medians(),
                                       remainder)),
                1e-12));
}

TEST_CASE("dried oil content serves fresh herb, before the loss", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  // The same figure for the dried herb, by volume and per dry matter: 20 mL/kg x 0.89 = 1.78 %.
  PlantState& dried = r.plant.change().states.at(State::dried);
  OilContent content;
  content.by_volume = exactly(litres_per_kilogram(0.020));
  content.per = OilPer::dry_matter;
  dried.oil_content = content;
  r.plant.change().states.at(State::fresh).oil_content.reset();
  // Fresh: 1.78 / 0.9 = 1.9778 % of dry matter; 100 g at 70 % are 30 g dry: 0.5933 g.
  CHECK_THAT(in_grams(oil_in_charge(parameters_of(r), SamplePoint::medians(), grams(100))),
             WithinRel(0.593333, 1e-6));
  r.state = State::dried;
  // Dried: 90 g dry x 1.78 % = 1.602 g.
  CHECK_THAT(in_grams(oil_in_charge(parameters_of(r), SamplePoint::medians(), grams(100))),
             WithinRel(1.602, 1e-9));
}

TEST_CASE("a cut without a figure scales another's", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  r.cut = Cut::crushed;
  const ModelParameters crushed = parameters_of(r);
  // 170 g/L chopped, times the density of crushed relative to chopped.
  CHECK_THAT(
      crushed.selected->bulk_density.typical().si(),
      WithinRel(170 * rules().design_defaults.cut_density.at(Cut::crushed).typical().si(), 1e-12));
  CHECK(mentions(crushed.selected->defaults_used, "bulk density of chopped"));
  CHECK(crushed.selected->bulk_density.range.ordered());
}

TEST_CASE("a method without release figures takes the nearest one's", "[parameters]") {
  Recipe r = recipe(herb(), hydro_still());
  r.plant.change().release.erase(Method::hydro);
  CHECK(parameters_of(r).selected->half_life.typical() == minutes(15));
  CHECK(mentions(parameters_of(r).selected->defaults_used, "water-and-steam"));
  r.plant.change().release.erase(Method::water_and_steam);
  CHECK(parameters_of(r).selected->half_life.typical() == minutes(12));
  CHECK(parameters_of(r).selected->fast_share.typical() == fraction(0));
  r.plant.change().release.clear();
  r.plant.change().release_class.clear();
  CHECK(fault_of(r).pointer == "/plant/release");
}

TEST_CASE("what the tables cannot give is a fault", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  r.plant.change().states.at(State::fresh).oil_content.reset();
  CHECK(fault_of(r).pointer == "/plant/states");
  r = recipe(herb(), column_still());
  r.own.boil_time = minutes(12);
  CHECK(fault_of(r).pointer == "/own/boil_water");
  r.water = litres(1.5);
  CHECK_NOTHROW(parameters_of(r));
}

TEST_CASE("steam is bound only where at least half of the oil is known", "[parameters]") {
  Recipe r = recipe(herb(), column_still());
  CHECK_FALSE(parameters_of(r).codistillation);
  r.plant.change().constituents = {{"cineole", exactly(percent(49))}};
  CHECK_FALSE(parameters_of(r).codistillation);
  r.plant.change().constituents = {{"cineole", exactly(percent(60))}};
  const auto bound = parameters_of(r).codistillation;
  REQUIRE(bound);
  // 1 / 1.199 kg per kg, from the computed table of tests/reference.
  CHECK_THAT(bound->oil_per_steam.si(), WithinRel(1 / 1.199, 2e-3));
  CHECK(sources_of(parameters_of(r), rules()).count("dykyj-hall-landolt") == 1);
}
