/// @file
/// Plans many recipes in several threads and writes one line for each, in their order.
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

/// Recipes as text, to be read piece by piece. The text is JSON Lines (https://jsonlines.org), one
/// list of JSON objects, or one JSON object.
struct BatchInput {
  std::string file;  ///< as the person named it
  /// Puts up to `most` bytes into `there` and returns how many: 0 at the end, or when the batch is
  /// stopped.
  std::function<std::size_t(char* there, std::size_t most)> read;
  /// Whether read() would return at once. If it would wait, all complete recipes read so far are
  /// handed to the workers first. May be empty, which means that read() never waits.
  std::function<bool()> ready;
  FileReader beside;  ///< reads files that its recipes name; called from several threads at once
};

/// What a batch writes of each plan.
enum class BatchLines {
  full,   ///< the JSON of plan_json_line()
  brief,  ///< the JSON of append_brief()
  none,   ///< nothing; plans only count in the summary
};

/// Options of a batch.
struct BatchOrder {
  RecipeGrid grid;                      ///< every recipe is planned at each grid point
  BatchLines lines = BatchLines::full;  ///< what is written of each plan
  bool summary = false;                 ///< whether to make a summary
  int samples = default_samples;        ///< for each plan, 0 or more; see Sampling
  std::optional<Units> units;           ///< override each recipe's own, if set
  int jobs = 1;  ///< threads that plan, 1 or more; the output is the same for any number
};

/// Counts of what a batch has done so far.
struct BatchCounts {
  std::int64_t recipes = 0;  ///< read, including broken ones
  std::int64_t planned = 0;  ///< plans made; a recipe has one for each grid point
  std::int64_t refused = 0;  ///< planned, with the verdict "refused"
  std::int64_t broken = 0;   ///< errors; a recipe can have one at each grid point
};

/// Functions that connect a batch to its inputs, its output and whoever may stop it.
struct BatchEdge {
  /// Returns the next input, or nothing after the last. Throws InputError for an input that can't
  /// be read. That becomes an error line, and the batch goes on with the next input.
  std::function<std::optional<BatchInput>()> next_input;
  /// Takes one or more complete lines, in order. Always called from the same thread, which isn't
  /// the caller's. An exception from it ends the batch.
  std::function<void(std::string_view lines)> write;
  /// Called after each write, from the same thread. May be empty.
  std::function<void(const BatchCounts&)> progress;
  /// Whether to stop the batch. Called from several threads at once. Plans in progress are
  /// finished. Lines are still written up to the first plan that was not made. May be empty.
  std::function<bool()> stop;
};

/// The most grid points for which a batch has a summary of each point.
inline constexpr std::uint64_t most_variants = 1000;

/// The result of a batch.
struct BatchResult {
  BatchCounts counts;    ///< for the whole batch
  BatchSummary summary;  ///< of all plans, if BatchOrder::summary asks for it
  /// One summary for each grid point, if the grid varies and has at most most_variants points. Text
  /// that can't be read or isn't JSON counts in none of them.
  std::vector<BatchSummary> variants;
  bool stopped = false;  ///< whether BatchEdge::stop ended it early
};

/// The summary as JSON, format version 1, on one line. Keys of numbers end in their unit, and
/// ranges are p10/p50/p90. The points of a grid that varies are alternatives. So each entry of
/// "variants" has its own sums, and there are no sums over all points. `grid` is BatchOrder::grid.
std::string batch_summary_json(const BatchResult& result, const RecipeGrid& grid);

/// Plans all recipes of all inputs, at each point of the grid. Memory doesn't grow with the number
/// of recipes, except that a list or document is held until its end (see RecordReader). Each recipe
/// at each point gives one line:
///
/// - The plan as JSON. If the grid varies, its first key is "set": {"charge": "200 g", …}, with the
///   values of this point. A key that is left out has the value null.
/// - If there is no plan: {"error": 1, "file": …, "line": …, "reason": …, "faults": […]}, with the
///   same "set" first. The line is that in which the recipe begins. If there is a "column", line
///   and column are those of the fault in its JSON.
///
/// A plan's line doesn't say where in the input its recipe was. So a batch that is split into
/// several parts gives the same lines. Text that isn't JSON gives one error line for the whole
/// grid, without "set".
///
/// `texts` are the texts of the tables, in which values of the grid may override keys (see
/// RecipeDocument::read()). All arguments must stay valid until it returns.
/// Throws what the functions of `edge` throw, and std::bad_alloc. Anything wrong with a recipe
/// becomes its error line.
BatchResult plan_batch(const BatchOrder& order, const Tables& tables, const TableTexts& texts,
                       const BatchEdge& edge);

}  // namespace firstdrop
