// Takes any text as a batch. Splits it into records, fed in pieces of several sizes, and plans them
// with overrides. Leading lines that start with % are the overrides: "%charge=100 g" stands for
// --set, and "%%charge=100 g,200 g" for --vary.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "batch/batch.hpp"
#include "firstdrop/base/error.hpp"
#include "json/records.hpp"
#include "plan_checks.hpp"
#include "readers/recipe_document.hpp"

using namespace firstdrop;

namespace {

// More grid points would test nothing new, and would slow down the search.
constexpr std::uint64_t most_points = 6;

std::string records_of(std::string_view text, std::size_t piece) {
  std::string all;
  const auto take = [&](const Record& record) {
    all += std::to_string(record.begin.line) + ':' + std::to_string(record.begin.column) + ' ';
    all += record.text;
    all += record.found;
    all += '\0';
  };
  RecordReader records("batch.json");
  for (std::size_t at = 0; at < text.size(); at += piece) {
    // A separate copy, so that sanitizers detect reads beyond its end.
    const std::vector<char> part(
        text.begin() + static_cast<std::ptrdiff_t>(at),
        text.begin() + static_cast<std::ptrdiff_t>(std::min(at + piece, text.size())));
    records.add({part.data(), part.size()}, take);
  }
  records.finish(take);
  return all;
}

void check_splitting(std::string_view text) {
  const std::string whole = records_of(text, std::max<std::size_t>(text.size(), 1));
  for (const std::size_t piece : {std::size_t{1}, std::size_t{2}, std::size_t{61}})
    if (records_of(text, piece) != whole) fuzz::broken("records that depend on the pieces", text);
}

RecipeGrid grid_of(std::string_view& text) {
  std::vector<std::string> set;
  std::vector<std::string> vary;
  while (text.starts_with('%')) {
    const std::string_view line = text.substr(1, text.find('\n') - 1);
    text.remove_prefix(std::min(line.size() + 2, text.size()));
    if (line.starts_with('%'))
      vary.emplace_back(line.substr(1));
    else
      set.emplace_back(line);
  }
  try {
    RecipeGrid grid(set, vary);
    if (grid.size() > most_points) return {};
    for (const Override& value : grid.point(grid.size() - 1))
      check_override(value, fuzz::shipped_tables());
    return grid;
  } catch (const InputError& error) {
    fuzz::check_message(error.what());
  }
  return {};
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string_view text(reinterpret_cast<const char*>(data), size);
  BatchOrder order;
  order.grid = grid_of(text);
  check_splitting(text);

  order.samples = 4;
  order.summary = true;
  order.lines = size % 2 == 0 ? BatchLines::full : BatchLines::brief;
  std::int64_t lines = 0;
  BatchEdge edge;
  edge.next_input = [&, given = false]() mutable -> std::optional<BatchInput> {
    if (std::exchange(given, true)) return std::nullopt;
    const auto read = [&, at = std::size_t{0}](char* there, std::size_t most) mutable {
      const std::size_t count = text.copy(there, most, at);
      at += count;
      return count;
    };
    return BatchInput{"batch.jsonl", read, nullptr, nullptr};
  };
  edge.write = [&](std::string_view written) {
    while (!written.empty()) {
      const std::size_t end = written.find('\n');
      if (end == std::string_view::npos) fuzz::broken("a line without its end", written);
      const std::string_view line = written.substr(0, end);
      fuzz::check_message(line);
      const auto json = nlohmann::json::parse(line);
      if (!json.contains("plan") && !json.contains("brief") && !json.contains("error"))
        fuzz::broken("a line that is neither a plan nor an error", line);
      ++lines;
      written.remove_prefix(end + 1);
    }
  };
  const BatchResult result =
      plan_batch(order, fuzz::shipped_tables(), embedded_table_texts(), edge);
  if (lines != result.counts.planned + result.counts.broken) fuzz::broken("lines lost", "");
  const std::string summary = batch_summary_json(result, order.grid);
  fuzz::check_message(summary);
  if (nlohmann::json::parse(summary).at("planned") != result.counts.planned)
    fuzz::broken("a sum of other plans", summary);
  return 0;
}
