#include <fmt/core.h>
#include <unistd.h>

#include <algorithm>
#include <utility>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/key_option.hpp"
#include "cli/new_file.hpp"
#include "cli/output_format.hpp"
#include "cli/questions.hpp"
#include "cli/still_interview.hpp"
#include "cli/terminal.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/model/still_doubt.hpp"
#include "firstdrop/output/still_words.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "readers/documents.hpp"

namespace firstdrop::cli {
namespace {

/// The faults, with those of a missing part as faults of the keys that it needs: a part has no
/// option, but its keys have.
InputError by_needed_keys(const InputError& error, const Tables& tables) {
  std::vector<std::string> materials;
  for (const auto& entry : tables.materials) materials.push_back(entry.first);
  std::vector<Fault> faults;
  for (const Fault& fault : error.faults()) {
    const std::string part = fault.pointer.empty() ? "" : fault.pointer.substr(1);
    const bool is_part = part == "pot" || part == "heater" || part == "condenser";
    if (!is_part) {
      faults.push_back(fault);
      if (part == "pot/material" && fault.is_about_key())
        faults.back().wanted = in_a_row(materials, "or");
      continue;
    }
    for (const Key& key : still_key(part).keys) {
      if (key.need != Need::always) continue;
      faults.push_back(fault);
      faults.back().pointer += '/' + key.name;
      faults.back().wanted = wanted_for(key);
    }
  }
  return InputError(std::move(faults));
}

/// The still. Throws InputError with options in place of JSON pointers.
Still read(const std::string& text, const Tables& tables) {
  try {
    return read_still(text, "", tables);
  } catch (const InputError& error) {
    throw by_options(by_needed_keys(error, tables), option_of_still_key);
  }
}

Units units_of(const Starter& starter) {
  return value_in(starter, "units") == to_string(Units::us) ? Units::us : Units::metric;
}

/// What the person should know of the still that they have described.
std::string remarks_on(const Still& still, const Tables& tables, Units units) {
  const Look look = look_of_stdout("never");
  std::string page;
  for (const StillDoubt& doubt : doubts_about(still, tables))
    page += wrapped("? ", doubt_text(doubt, units) + " Is that right?", look);
  const std::vector<DefaultFigure> defaults = default_figures(still);
  if (!defaults.empty()) page += "Not measured, so these defaults are used:\n";
  for (const DefaultFigure& figure : defaults)
    page += wrapped("- ", default_text(figure, units), look);
  return page;
}

}  // namespace

int new_still(const NewOptions& options, const TableFolder& folder) {
  const FormatChoice formats{recipe_formats};
  if (auto fault = obstacle(options.output, options.force, formats))
    throw InputError(std::move(*fault));
  if (auto fault = fault_of_still_file(options.output)) throw InputError(std::move(*fault));
  const Tables tables = folder.tables();
  Starter still = options.still;
  if (const auto title = value_in(options.starter, "title")) still["title"] = title;
  const auto given = [&](const char* path) { return value_in(still, path).has_value(); };
  std::string output = options.output;
  const bool asks = !(given("pot.volume") && given("heater.kind") && given("condenser.kind")) &&
                    somebody_answers();
  if (asks) {
    still = still_interviewed(std::move(still), tables, units_of(options.starter));
    if (output == standard_output && isatty(STDOUT_FILENO) == 1)
      output = ask_new_file("Write the still to which file, or - for none", "my-still",
                            options.force, formats, [](const std::string& path) {
                              const auto fault = fault_of_still_file(path);
                              return fault ? fault->text() + "\n" : "";
                            });
    say("\n");
  }
  const std::string text = starter_still(still);
  const Still described = read(text, tables);
  write_result(text, output);
  say(remarks_on(described, tables, units_of(options.starter)));
  if (!to_standard_output(output))
    say(
        fmt::format("firstdrop: wrote {}. Next, plan a batch, which finds a setting that works:\n"
                    "  firstdrop new --still {} -o first.json\n"
                    "Then, with water and no herb at that setting:\n"
                    "  firstdrop water-run first.json\n",
                    visible(output), visible(output)));
  return done;
}

}  // namespace firstdrop::cli
