// The tables that a command plans with: the built-in ones, or those in a folder.
#pragma once

#include <map>
#include <optional>
#include <string>

#include "firstdrop/readers/tables_json.hpp"
#include "firstdrop/tables/tables.hpp"

namespace firstdrop::cli {

/// The folder that --data or FIRSTDROP_DATA names, if any.
using DataFolder = std::optional<std::string>;

/// Tables in the folder replace the built-in ones; built-in tables fill the gaps. With a folder,
/// all tables are read in full, because nobody has tested them.
class TableFolder {
 public:
  /// Throws InputError if there is no such folder, if it has none of the tables, and with all
  /// faults of those that it has.
  explicit TableFolder(const DataFolder& folder);
  TableFolder(const TableFolder&) = delete;  // the texts point into own_
  TableFolder& operator=(const TableFolder&) = delete;

  /// Validated, and in the layout of the shipped tables.
  const TableTexts& texts() const { return texts_; }
  /// All tables in full.
  Tables tables() const;
  /// At least what the recipe in this text needs.
  Tables tables_for(const std::string& recipe_text) const;
  /// Says which tables come from the folder; empty if none do.
  std::string origin() const;

 private:
  void read(const std::string& folder);

  std::string folder_;
  std::map<std::string, std::string> own_;  ///< the folder's tables, by file name
  TableTexts texts_ = embedded_table_texts();
  std::optional<Tables> checked_;  ///< only with a folder
};

}  // namespace firstdrop::cli
