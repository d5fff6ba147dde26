#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "cli/asked_plan.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "firstdrop/error.hpp"
#include "firstdrop/sheet.hpp"
#include "visible_text.hpp"

namespace firstdrop::cli {
namespace {

constexpr std::array<std::pair<std::string_view, SheetFormat>, 3> formats = {
    {{"txt", SheetFormat::text}, {"md", SheetFormat::markdown}, {"html", SheetFormat::html}}};

// The format asked for, else that of the file's name, else plain text.
SheetFormat format_of(const SheetOptions& options, bool to_file) {
  const std::size_t point = options.output.rfind('.');
  std::string name = options.format;
  if (name.empty() && !to_file) name = "txt";
  if (name.empty() && point != std::string::npos) name = options.output.substr(point + 1);
  const auto found = std::find_if(formats.begin(), formats.end(),
                                  [&](const auto& format) { return format.first == name; });
  if (found == formats.end()) {
    throw InputError(Fault{"", "", firstdrop::quoted(options.output) + " for --output",
                           "a name that ends in .html, .md or .txt",
                           "--format says what another name shall hold", 0, 0});
  }
  return found->second;
}

}  // namespace

int sheet(const SheetOptions& options) {
  const bool to_file = !to_standard_output(options.output, options.asked.recipe);
  const SheetFormat format = format_of(options, to_file);
  const Plan plan = plan_asked_for(options.asked).plan;
  if (plan.verdict == Verdict::refused) return refuse_output(plan);
  write_result(run_sheet(plan, format), options.output);
  return done;
}

}  // namespace firstdrop::cli
