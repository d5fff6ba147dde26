#include "cli/table_folder.hpp"

#include <fmt/core.h>

#include <array>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <utility>
#include <vector>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "cli/files.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/readers/recipe_json.hpp"

namespace firstdrop::cli {
namespace {

namespace fs = std::filesystem;

struct TableFile {
  const char* name;
  std::string_view TableTexts::*text;
};
constexpr std::array table_files = {
    TableFile{"sources.json", &TableTexts::sources},
    TableFile{"liquids.json", &TableTexts::liquids},
    TableFile{"materials.json", &TableTexts::materials},
    TableFile{"design_defaults.json", &TableTexts::design_defaults},
    TableFile{"forms.json", &TableTexts::forms},
    TableFile{"release_classes.json", &TableTexts::release_classes},
    TableFile{"plants.json", &TableTexts::plants},
    TableFile{"stills.json", &TableTexts::stills},
    TableFile{"findings.json", &TableTexts::findings},
};

InputError no_folder(const std::string& folder, const std::string& found, std::string wanted) {
  const std::string hint = "the folder is named by --data or FIRSTDROP_DATA";
  return InputError(Fault{visible(folder), "", found, std::move(wanted), hint, 0, 0});
}

std::string place_of(const std::string& folder, const std::string& name) {
  return (fs::path(folder) / name).string();
}

}  // namespace

TableFolder::TableFolder(const DataFolder& folder) {
  if (folder) read(*folder);
}

void TableFolder::read(const std::string& folder) {
  folder_ = folder;
  std::error_code error;
  if (!fs::is_directory(folder, error))
    throw no_folder(folder, folder.empty() ? "an empty name" : "There is no such folder",
                    "Name a folder with tables");
  for (const TableFile& table : table_files) {
    const std::string place = place_of(folder, table.name);
    // Anything with a table's name is read, or reported if it isn't a file.
    if (fs::symlink_status(place, error).type() == fs::file_type::not_found) continue;
    texts_.*table.text = own_[table.name] = read_text_file(place);
  }
  if (own_.empty()) {
    std::vector<std::string> names;
    for (const TableFile& table : table_files) names.emplace_back(table.name);
    throw no_folder(folder, "no tables in this folder",
                    fmt::format("Put at least one of these into it: {}", joined(names, ", ")));
  }
  try {
    checked_ = read_tables(texts_);
  } catch (const InputError& refusal) {
    std::vector<Fault> faults = refusal.faults();
    for (Fault& fault : faults)
      fault.file = own_.contains(fault.file) ? visible(place_of(folder, fault.file))
                                             : "built-in " + fault.file;
    throw InputError(std::move(faults));
  }
  // table_entries() only understands the layout of the shipped tables, so use that.
  for (const TableFile& table : table_files) {
    const auto own = own_.find(table.name);
    if (own == own_.end()) continue;
    own->second = nlohmann::ordered_json::parse(own->second).dump(2);
    texts_.*table.text = own->second;
  }
}

Tables TableFolder::tables() const {
  return checked_ ? *checked_ : read_tables(texts_);
}

Tables TableFolder::tables_for(const std::string& recipe_text) const {
  return checked_ ? *checked_ : read_tables(texts_, named_in_recipe(recipe_text));
}

std::string TableFolder::origin() const {
  if (own_.empty()) return "";
  std::vector<std::string> names;
  for (const auto& [name, text] : own_) names.push_back(name);
  const char* rest =
      own_.size() < table_files.size() ? "; the other tables are as compiled in" : "";
  return fmt::format("tables from {}: {}{}", visible(folder_), joined(names, ", "), rest);
}

}  // namespace firstdrop::cli
