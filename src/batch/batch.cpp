#include "batch/batch.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <memory>
#include <mutex>
#include <new>
#include <utility>
#include <variant>
#include <vector>

#include "base/ordered_work.hpp"
#include "batch/batch_outputs.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/plan/planner.hpp"
#include "json/records.hpp"
#include "output/plan_lines.hpp"
#include "readers/recipe_document.hpp"

namespace firstdrop {
namespace {

constexpr std::size_t block_size = 1U << 16U;
constexpr std::size_t most_text_in_chunk = 1U << 18U;

// Where recipes come from. The items of one input share it, and the last of them frees it.
struct Origin {
  std::string file;
  FileReader beside;
};

// One recipe, to be planned at `points` grid points in a row, from `first_point` on.
struct Item {
  std::shared_ptr<const Origin> origin;
  std::size_t begin = 0;  // in the chunk's text
  std::size_t size = 0;
  PlaceInFile place = {0, 0};      // in the file; 0 if the input could not be read
  std::vector<Fault> faults = {};  // if there are any, nothing is planned
  std::uint64_t first_point = 0;
  std::uint64_t points = 1;
};

// A result for the summary, and its grid point. Text that can't be read or isn't JSON has no point.
struct Outcome {
  std::optional<std::uint64_t> point;
  std::variant<PlanOutcome, BrokenRecipe> what;
};

// The work that a worker takes at a time, and its results.
struct Chunk {
  std::string text;
  std::vector<Item> items;
  std::uint64_t points = 0;

  std::string lines;
  std::vector<Outcome> outcomes;
  BatchCounts counts;
  bool cut = false;  // the batch was stopped before all items were planned
};

// Finished chunks. Later chunks reuse their memory. Otherwise the allocator would return blocks of
// this size to the system and get them back page by page.
class SpareChunks {
 public:
  void put(Chunk chunk) {
    chunk.text.clear();
    chunk.items.clear();
    chunk.lines.clear();
    chunk.outcomes.clear();
    chunk.points = 0;
    chunk.counts = {};
    chunk.cut = false;
    const std::lock_guard lock(mutex_);
    spare_.push_back(std::move(chunk));
  }
  Chunk take() {
    const std::lock_guard lock(mutex_);
    if (spare_.empty()) return {};
    Chunk chunk = std::move(spare_.back());
    spare_.pop_back();
    return chunk;
  }

 private:
  std::mutex mutex_;
  std::vector<Chunk> spare_;
};

// --- planning the items of a chunk, in a worker thread

class Worker {
 public:
  Worker(const BatchOrder& order, const Tables& tables, const TableTexts& texts,
         const BatchEdge& edge)
      : order_(order), tables_(tables), texts_(texts), edge_(edge), maker_(tables) {}

  void plan(Chunk& chunk) {
    for (const Item& item : chunk.items) {
      if (edge_.stop && edge_.stop()) chunk.cut = true;
      if (chunk.cut) return;
      plan(item, chunk);
    }
  }

 private:
  void plan(const Item& item, Chunk& chunk) {
    if (item.first_point == 0) ++chunk.counts.recipes;
    if (!item.faults.empty()) {
      refuse(item, item.faults, std::nullopt, chunk);
      return;
    }
    std::optional<RecipeDocument> document;
    try {
      document.emplace(std::string_view(chunk.text).substr(item.begin, item.size),
                       item.origin->file);
    } catch (const InputError& error) {
      if (item.first_point == 0) refuse(item, error.faults(), std::nullopt, chunk);
      return;
    }
    for (std::uint64_t i = 0; i < item.points; ++i) {
      if (edge_.stop && edge_.stop()) {
        chunk.cut = true;
        return;
      }
      plan(item, *document, item.first_point + i, chunk);
    }
  }

