#include <fmt/core.h>
#include <unistd.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "base/visible_text.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/key_option.hpp"
#include "cli/new_file.hpp"
#include "cli/output_format.hpp"
#include "cli/pages/plan_page.hpp"
#include "cli/questions.hpp"
#include "cli/recipe_draft.hpp"
#include "cli/recipe_interview.hpp"
#include "cli/terminal.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/plan/planner.hpp"

namespace firstdrop::cli {
namespace {

// After this many changes a recipe that is still refused needs more thought.
constexpr int most_changes = 3;

/// The option that gives the value of a recipe's key.
std::string option_for(const std::string& path) {
  if (path.starts_with("plant.") || path.starts_with("plants")) return "--plant";
  return path == "goal" ? "--hydrosol, --ratio, --oil, --oil-share, --time" : option_of_key(path);
}

/// The faults of what was asked for, with options in place of JSON pointers.
InputError in_options(const InputError& error) {
  std::vector<Fault> faults = by_options(error, option_for).faults();
  for (Fault& fault : faults) {
    if (fault.pointer == "--plant" && fault.hint.empty())
      fault.hint =
          "to list them, run `firstdrop plants`; one that isn't there: \"apple mint like "
          "spearmint\"; several: \"60 % lavender, 40 % rosemary\"";
    if (fault.pointer == "--still" && fault.hint.empty())
      fault.hint = "to list them, run `firstdrop stills`";
  }
  return InputError(std::move(faults));
}

/// A draft with nothing left to spell out, and its plan.
struct PlannedDraft {
  RecipeDraft draft;
  Plan plan;
};

PlannedDraft planned(const RecipeDraft& asked, const Tables& tables) {
  try {
    RecipeDraft draft = completed(asked, tables);
    Plan plan = make_plan(read_draft(draft, tables), tables);
    return {std::move(draft), std::move(plan)};
  } catch (const InputError& error) {
    throw in_options(error);
  }
}

/// Reports what is wrong with the options before anything is asked. What is missing can be asked
/// for.
void check_given(const RecipeDraft& given, const Tables& tables) {
  try {
    read_draft(given, tables);
  } catch (const InputError& error) {
    std::vector<Fault> faults = error.faults();
    std::erase_if(faults, [](const Fault& fault) { return fault.is_about_key(); });
    if (!faults.empty()) throw in_options(InputError(std::move(faults)));
  }
}

RecipeDraft asked_for_rest(RecipeDraft draft, const Tables& tables) {
  try {
    return interviewed(std::move(draft), tables);
  } catch (const InputError& error) {
    throw in_options(error);
  }
}

/// Asks for everything that the draft lacks, and for a way out of a refusal.
PlannedDraft asked_and_planned(RecipeDraft draft, bool force, const Tables& tables) {
  check_given(draft, tables);
  PlannedDraft now = planned(asked_for_rest(std::move(draft), tables), tables);
  for (int i = 0; i < most_changes && now.plan.verdict == Verdict::refused; ++i) {
    const auto changed = asked_for_way_out(now.draft, now.plan, tables);
    if (!changed) break;
    now = planned(*changed, tables);
  }
  now.draft = with_file(std::move(now.draft), force, tables);
  say("\n");
  return now;
}

// Shows the first plan. A terminal gets only the short answer, because a full page would scroll
// away.
void show(const Plan& plan, const std::string& output) {
  if (!to_standard_output(output)) {
    const Look look = look_of_stdout("auto");
    write_result(isatty(STDOUT_FILENO) == 1 ? plan_answer(plan, look) : plan_page(plan, look));
    say(fmt::format("firstdrop: wrote {}. Change it as you like, then:\n  firstdrop plan {}\n",
                    visible(output), visible(output)));
  } else if (isatty(STDERR_FILENO) == 1) {
    say(plan_answer(plan, Look{}));
  } else if (plan.verdict == Verdict::refused) {
    say(plan_head(plan, Look{}));
  }
}

}  // namespace

int new_document(const NewOptions& options, const TableFolder& folder) {
  return options.what == "still" ? new_still(options, folder) : new_recipe(options, folder);
}

int new_recipe(const NewOptions& options, const TableFolder& folder) {
  if (auto fault = obstacle(options.output, options.force, FormatChoice{recipe_formats}))
    throw InputError(std::move(*fault));
  const Tables tables = folder.tables();
  const RecipeDraft given{options.starter, options.output};
  const bool is_enough = given.value("plant") && given.value("still");
  auto [draft, plan] = !is_enough && somebody_answers()
                           ? asked_and_planned(given, options.force, tables)
                           : planned(given, tables);
  add_ways_out(plan, tables);
  write_result(starter_recipe(draft.starter), draft.output);
  show(plan, draft.output);
  return plan.verdict == Verdict::refused ? refused : done;
}

}  // namespace firstdrop::cli
