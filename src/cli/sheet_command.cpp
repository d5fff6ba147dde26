#include "cli/asked_plan.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/output_format.hpp"
#include "firstdrop/output/write.hpp"

namespace firstdrop::cli {

int sheet(const SheetOptions& options, const TableFolder& folder) {
  FormatChoice choice{sheet_formats};
  if (!options.format.empty())
    choice.leave({format_named(options.format)}, "with --format " + options.format);
  const SheetFormat format = sheet_format(output_format(options.output, choice));
  const Plan plan = plan_asked_for(options.asked, folder).plan;
  if (plan.verdict == Verdict::refused) return refuse_output(plan);
  write_result(run_sheet(plan, format), options.output);
  return done;
}

}  // namespace firstdrop::cli
