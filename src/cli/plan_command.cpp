#include <fmt/format.h>

#include <charconv>
#include <chrono>
#include <cstdlib>

#include "cli/commands.hpp"
#include "cli/explain_page.hpp"
#include "cli/files.hpp"
#include "cli/plan_page.hpp"
#include "cli/terminal.hpp"
#include "firstdrop/calendar.hpp"
#include "firstdrop/clock_time.hpp"
#include "firstdrop/error.hpp"
#include "firstdrop/explain.hpp"
#include "firstdrop/library_json.hpp"
#include "firstdrop/plan.hpp"
#include "firstdrop/report.hpp"
#include "visible_text.hpp"

namespace firstdrop::cli {
namespace {

// The whole text, without sign or blanks.
template <class T = int>
T whole_number(const std::string& text, const char* option, T low, T high) {
  T number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size() || number < low || number > high) {
    throw InputError(Fault{"", "", fmt::format("{} for {}", firstdrop::quoted(text), option),
                           fmt::format("a whole number from {} to {}", low, high), "", 0, 0});
  }
  return number;
}

Sampling sampling_of(const PlanOptions& options) {
  return {options.samples.empty() ? default_samples
                                  : whole_number(options.samples, "--samples", 16, 1'000'000),
          whole_number(options.jobs, "--jobs", 1, 64)};
}

// When the file is made: the system's clock, or what SOURCE_DATE_EPOCH says, for builds that shall
// give the same bytes again (https://reproducible-builds.org/specs/source-date-epoch).
std::chrono::sys_seconds made_at() {
  const char* epoch = std::getenv("SOURCE_DATE_EPOCH");
  if (epoch == nullptr) {
    return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  }
  constexpr long long end_of_9999 = 253402300799;
  return std::chrono::sys_seconds(
      std::chrono::seconds(whole_number<long long>(epoch, "SOURCE_DATE_EPOCH", 0, end_of_9999)));
}

}  // namespace

int plan(const PlanOptions& options) {
  // A file gets no colour, whatever is wished for the terminal.
  const Look look =
      to_standard_output(options.output, options.recipe) ? look_of_stdout(options.color) : Look{};
  const Sampling sampling = sampling_of(options);
  const std::string recipe_text = read_text_file(options.recipe);
  const LibraryTexts texts = embedded_library_texts();
  const auto recipe_from = [&](const Library& library) {
    return read_recipe(recipe_text, options.recipe, library, reader_beside(options.recipe));
  };
  // One recipe needs one plant and one still; only an explanation names sources in full.
  const Library library =
      options.explain ? read_library(texts) : read_library(texts, named_in_recipe(recipe_text));
  Recipe recipe;
  try {
    recipe = recipe_from(library);
  } catch (const InputError&) {
    recipe_from(read_library(texts));  // says which names there are
    throw;
  }
  if (!options.units.empty()) recipe.units = options.units == "us" ? Units::us : Units::metric;
  if (options.start) {
    if (!parse_local_minute(*options.start)) {
      throw InputError(Fault{"", "", firstdrop::quoted(*options.start) + " for --start",
                             local_minute_form, "", 0, 0});
    }
    recipe.start = *options.start;
  }
  const auto start = parse_local_minute(recipe.start);
  if (options.ics && !start) {
    throw InputError(Fault{options.recipe, "/start", "nothing", local_minute_form,
                           "a calendar needs the time of heat on; --start gives it too", 0, 0});
  }
  const Plan plan = make_plan(recipe, library, sampling);
  std::string result;
  if (options.csv || options.ics) {
    // Nobody shall work from a refused plan, and a file of it would not say so.
    if (plan.verdict == Verdict::refused) {
      say(plan_head(plan, Look{}));
      return refused;
    }
    result = options.csv ? timeline_csv(plan) : run_calendar(plan, *start, made_at());
  } else if (options.explain) {
    const std::vector<Chapter> chapters = explain(plan, library);
    result = options.json ? plan_json(plan, chapters) + "\n"
                          : explain_page(plan, chapters, library, look);
  } else {
    result = options.json ? plan_json(plan) + "\n" : plan_page(plan, look);
  }
  write_result(result, options.output);
  return plan.verdict == Verdict::refused ? refused : done;
}

}  // namespace firstdrop::cli
