#include "cli/asked_plan.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/sheet_format.hpp"
#include "firstdrop/sheet.hpp"

namespace firstdrop::cli {
int sheet(const SheetOptions& options, const Tables& tables) {
  const bool to_file = !to_standard_output(options.output, options.asked.recipe);
  const SheetFormat format = sheet_format(options.format, options.output, to_file);
  const Plan plan = plan_asked_for(options.asked, tables).plan;
  if (plan.verdict == Verdict::refused) return refuse_output(plan);
  write_result(run_sheet(plan, format), options.output);
  return done;
}

}  // namespace firstdrop::cli
