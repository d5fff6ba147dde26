#include <limits>
#include <vector>

#include "campaign/campaign.hpp"
#include "campaign/campaign_calendar.hpp"
#include "campaign/campaign_json.hpp"
#include "campaign/campaign_print.hpp"
#include "campaign/campaign_report.hpp"
#include "cli/asked_plan.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/made_at.hpp"
#include "cli/output_format.hpp"
#include "cli/pages/campaign_page.hpp"
#include "cli/progress.hpp"
#include "cli/terminal.hpp"
#include "cli/units_option.hpp"
#include "cli/whole_number.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/write.hpp"
#include "readers/recipe_document.hpp"

namespace firstdrop::cli {
namespace {

CampaignPlan planned(const CampaignOptions& options, const TableFolder& folder) {
  const Sampling sampling = sampling_of(options.samples, options.jobs);
  const std::string text = read_text_file(options.campaign);
  const Tables tables = folder.tables();
  Campaign campaign =
      read_campaign(text, options.campaign, tables, reader_beside(options.campaign));
  if (!options.units.empty()) campaign.units = units_named(options.units);
  SamplingProgress progress;
  try {
    return plan_campaign(campaign, tables, progress.counting(sampling));
  } catch (const InputError& error) {
    const FileReader read_file = reader_beside(options.campaign);
    const InputError located = RecipeDocument(text, options.campaign).located(error, read_file);
    std::vector<Fault> faults;
    for (Fault fault : located.faults()) {
      // A recipe in a file of its own.
      if (fault.line == 0 && fault.file != options.campaign) {
        const RecipeDocument recipe(read_file(fault.file), fault.file);
        fault.file.clear();
        fault = recipe.located(InputError(fault), read_file).faults().front();
      }
      faults.push_back(std::move(fault));
    }
    throw InputError(std::move(faults));
  }
}

OutputFormat format_of(const CampaignOptions& options) {
  FormatChoice choice{campaign_formats};
  if (options.json)
    choice.leave({OutputFormat::json}, "with --json");
  else if (options.ics)
    choice.leave({OutputFormat::calendar}, "with --ics");
  else if (!options.format.empty())
    choice.leave({format_named(options.format)}, "with --format " + options.format);
  else if (!options.run.empty())
    choice.leave({sheet_formats.begin(), sheet_formats.end()}, "with --run");
  return output_format(options.output, choice);
}

std::string page_of(const CampaignPlan& plan, SheetFormat format, const Look& look) {
  switch (format) {
    case SheetFormat::html:
      return campaign_html(plan);
    case SheetFormat::markdown:
      return campaign_markdown(plan);
    case SheetFormat::text:
      break;
  }
  return campaign_page(plan, look);
}

}  // namespace

int campaign(const CampaignOptions& options, const TableFolder& folder) {
  const bool to_file = !to_standard_output(options.output, options.campaign);
  const OutputFormat format = format_of(options);
  const CampaignPlan plan = planned(options, folder);
  const int status = plan.may_be_run() ? done : refused;
  if (!options.run.empty()) {
    const int number = whole_number(options.run, "--run", 1, std::numeric_limits<int>::max());
    write_result(run_sheet(run_of_campaign(plan, number), sheet_format(format)), options.output);
    return done;
  }
  if (format == OutputFormat::calendar && status == refused) {
    say(campaign_head(plan, Look{}));
    return refused;
  }
  std::string result;
  if (format == OutputFormat::json) {
    result = campaign_json(plan) + "\n";
  } else if (format == OutputFormat::calendar) {
    result = campaign_calendar(plan, made_at());
  } else {
    result = page_of(plan, sheet_format(format), to_file ? Look{} : look_of_stdout(options.color));
  }
  write_result(result, options.output);
  return status;
}

}  // namespace firstdrop::cli
