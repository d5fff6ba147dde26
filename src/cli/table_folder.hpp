// The tables that a command plans with: the program's own copy, or a folder's.
#pragma once

#include <map>
#include <optional>
#include <string>

#include "firstdrop/readers/tables_json.hpp"
#include "firstdrop/tables/tables.hpp"

namespace firstdrop::cli {

/// What --data or FIRSTDROP_DATA names, if anything.
using DataFolder = std::optional<std::string>;

/// A table that the folder has stands in the place of the program's own copy; one that it has not
/// is as compiled in. A folder's tables are read whole, since nobody has tested them.
class TableFolder {
 public:
  /// Throws InputError where there is no such folder, where it has none of the tables, and with all
  /// that is wrong with those that it has.
  explicit TableFolder(const DataFolder& folder);
  TableFolder(const TableFolder&) = delete;  // the texts point into it
  TableFolder& operator=(const TableFolder&) = delete;

  /// Sound, and in the form of the shipped ones.
  const TableTexts& texts() const { return texts_; }
  /// Everything in them.
  Tables tables() const;
  /// At least what the recipe in this text needs.
  Tables tables_for(const std::string& recipe_text) const;
  /// Says which of them are the folder's; empty where none is.
  std::string origin() const;

 private:
  void read(const std::string& folder);

  std::string folder_;
  std::map<std::string, std::string> own_;  ///< the folder's, by their files' names
  TableTexts texts_ = embedded_table_texts();
  std::optional<Tables> checked_;  ///< of a folder
};

}  // namespace firstdrop::cli
