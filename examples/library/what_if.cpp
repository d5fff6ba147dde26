// What if there were less herb, or a stronger plate? Plans one recipe at several charges and
// powers and prints a table.

#include <cstdio>
#include <initializer_list>

#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/tables_json.hpp"

using namespace firstdrop;

int main() {
  const Tables tables = read_tables(embedded_table_texts());

  // A recipe needs no file. default_cut() gives the plant's usual cut. Members that aren't set here
  // keep the values they have when a file leaves a key out.
  Recipe recipe;
  recipe.plant = tables.plants.at("lavender");
  recipe.cut = default_cut(recipe.plant, recipe.state);
  recipe.still = tables.stills.at("bench-column");
  recipe.goal = HydrosolGoal{millilitres(800)};
  recipe.site.altitude = metres(540);

  // Keeps what the plans have in common. Use one for each thread; threads may share the tables.
  PlanMaker planner(tables);

  std::printf("charge   power  verdict   water  stop     oil, 10 to 90 %%\n");
  for (const Mass charge : {grams(100), grams(150), grams(200)}) {
    for (const Power power : {watts(800), watts(1000), watts(1200)}) {
      recipe.charge = charge;
      // change() gives this recipe its own still; the one in the tables stays as it is.
      recipe.still.change().heater.power.range = Range<Power>::exactly(power);

      // Brief plans have the same numbers without notes and timeline. 256 samples are enough here.
      const Plan plan = planner.make(recipe, 256, Detail::brief);
      std::printf("%4.0f g  %4.0f W  %-7s", in_grams(charge), in_watts(power),
                  to_string(plan.verdict).c_str());
      if (plan.may_be_run()) {
        const Range<Volume>& oil = plan.run->uncertainty.oil_volume;
        std::printf("%5.0f mL  %3.0f min  %.2f mL (%.2f to %.2f)",
                    in_millilitres(plan.run->water.first_fill), in_minutes(plan.run->times.stop),
                    in_millilitres(oil.typical), in_millilitres(oil.low), in_millilitres(oil.high));
      }
      std::printf("\n");
    }
  }
}
