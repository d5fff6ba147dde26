// Plans the recipe in a file and prints the main figures:
//
//     plan_one_recipe examples/hedge-lavender.json
//
// Exits with 0 if the plan can be run, with 1 if it is refused, and with 2 after an error, such as
// a faulty recipe.

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>
#include <string>

#include "firstdrop/base/error.hpp"
#include "firstdrop/output/finding_words.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "firstdrop/readers/tables_json.hpp"

using namespace firstdrop;

namespace {

std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::ostringstream text;
  if (!(text << file.rdbuf())) {
    Fault fault;
    fault.file = path.string();
    fault.found = "nothing that can be read";
    throw InputError(fault);
  }
  return text.str();
}

void print(const Plan& plan) {
  std::printf("%s\n%s\n", plan.recipe.title.c_str(), to_string(plan.verdict).c_str());
  for (const Finding& finding : plan.findings) {
    if (finding.level == Level::note) continue;
    std::printf("- %s\n", finding_text(finding, plan.recipe.units).c_str());
  }
  if (!plan.may_be_run()) return;  // a refused plan has no amounts to work from

  const RunPlan& run = *plan.run;
  const Range<Duration>& stop = run.uncertainty.stop;
  const Range<Volume>& oil = run.uncertainty.oil_volume;
  std::printf("charge      %6.0f g, %d run(s)\n", in_grams(plan.charge.mass), plan.charge.runs);
  std::printf("water       %6.0f mL\n", in_millilitres(run.water.first_fill));
  std::printf("first drop  %6.1f min\n", in_minutes(run.times.first_drop));
  std::printf("stop        %6.1f min (%.1f to %.1f)\n", in_minutes(run.times.stop),
              in_minutes(stop.low), in_minutes(stop.high));
  std::printf("hydrosol    %6.0f mL\n", in_millilitres(run.nominal.hydrosol));
  if (!run.has_oil) return;  // a plant of whose oil nothing is known
  std::printf("oil         %6.2f mL (%.2f to %.2f)\n", in_millilitres(oil.typical),
              in_millilitres(oil.low), in_millilitres(oil.high));
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: plan_one_recipe RECIPE\n";
    return 2;
  }
  try {
    const std::filesystem::path file = argv[1];
    // The library itself reads no files. It asks for those that a recipe names; here they are in
    // the recipe's folder.
    const auto beside = [&](const std::string& name) { return text_of(file.parent_path() / name); };

    const Tables tables = read_tables(embedded_table_texts());
    const Recipe recipe = read_recipe(text_of(file), file.string(), tables, beside);
    const Plan plan = make_plan(recipe, tables);
    print(plan);
    return plan.verdict == Verdict::refused ? 1 : 0;
  } catch (const InputError& error) {  // lists every fault that was found
    std::cerr << error.what() << '\n';
  } catch (const RangeError& error) {  // a value outside the range of its equation
    std::cerr << error.what() << '\n';
  }
  return 2;
}
