#include "cli/asked_plan.hpp"

#include "cli/files.hpp"
#include "cli/pages/plan_page.hpp"
#include "cli/progress.hpp"
#include "cli/terminal.hpp"
#include "cli/units_option.hpp"
#include "cli/whole_number.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "quantity/clock_time.hpp"
#include "readers/recipe_document.hpp"

namespace firstdrop::cli {
namespace {

// Applies the options of the command line that override the recipe.
void override_recipe(Recipe& recipe, const RecipeOptions& options) {
  if (!options.units.empty()) recipe.units = units_named(options.units);
  if (!options.start) return;
  if (!parse_local_minute(*options.start)) {
    throw InputError(Fault{"", "", firstdrop::quoted(*options.start) + " for --start",
                           local_minute_form, "", 0, 0});
  }
  recipe.start = *options.start;
}

}  // namespace

Sampling sampling_of(const std::string& samples, const std::string& jobs) {
  return {samples.empty() ? default_samples : whole_number(samples, "--samples", 16, 1'000'000),
          whole_number(jobs, "--jobs", 1, 64)};
}

AskedPlan plan_asked_for(const RecipeOptions& options, const TableFolder& folder,
                         bool with_sources) {
  const Sampling sampling = sampling_of(options.samples, options.jobs);
  const std::string recipe_text = read_text_file(options.recipe);
  const auto recipe_from = [&](const Tables& tables) {
    return read_recipe(recipe_text, options.recipe, tables, reader_beside(options.recipe));
  };
  // One recipe needs only one plant and one still.
  Tables tables = with_sources ? folder.tables() : folder.tables_for(recipe_text);
  Recipe recipe;
  try {
    recipe = recipe_from(tables);
  } catch (const InputError&) {
    recipe_from(folder.tables());  // throws with the valid names
    throw;
  }
  override_recipe(recipe, options);
  SamplingProgress progress;
  const Sampling counted = progress.counting(sampling);
  Plan plan = [&] {
    try {
      return make_plan(recipe, tables, counted);
    } catch (const InputError& error) {
      const RecipeDocument document(recipe_text, options.recipe);
      throw document.located(error, reader_beside(options.recipe));
    }
  }();
  add_ways_out(plan, tables, counted);
  return {std::move(tables), std::move(plan)};
}

int refuse_output(const Plan& plan) {
  say(plan_head(plan, Look{}));
  return refused;
}

}  // namespace firstdrop::cli
