#include <fmt/core.h>

#include <algorithm>
#include <cstdint>
#include <string_view>
#include <utility>

#include "base/visible_text.hpp"
#include "campaign/campaign_json.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "json/record_splitter.hpp"
#include "readers/recipe_document.hpp"

namespace firstdrop::cli {
namespace {

// The fault of a text that is JSON but does not say what it is; else that of the recipe reader.
void refuse_unknown(const std::string& content, const std::string& path, const Tables& tables) {
  try {
    read_recipe(content, path, tables, reader_beside(path));
  } catch (const InputError& error) {
    const bool syntax = std::any_of(error.faults().begin(), error.faults().end(),
                                    [](const Fault& fault) { return fault.line > 0; });
    if (syntax) throw;
    throw InputError(Fault{path, "", "nothing that says what it is",
                           "\"recipe\": 1, \"campaign\": 1, \"still\": 1 or \"plant\": 1 in it", "",
                           0, 0});
  }
}

// What a text is, once it has been read without a fault.
std::string read_as_what_it_is(const std::string& content, const std::string& path,
                               const Tables& tables) {
  switch (document_kind(content)) {
    case DocumentKind::still:
      return "a still, \"" + visible(read_still(content, path, tables).title) + "\"";
    case DocumentKind::plant:
      return "a plant, \"" + visible(read_plant(content, path, tables).name) + "\"";
    case DocumentKind::campaign:
      return "a campaign, \"" +
             visible(read_campaign(content, path, tables, reader_beside(path)).title) + "\"";
    case DocumentKind::unknown:
      refuse_unknown(content, path, tables);
      break;
    case DocumentKind::recipe:
      break;
  }
  return "a recipe, \"" + visible(read_recipe(content, path, tables, reader_beside(path)).title) +
         "\"";
}

bool is_an_object(std::string_view text) {
  try {
    [[maybe_unused]] const RecipeDocument document(text, "");
    return text.starts_with('{');
  } catch (const InputError&) {
    return false;
  }
}

// Whether a text is JSON Lines or a list, rather than one document, which may be broken.
bool holds_many(std::string_view text) {
  int records = 0;
  bool any_good = false;
  RecordSplitter splitter;
  const auto take = [&](const Record& record) {
    ++records;
    any_good = any_good || is_an_object(record.text);
  };
  splitter.add(text, take);
  splitter.finish(take);
  const std::size_t begin = text.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
  const bool list = begin != std::string_view::npos && text[begin] == '[';
  return list ? records > 0 : records > 1 && any_good;
}

class Checked {
 public:
  explicit Checked(const Tables& tables) : tables_(tables) {}

  void file(const std::string& path) {
    try {
      InputFile input(path, -1);
      std::string text = next_part(input);
      if (text.size() < part && !holds_many(text)) {
        report_ +=
            fmt::format("{}: good, {}\n", visible(path), read_as_what_it_is(text, path, tables_));
      } else {
        records(path, std::move(text), input);
      }
    } catch (const InputError& error) {
      refuse(error.faults());
    }
  }
  const std::string& report() const { return report_; }
  int status() const { return status_; }

 private:
  // More than any document by itself has.
  static constexpr std::size_t part = longest_record + 1;

  static std::string next_part(InputFile& input) {
    std::string text(part, ' ');
    std::size_t size = 0;
    while (const std::size_t more = size < part ? input.read(text.data() + size, part - size) : 0)
      size += more;
    text.resize(size);
    return text;
  }

  void records(const std::string& path, std::string text, InputFile& input) {
    std::int64_t all = 0;
    std::int64_t good = 0;
    const auto take = [&](const Record& record) {
      ++all;
      good += is_good(record, path) ? 1 : 0;
    };
    RecordSplitter splitter;
    for (; !text.empty(); text = next_part(input)) splitter.add(text, take);
    splitter.finish(take);
    report_ += good == all
                   ? fmt::format("{}: good, {} records\n", visible(path), all)
                   : fmt::format("{}: {} of {} records are good\n", visible(path), good, all);
  }

  // Faults get the line in which the record begins, or their own.
  bool is_good(const Record& record, const std::string& path) {
    std::vector<Fault> faults;
    try {
      if (!record.is_fault()) {
        read_as_what_it_is(std::string(record.text), path, tables_);
        return true;
      }
      faults.push_back(
          Fault{path, "", std::string(record.found), std::string(record.wanted), "", 0, 0});
    } catch (const InputError& error) {
      faults = error.faults();
    }
    for (Fault& fault : faults) {
      if (fault.file != path) continue;
      if (fault.line == 1) fault.column += static_cast<int>(record.column) - 1;
      fault.line = static_cast<int>(record.line) + std::max(fault.line, 1) - 1;
    }
    refuse(faults);
    return false;
  }

  void refuse(const std::vector<Fault>& faults) {
    for (const Fault& fault : faults) report_ += fault.text() + "\n";
    status_ = bad_input;
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
