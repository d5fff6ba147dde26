// Plans a run with a still and a plant that are made in code instead of taken from a table.
//
// Every figure has a range and a basis. The still and the plant are both invented, and their
// figures say so. Replace them with yours: use `Known::measured` for what you measured, or
// `Known::read` with the key of a source.

#include <cstdio>
#include <iostream>
#include <string>
#include <utility>

#include "firstdrop/base/error.hpp"
#include "firstdrop/output/finding_words.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/tables_json.hpp"

using namespace firstdrop;

namespace {

/// An invented figure, so it is known exactly.
template <class T>
Cited<T> invented(T value, std::string basis) {
  return {Range<T>::exactly(value), {std::move(basis), {"own-invention"}, Known::own_invention}};
}

/// An invented figure with a range: 10th, 50th and 90th percentile.
template <class T>
Cited<T> invented(T low, T typical, T high, std::string basis) {
  return {{low, typical, high}, {std::move(basis), {"own-invention"}, Known::own_invention}};
}

Still kitchen_still() {
  Still still;
  still.key = "kitchen-still";
  still.title = "Kitchen still, 2 L of herb";
  still.methods = {Method::steam};

  still.pot.material = "stainless-steel";  // a key of the material table, like those below
  still.pot.volume = invented(litres(4), "to the brim");
  still.pot.diameter = invented(millimetres(200), "inside");
  still.pot.mass = invented(kilograms(1.5), "empty");
  still.pot.fill_limit = invented(percent(80), "of the volume");
  still.pot.minimum_water = invented(litres(0.5), "covers the base");

  Column column;
  column.material = "glass";
  column.volume = invented(litres(2), "from sieve to head");
  column.diameter = invented(millimetres(110), "inside");
  column.mass = invented(kilograms(1.1), "empty, with its sieve");
  still.column = column;

  still.head.material = "glass";
  still.head.mass = invented(grams(500), "with the vapour path");
  still.head.surface = invented(square_metres(0.035), "outside");

  still.heater.kind = HeaterKind::electric_plate;
  still.heater.power = invented(watts(1400), "rated");

  still.condenser.kind = CondenserKind::reservoir;
  still.condenser.wall = "glass";
  still.condenser.surface = invented(square_metres(0.15), "of the coil");
  still.condenser.outlet = invented(celsius(40), "no warmer");
  still.condenser.coolant_limit = invented(celsius(35), "no warmer");
  still.condenser.coolant = invented(litres(40), "a tub");
  still.condenser.ice_per_change = invented(kilograms(2), "that the tub takes");

  still.wall_hold_up = invented(grams(15), grams(25), grams(45), "that clings to the glass");
  return still;
}

Plant garden_mint() {
  Plant plant;
  plant.key = "garden-mint";
  plant.name = "a mint of the garden";
  plant.latin = "Mentha sp.";
  plant.part = "flowering herb";
  // The form and the release class supply the figures that this plant lacks. The plan says so.
  plant.form = PlantForm::leafy_herb;
  plant.release_class = "surface-glands";
  plant.oil_density = invented(kilograms_per_cubic_metre(895), kilograms_per_cubic_metre(905),
                               kilograms_per_cubic_metre(915), "of the oil");

  plant.constituents = {
      // The keys are those of the liquid table.
      {"menthol", invented(percent(30), percent(40), percent(50), "of the oil")},
      {"menthone", invented(percent(15), percent(25), percent(35), "of the oil")},
  };

  OilContent content;
  content.by_mass = invented(percent(0.3), percent(0.6), percent(1), "of the fresh herb");
  content.per = OilPer::as_received;
  content.distilled = Distilled::to_exhaustion;
  plant.states[State::fresh].oil_content = content;
  return plant;
}

}  // namespace

int main() {
  const Tables tables = read_tables(embedded_table_texts());

  Recipe recipe;
  recipe.title = "Garden mint in the kitchen still";
  recipe.plant = garden_mint();
  recipe.still = kitchen_still();
  recipe.charge = grams(250);
  recipe.goal = OilShareGoal{percent(80)};
  recipe.site.coolant = celsius(12);

  try {
    const Plan plan = make_plan(recipe, tables);
    std::printf("%s\n", to_string(plan.verdict).c_str());
    for (const Finding& finding : plan.findings) {
      if (finding.level != Level::note)
        std::printf("- %s\n", finding_text(finding, recipe.units).c_str());
    }
    for (const std::string& default_used : plan.defaults_used) {
      std::printf("not the plant's own: %s\n", default_used.c_str());
    }
    if (!plan.may_be_run()) return 1;

    const Range<Mass>& oil = plan.run->uncertainty.oil_in_receiver;
    std::printf("oil  %.2f g (%.2f to %.2f)\n\n", in_grams(oil.typical), in_grams(oil.low),
                in_grams(oil.high));
    std::printf("%s", run_sheet(plan, SheetFormat::text).c_str());
  } catch (const InputError& error) {
    std::cerr << error.what() << '\n';
    return 2;
  }
}
