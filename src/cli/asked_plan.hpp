// From the command line to a plan.
#pragma once

#include <string>

#include "cli/commands.hpp"
#include "firstdrop/plan/plan.hpp"
#include "firstdrop/tables/tables.hpp"
#include "model/sampling.hpp"

namespace firstdrop::cli {

struct AskedPlan {
  Tables tables;
  Plan plan;
};

/// The sampling that --samples and --jobs ask for; empty `samples` means the default. Throws
/// InputError.
Sampling sampling_of(const std::string& samples, const std::string& jobs);

/// Reads and plans the recipe. `with_sources` reads all tables in full; otherwise they hold only
/// what the recipe needs.
AskedPlan plan_asked_for(const RecipeOptions& options, const TableFolder& folder,
                         bool with_sources = false);

/// Prints the reasons for a refusal to standard error and returns the exit status. For outputs that
/// a refused plan doesn't have, because nobody may work from it.
int refuse_output(const Plan& plan);

}  // namespace firstdrop::cli