  void plan(const Item& item, const RecipeDocument& document, std::uint64_t point, Chunk& chunk) {
    const std::size_t before = chunk.lines.size();
    const auto broken = [&](const std::vector<Fault>& faults) {
      chunk.lines.resize(before);
      refuse(item, faults, point, chunk);
    };
    try {
      Recipe recipe = document.read(tables_, item.origin->beside, order_.grid.point(point), texts_);
      if (order_.units) recipe.units = *order_.units;
      Plan plan = maker_.make(std::move(recipe), order_.samples, detail());
      if (order_.lines == BatchLines::full) add_ways_out(plan, tables_, order_.samples);
      write(plan, set_at(point), chunk.lines);
      if (order_.summary) chunk.outcomes.push_back({point, outcome_of(plan)});
      ++chunk.counts.planned;
      if (plan.verdict == Verdict::refused) ++chunk.counts.refused;
    } catch (const InputError& error) {
      broken(
          document.located(error, item.origin->beside, order_.grid.point(point), texts_).faults());
    } catch (const std::bad_alloc&) {
      throw;
    } catch (const std::exception& error) {
      // A value outside the range of its equation, or any other error that one recipe causes. The
      // other recipes are still planned.
      broken({Fault{item.origin->file, "",
                    fmt::format("a value that can't be worked out: {}", error.what()),
                    "another value", "", 0, 0}});
    }
  }

  // A batch that is only summed up needs no more detail than a brief one.
  Detail detail() const { return order_.lines == BatchLines::full ? Detail::full : Detail::brief; }

  void write(const Plan& plan, const std::string& set, std::string& lines) const {
    if (order_.lines == BatchLines::none) return;
    if (order_.lines == BatchLines::brief)
      append_brief(lines, plan, set);
    else
      append_plan_line(lines, plan, set);
    lines += '\n';
  }

  void refuse(const Item& item, const std::vector<Fault>& faults,
              std::optional<std::uint64_t> point, Chunk& chunk) const {
    ++chunk.counts.broken;
    const Fault& first = faults.front();
    const PlaceInFile at = first.file == item.origin->file ? place_in_file(first, item.place)
                                                           : PlaceInFile{item.place.line, 0};
    const BrokenRecipe broken{item.origin->file, at.line, reason_of(faults, item.origin->file),
                              at.column};
    if (order_.summary) chunk.outcomes.push_back({point, broken});
    if (order_.lines == BatchLines::none) return;
    const std::string set = point ? set_at(*point) : "";
    OutputWriter to(chunk.lines, Extent::full);
    write_object(to, broken_line_outputs(), {set, broken, faults});
    chunk.lines += '\n';
  }

  // The values of a grid point as JSON; empty if nothing varies.
  std::string set_at(std::uint64_t point) const {
    return order_.grid.varies() ? values_json(order_.grid.varied(point)) : "";
  }

  // Leaves out file, line and column, which have their own keys.
  static std::string reason_of(const std::vector<Fault>& faults, const std::string& file) {
    Fault first = faults.front();
    if (first.file == file) {
      first.file.clear();
      first.line = first.column = 0;
    }
    std::string reason = first.text();
    if (faults.size() > 1) reason += " And " + std::to_string(faults.size() - 1) + " more.";
    return reason;
  }

  const BatchOrder& order_;
  const Tables& tables_;
  const TableTexts& texts_;
  const BatchEdge& edge_;
  PlanMaker maker_;
};

// --- collecting the results, in the order of the recipes

class Results {
 public:
  Results(const BatchOrder& order, const BatchEdge& edge) : order_(order), edge_(edge) {
    const RecipeGrid& grid = order.grid;
    if (order.summary && grid.varies() && grid.size() <= most_variants)
      result_.variants.resize(grid.size());
  }

  void take(Chunk& chunk) {
    if (result_.stopped) return;
    result_.stopped = chunk.cut;
    result_.counts.recipes += chunk.counts.recipes;
    result_.counts.planned += chunk.counts.planned;
    result_.counts.refused += chunk.counts.refused;
    result_.counts.broken += chunk.counts.broken;
    if (order_.summary) sum_up(chunk);
    if (!chunk.lines.empty()) edge_.write(chunk.lines);
    if (edge_.progress) edge_.progress(result_.counts);
  }

  BatchResult result() && { return std::move(result_); }

 private:
  // Adds outcomes one by one, in the order of the recipes. So the sums are the same to the last
  // bit, however the work was split among threads.
  void sum_up(const Chunk& chunk) {
    for (const Outcome& outcome : chunk.outcomes) {
      const auto add_to = [&](BatchSummary& summary) {
        std::visit([&](const auto& what) { summary.add(what); }, outcome.what);
      };
      add_to(result_.summary);
      if (outcome.point && *outcome.point < result_.variants.size())
        add_to(result_.variants[*outcome.point]);
    }
  }

