/// @file
/// Many recipes in, one line each out, in order, by as many threads as one likes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "batch/batch_summary.hpp"
#include "firstdrop/quantity/units.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "firstdrop/tables/tables.hpp"
#include "model/sampling.hpp"
#include "readers/recipe_grid.hpp"

namespace firstdrop {

/// Recipes as text, to be read piece by piece: one JSON object, several one after the other, JSON
/// Lines (https://jsonlines.org), or lists of objects.
struct BatchInput {
  std::string file;  ///< as the person named it
  /// Puts up to `most` bytes there and says how many; none at the end.
  std::function<std::size_t(char* there, std::size_t most)> read;
  /// Whether read() would come back at once. While it would not, nothing that has been read is held
  /// back. May be empty: it always would.
  std::function<bool()> ready;
  FileReader beside;  ///< reads what its recipes name; called from several threads at once
};

/// What a batch writes of each plan.
enum class BatchLines {
  full,   ///< each plan as plan_json() has it
  brief,  ///< as append_brief() has it
  none,   ///< only summed up
};

/// What is wanted of a batch.
struct BatchOrder {
  RecipeGrid grid;                       ///< every recipe is planned at each of its points
  BatchLines lines = BatchLines::full;  ///< what is written
  bool summary = false;                  ///< whether all is summed up, too
  int samples = default_samples;         ///< of each plan, 0 or more; see Sampling
  std::optional<Units> units;            ///< in place of the recipes' own
  int jobs = 1;  ///< threads that plan, 1 or more; changes no byte of what comes out
};

/// How far a batch is.
struct BatchCounts {
  std::int64_t recipes = 0;  ///< read
  std::int64_t planned = 0;  ///< with each point of the grid
  std::int64_t refused = 0;  ///< of those planned
  std::int64_t broken = 0;   ///< error lines
};

/// The outside, as the batch sees it.
struct BatchEdge {
  /// The next input, or none. Throws InputError for one that cannot be read: that becomes an error
  /// line, and the next is asked for.
  std::function<std::optional<BatchInput>()> next_input;
  /// Takes whole lines, in order; called from one other thread. What it throws ends the batch.
  std::function<void(std::string_view lines)> write;
  /// Called after each write, from the same thread. May be empty.
  std::function<void(const BatchCounts&)> progress;
  /// Whether to come to an end; called from all threads. Plans that are being made are still
  /// written, up to the first that is not. May be empty.
  std::function<bool()> stop;
};

/// A grid of so many points at most is summed up point by point, too.
inline constexpr std::uint64_t most_variants = 1000;

/// What a batch came to.
struct BatchResult {
  BatchCounts counts;    ///< in all
  BatchSummary summary;  ///< if asked for
  /// The same of each point of a grid that varies, if it has no more than most_variants. A text
  /// that is no JSON is in none of them.
  std::vector<BatchSummary> variants;
  bool stopped = false;  ///< it came to an end before its time, since BatchEdge::stop said so
};

/// The summary as JSON, format version 1, on one line: numbers in keys that end in their unit,
/// ranges as p10/p50/p90. Of a grid that varies, the points are alternatives: each of "variants"
/// has sums of its own, and there are none over all of them. `grid` is that of the order.
std::string batch_summary_json(const BatchResult& result, const RecipeGrid& grid);

/// Plans all recipes of all inputs in constant memory. Each becomes a line:
///
/// - a plan as JSON, and before it, where the grid varies, {"set": {"charge": "200 g"}, …}: the
///   values of this point, null for a key that is left out;
/// - or {"error": 1, "file": …, "line": …, "reason": …, "faults": […]} where there is none: the
///   line is that in which the recipe begins, or, with a "column", that of the fault in its JSON.
///
/// Nothing in a plan's line says where the recipe stood, so that a batch in several parts gives the
/// same lines. A text that is no JSON gives one error line, however many points the grid has.
///
/// `tables` are the texts of the library, into which values of the grid may reach (see
/// RecipeDocument::read()); they, the library and the edge must stay until it returns.
/// Throws what the edge throws, and std::bad_alloc; what is wrong with a recipe becomes its line.
BatchResult plan_batch(const BatchOrder& order, const Tables& tables, const TableTexts& texts,
                       const BatchEdge& edge);

}  // namespace firstdrop
