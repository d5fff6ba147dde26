#include "cli/asked_plan.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/made_at.hpp"
#include "cli/output_format.hpp"
#include "cli/pages/explain_page.hpp"
#include "cli/pages/plan_page.hpp"
#include "cli/terminal.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/write.hpp"
#include "output/explain.hpp"
#include "quantity/clock_time.hpp"

namespace firstdrop::cli {
namespace {

OutputFormat format_of(const PlanOptions& options) {
  FormatChoice choice{plan_formats};
  if (options.json)
    choice.leave({OutputFormat::json}, "with --json");
  else if (options.csv)
    choice.leave({OutputFormat::csv}, "with --csv");
  else if (options.ics)
    choice.leave({OutputFormat::calendar}, "with --ics");
  else if (options.explain)
    choice.leave({OutputFormat::text, OutputFormat::json}, "with --explain");
  return output_format(options.output, choice);
}

std::string calendar_of(const Plan& plan, const std::string& file) {
  const auto start = parse_local_minute(plan.recipe.start);
  if (!start) {
    throw InputError(
        Fault{file, "/start", "nothing", local_minute_form,
              "a calendar needs the start of heating; you can also give it with --start", 0, 0});
  }
  return run_calendar(plan, *start, made_at());
}

}  // namespace

int plan(const PlanOptions& options, const TableFolder& folder) {
  // A file gets no colour, whatever --color says.
  const Look look = to_standard_output(options.output, options.asked.recipe)
                        ? look_of_stdout(options.color)
                        : Look{};
  const OutputFormat format = format_of(options);
  const auto [tables, plan] = plan_asked_for(options.asked, folder, options.explain);
  const bool is_refused = plan.verdict == Verdict::refused;
  const bool as_json = format == OutputFormat::json;
  std::string result;
  if (format == OutputFormat::csv || format == OutputFormat::calendar) {
    if (is_refused) return refuse_output(plan);
    result =
        format == OutputFormat::csv ? timeline_csv(plan) : calendar_of(plan, options.asked.recipe);
  } else if (options.explain) {
    const std::vector<Chapter> chapters = explain(plan, tables);
    result =
        as_json ? plan_json(plan, chapters) + "\n" : explain_page(plan, chapters, tables, look);
  } else {
    result = as_json ? plan_json(plan) + "\n" : plan_page(plan, look);
  }
  write_result(result, options.output);
  return is_refused ? refused : done;
}

}  // namespace firstdrop::cli
