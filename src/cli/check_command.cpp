#include <fmt/core.h>

#include <algorithm>
#include <cstdint>
#include <string_view>
#include <utility>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "campaign/campaign_json.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/model/still_doubt.hpp"
#include "firstdrop/output/still_words.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "json/records.hpp"
#include "readers/recipe_document.hpp"

namespace firstdrop::cli {
namespace {

// For a text of unknown kind: throws its syntax errors, or else one fault that says which marker
// keys there are.
[[noreturn]] void refuse_unknown(const std::string& content, const std::string& path) {
  [[maybe_unused]] const RecipeDocument valid_json(content, path);
  throw InputError(Fault{path, "", "nothing that says what it is",
                         "\"recipe\": 1, \"campaign\": 1, \"still\": 1 or \"plant\": 1 in it", "",
                         0, 0});
}

/// What a still is, the figures that look like slips, and those that have their defaults.
std::string still_words(const Still& still, const std::string& path, const Tables& tables) {
  std::string words = "a still, \"" + visible(still.title) + "\"";
  for (const StillDoubt& doubt : doubts_about(still, tables))
    words += "\n  " + doubt_text(doubt, Units::metric) + " Is that right?";
  std::vector<std::string> defaults;
  for (const DefaultFigure& figure : default_figures(still))
    defaults.push_back(default_text(figure, Units::metric));
  if (!defaults.empty())
    words += "\n  Not measured, so these defaults are used: " + joined(defaults, ", ") + ".";
  return words + "\n  Next: firstdrop new --still " + visible(path);
}

// Reads a text with the reader for its kind, and returns a description of it.
std::string read_as_what_it_is(const std::string& content, const std::string& path,
                               const Tables& tables) {
  switch (document_kind(content)) {
    case DocumentKind::still:
      return still_words(read_still(content, path, tables), path, tables);
    case DocumentKind::plant:
      return "a plant, \"" + visible(read_plant(content, path, tables).name) + "\"";
    case DocumentKind::campaign:
      return "a campaign, \"" +
             visible(read_campaign(content, path, tables, reader_beside(path)).title) + "\"";
    case DocumentKind::unknown:
      refuse_unknown(content, path);
    case DocumentKind::recipe:
      break;
  }
  return "a recipe, \"" + visible(read_recipe(content, path, tables, reader_beside(path)).title) +
         "\"";
}

class Checked {
 public:
  explicit Checked(const Tables& tables) : tables_(tables) {}

  // Reports what a single document is; for JSON Lines and lists, how many records are good.
  void file(const std::string& path) {
    try {
      std::int64_t all = 0;
      std::int64_t good = 0;
      Result first;  // held back until it's known whether it's the only one
      const auto take = [&](const Record& record) {
        Result result = result_of(record, path);
        if (result.faults.empty()) ++good;
        if (++all == 1)
          first = std::move(result);
        else
          refuse(placed(std::move(result.faults), result.begin, path));
        if (all == 2) refuse(placed(std::exchange(first.faults, {}), first.begin, path));
      };
      RecordReader records(path);
      InputFile input(path, -1);
      std::string block(block_size, ' ');
      while (const std::size_t size = input.read(block.data(), block.size()))
        records.add(std::string_view(block).substr(0, size), take);
      records.finish(take);
      if (all == 0) take(Record{});  // says that the text is empty
      if (all == 1 && !records.is_list()) {
        refuse(placed(std::exchange(first.faults, {}), first.begin, path, true));
        if (good == 1) report_ += fmt::format("{}: good, {}\n", visible(path), first.what);
        return;
      }
      refuse(placed(std::move(first.faults), first.begin, path));
      report_ += good == all
                     ? fmt::format("{}: good, {} records\n", visible(path), all)
                     : fmt::format("{}: {} of {} records are good\n", visible(path), good, all);
    } catch (const InputError& error) {
      refuse(error.faults());
    }
  }
  const std::string& report() const { return report_; }
  int status() const { return status_; }

 private:
  static constexpr std::size_t block_size = 1U << 16U;

  struct Result {
    PlaceInFile begin;          // of the record
    std::string what;           // in words, of a good one
    std::vector<Fault> faults;  // as if the record were a file by itself
  };

  Result result_of(const Record& record, const std::string& path) {
    Result result;
    result.begin = record.begin;
    try {
      if (record.is_fault()) {
        result.faults.push_back(
            Fault{path, "", std::string(record.found), std::string(record.wanted), "", 0, 0});
      } else {
        result.what = read_as_what_it_is(std::string(record.text), path, tables_);
      }
    } catch (const InputError& error) {
      result.faults = error.faults();
    }
    return result;
  }

  // The faults of a record with their places in the file. A fault of a whole file has no place.
  static std::vector<Fault> placed(std::vector<Fault> faults, const PlaceInFile& begin,
                                   const std::string& path, bool is_only_one = false) {
    for (Fault& fault : faults) {
      if (fault.file != path || (is_only_one && fault.line == 0)) continue;
      const PlaceInFile at = place_in_file(fault, begin);
      fault.line = static_cast<int>(at.line);
      fault.column = static_cast<int>(at.column);
    }
    return faults;
  }

  void refuse(const std::vector<Fault>& faults) {
    for (const Fault& fault : faults) report_ += fault.text() + "\n";
    if (!faults.empty()) status_ = bad_input;
  }

  const Tables& tables_;
  std::string report_;
  int status_ = done;
};

}  // namespace

int check(const CheckOptions& options, const TableFolder& folder) {
  const Tables tables = folder.tables();
  Checked checked(tables);
  for (const std::string& path : options.files) checked.file(path);
  write_result(checked.report());
  return checked.status();
}

}  // namespace firstdrop::cli
