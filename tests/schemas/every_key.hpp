// Documents that hold every key of a description, for tests that spoil them.
#pragma once

#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <vector>

namespace every_key {

/// How such a document is made.
struct Making {
  /// Keys that rules exclude beside others: "site.pressure", or "work[].wanted" for all items.
  std::set<std::string> left_out = {};
  /// Figures are objects with their range; in tables they always are.
  bool with_ranges = false;
  /// Plants, stills and recipes are named, instead of written out.
  bool by_name = false;
  /// The document is a table, and nothing in it was measured on somebody's bench.
  bool in_table = false;
  /// The entries of the table.
  std::vector<std::string> entries = {};
};

/// The document or table of this name: each key with its example, else its default, else a value
/// within its bounds.
nlohmann::json document(const std::string& name, const Making& making = {});

}  // namespace every_key
