#include <fmt/core.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <memory>

#include "base/visible_text.hpp"
#include "batch/batch.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/interruption.hpp"
#include "cli/output_format.hpp"
#include "cli/pages/summary_page.hpp"
#include "cli/progress.hpp"
#include "cli/terminal.hpp"
#include "cli/units_option.hpp"
#include "cli/whole_number.hpp"
#include "readers/recipe_document.hpp"

namespace firstdrop::cli {
namespace {

// Shows progress on the terminal. It stays silent if the plans are written to the same terminal,
// and for the first half second, because a short batch needs no progress line.
class Progress {
 public:
  explicit Progress(bool lines_on_terminal) : line_(!lines_on_terminal) {}

  void show(const BatchCounts& counts) {
    if (!line_.wanted()) return;
    const auto now = Clock::now();
    if (now - last_ < std::chrono::milliseconds(200)) return;
    last_ = now;
    const double seconds = std::chrono::duration<double>(now - begin_).count();
    if (seconds < 0.5) return;
    const std::int64_t done = counts.planned + counts.broken;
    line_.show(fmt::format("{} planned, {:.0f} per second, {} refused, {} broken", counts.planned,
                           static_cast<double>(done) / seconds, counts.refused, counts.broken));
  }
  void clear() { line_.clear(); }

 private:
  using Clock = std::chrono::steady_clock;

  ProgressLine line_;
  Clock::time_point begin_ = Clock::now();
  Clock::time_point last_ = begin_;
};

// Reports a key or value that no recipe can have once, before anything is planned. Checks only the
// first 1000 values of each axis, and the last.
void check_grid(const RecipeGrid& grid, const Tables& tables) {
  constexpr std::uint64_t most = 1000;
  for (const Override& value : grid.set()) check_override(value, tables);
  for (const Axis& axis : grid.axes()) {
    for (std::uint64_t i = 0; i < std::min(axis.size(), most); ++i) check_override(axis[i], tables);
    check_override(axis[axis.size() - 1], tables);
  }
}

OutputFormat format_of(const BatchOptions& options) {
  FormatChoice choice{batch_formats};
  if (!options.summary)
    choice.leave({OutputFormat::json_lines}, "without --summary");
  else if (options.json)
    choice.leave({OutputFormat::json}, "with --json");
  else
    choice.leave({OutputFormat::text, OutputFormat::json}, "with --summary");
  return output_format(options.output, choice);
}

BatchOrder order_of(const BatchOptions& options) {
  BatchOrder order;
  order.grid = RecipeGrid(options.set, options.vary);
  order.summary = options.summary;
  if (options.summary)
    order.lines = BatchLines::none;
  else if (options.brief)
    order.lines = BatchLines::brief;
  if (options.brief) order.samples = 0;
  order.jobs = whole_number(options.jobs, "--jobs", 1, 64);
  if (!options.samples.empty())
    order.samples = whole_number(options.samples, "--samples", 16, 1'000'000);
  if (!options.units.empty()) order.units = units_named(options.units);
  return order;
}

int status_of(const BatchCounts& counts) {
  if (counts.broken > 0) return bad_input;
  return counts.refused > 0 ? refused : done;
}

BatchInput opened(const std::string& file) {
  const auto input = std::make_shared<InputFile>(file, Interruption::wake_file());
  return {file, [input](char* there, std::size_t most) { return input->read(there, most); },
          [input] { return input->ready(); }, reader_beside(file)};
}

std::string summary_of(const BatchResult& result, const RecipeGrid& grid,
                       const BatchOptions& options, OutputFormat format, bool to_stdout) {
  if (format == OutputFormat::json) return batch_summary_json(result, grid) + "\n";
  const Units units = units_named(options.units);
  return summary_page(result, grid, units, to_stdout ? look_of_stdout("auto") : Look{});
}

// Returns the exit status, or nothing if the batch was stopped.
std::optional<int> plan_all(const BatchOptions& options, const TableFolder& folder) {
  bool to_stdout = true;
  for (const std::string& file : options.files)
    to_stdout = to_standard_output(options.output, file);
  const OutputFormat format = format_of(options);
  const BatchOrder order = order_of(options);
  const Tables tables = folder.tables();
  check_grid(order.grid, tables);

  const Interruption interruption;
  ResultFile result_file(options.output);
  Interruption::remove_at_end(result_file.beside());
  Progress progress(to_stdout && !options.summary && isatty(STDOUT_FILENO) == 1);

  BatchEdge edge;
  edge.next_input = [&, at = options.files.begin()]() mutable -> std::optional<BatchInput> {
    if (at == options.files.end()) return std::nullopt;
    return opened(*at++);
  };
  edge.write = [&](std::string_view lines) {
    try {
      result_file.write(lines);
    } catch (...) {
      Interruption::wake();  // so that reading stops waiting for more input
      throw;
    }
  };
  edge.progress = [&](const BatchCounts& counts) { progress.show(counts); };
  edge.stop = Interruption::asked;

  const BatchResult result = plan_batch(order, tables, folder.texts(), edge);
  progress.clear();
  if (result.stopped) {
    const std::string file =
        to_stdout ? "" : fmt::format("; {} is as it was before", visible(options.output));
    say(fmt::format("firstdrop: stopped after {} plans{}\n", result.counts.planned, file));
    return std::nullopt;
  }
  if (options.summary)
    result_file.write(summary_of(result, order.grid, options, format, to_stdout));
  result_file.keep();
  return status_of(result.counts);
}

}  // namespace

int batch(const BatchOptions& options, const TableFolder& folder) {
  const std::optional<int> status = plan_all(options, folder);
  if (!status) Interruption::end_program();
  return *status;
}

}  // namespace firstdrop::cli
