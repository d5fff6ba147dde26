#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/plan_page.hpp"
#include "cli/terminal.hpp"
#include "firstdrop/library_json.hpp"
#include "firstdrop/plan.hpp"
#include "firstdrop/report.hpp"

namespace firstdrop::cli {

int plan(const PlanOptions& options) {
  const std::string recipe_text = read_text_file(options.recipe);
  const Library library = read_library(embedded_library_texts());
  const Recipe recipe =
      read_recipe(recipe_text, options.recipe, library, reader_beside(options.recipe));
  const Plan plan = make_plan(recipe, library);
  write_result(options.json ? plan_json(plan) + "\n"
                            : plan_page(plan, look_of_stdout(options.color)));
  return plan.verdict == Verdict::refused ? refused : done;
}

}  // namespace firstdrop::cli
