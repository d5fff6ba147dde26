// From what stands on the command line to a plan.
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

/// What --samples and --jobs say; no samples: the default. Throws InputError.
Sampling sampling_of(const std::string& samples, const std::string& jobs);

/// `with_sources` reads the whole library; without it the library has what the recipe needs.
AskedPlan plan_asked_for(const RecipeOptions& options, const TableFolder& folder,
                         bool with_sources = false);

/// Says why on standard error, and gives the exit status. Nobody shall work from a refused plan, so
/// no file is made of it.
int refuse_output(const Plan& plan);

}  // namespace firstdrop::cli
