#include <fmt/format.h>

#include <charconv>

#include "cli/commands.hpp"
#include "cli/explain_page.hpp"
#include "cli/files.hpp"
#include "cli/plan_page.hpp"
#include "cli/terminal.hpp"
#include "firstdrop/error.hpp"
#include "firstdrop/explain.hpp"
#include "firstdrop/library_json.hpp"
#include "firstdrop/plan.hpp"
#include "firstdrop/report.hpp"
#include "visible_text.hpp"

namespace firstdrop::cli {
namespace {

// The whole text, without sign or blanks.
int whole_number(const std::string& text, const char* option, int low, int high) {
  int number = 0;
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
  const Plan plan = make_plan(recipe, library, sampling);
  std::string result;
  if (options.explain) {
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
