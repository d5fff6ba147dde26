#include "cli/asked_plan.hpp"

#include <fmt/core.h>

#include <utility>

#include "cli/files.hpp"
#include "cli/made_at.hpp"
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

// What is wrong with a start on the command line.
Fault start_fault(const std::string& text) {
  Fault fault = local_minute_fault(text);
  const bool of_named_day = text.starts_with("today") || text.starts_with("tomorrow");
  const bool time_alone = parse_time_of_day(text).has_value();
  if (of_named_day) fault.hint.clear();
  if (of_named_day) fault.wanted = "the time after the day, such as \"tomorrow 9:30\"";
  if (time_alone) fault.wanted = fmt::format("\"today {0}\" or \"tomorrow {0}\"", text);
  return fault;
}

// Applies the options of the command line that override the recipe.
void override_recipe(Recipe& recipe, const RecipeOptions& options) {
  if (!options.units.empty()) recipe.units = units_named(options.units);
  if (!options.start) return;
  const auto start = parse_local_minute(*options.start, today());
  if (!start) {
    Fault fault = start_fault(*options.start);
    fault.found += " for --start";
    throw InputError(std::move(fault));
  }
  recipe.start = local_minute_text(*start);
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