  const BatchOrder& order_;
  const BatchEdge& edge_;
  BatchResult result_;
};

// --- splitting the input into chunks for the workers

class Supply {
 public:
  Supply(const BatchOrder& order, OrderedWork<Chunk>& work, SpareChunks& spare,
         const BatchEdge& edge)
      : order_(order),
        work_(work),
        spare_(spare),
        edge_(edge),
        // A full chunk takes four to ten milliseconds. Handing it out costs little compared with
        // that, and a batch that is stopped ends soon.
        most_points_(order.lines == BatchLines::full || order.samples > 0 ? 8 : 256) {}

  void run() {
    while (!stopped()) {
      std::optional<BatchInput> input;
      try {
        input = edge_.next_input();
        if (!input) break;
      } catch (const InputError& error) {
        refuse(error);
        continue;
      }
      read(*input);
    }
    give_out();
  }

 private:
  bool stopped() const { return edge_.stop && edge_.stop(); }

  void refuse(const InputError& unreadable) {
    Item item;
    item.faults = unreadable.faults();
    item.origin = std::make_shared<Origin>(Origin{item.faults.front().file, nullptr});
    add(std::move(item), {});
  }

  void read(const BatchInput& input) {
    const auto origin = std::make_shared<Origin>(Origin{input.file, input.beside});
    RecordReader records(input.file);
    const auto take = [&](const Record& record) { this->take(record, origin); };
    std::vector<char> block(block_size);
    while (!stopped()) {
      if (input.ready && !input.ready()) give_out();
      std::size_t size = 0;
      try {
        size = input.read(block.data(), block.size());
      } catch (const InputError& error) {
        refuse(error);
        return;
      }
      if (size == 0) {
        // When the batch is stopped, read() also returns 0. The last record may then be incomplete.
        if (!stopped()) records.finish(take);
        return;
      }
      records.add({block.data(), size}, take);
    }
  }

  void take(const Record& record, const std::shared_ptr<const Origin>& origin) {
    Item item;
    item.origin = origin;
    item.place = record.begin;
    if (record.is_fault()) {
      item.faults.push_back(
          Fault{origin->file, "", std::string(record.found), std::string(record.wanted), "", 0, 0});
      add(std::move(item), {});
      return;
    }
    const std::uint64_t all = order_.grid.size();
    for (item.first_point = 0; item.first_point < all && !stopped();
         item.first_point += item.points) {
      item.points = std::min(all - item.first_point, most_points_ - chunk_.points);
      add(item, record.text);
    }
  }

  void add(Item item, std::string_view text) {
    item.begin = chunk_.text.size();
    item.size = text.size();
    chunk_.text += text;
    chunk_.points += item.points;
    chunk_.items.push_back(std::move(item));
    if (chunk_.points >= most_points_ || chunk_.text.size() >= most_text_in_chunk) give_out();
  }

  void give_out() {
    if (chunk_.items.empty()) return;
    work_.add(std::exchange(chunk_, spare_.take()));
  }

  const BatchOrder& order_;
  OrderedWork<Chunk>& work_;
  SpareChunks& spare_;
  const BatchEdge& edge_;
  std::uint64_t most_points_;
  Chunk chunk_;
};

}  // namespace

BatchResult plan_batch(const BatchOrder& order, const Tables& tables, const TableTexts& texts,
                       const BatchEdge& edge) {
  Results results(order, edge);
  SpareChunks spare;
  OrderedWork<Chunk> work(
      order.jobs, static_cast<std::size_t>(order.jobs) * 4,
      [&] {
        const auto worker = std::make_shared<Worker>(order, tables, texts, edge);
        return [worker](Chunk& chunk) { worker->plan(chunk); };
      },
      [&](Chunk& chunk) {
        results.take(chunk);
        spare.put(std::move(chunk));
      });
  Supply(order, work, spare, edge).run();
  work.finish();
  BatchResult result = std::move(results).result();
  result.stopped = result.stopped || (edge.stop && edge.stop());
  return result;
}

std::string batch_summary_json(const BatchResult& result, const RecipeGrid& grid) {
  WrittenSummary written{result.summary, grid.varies(), {}};
  for (std::uint64_t i = 0; i < result.variants.size(); ++i)
    written.variants.push_back({values_json(grid.varied(i)), result.variants[i]});
  return document_text(written_summary_outputs(), written, false);
}

}  // namespace firstdrop
