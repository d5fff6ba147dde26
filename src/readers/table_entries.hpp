// Finds entries of a shipped table without parsing all of it: a plan needs one plant of many.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace firstdrop {

/// Key and text of each entry of a table {"name": 1, "entries": {…}}. Only for tables that are
/// known to be valid, as the shipped ones are by their tests. Nothing is checked here, and a text
/// in another layout gives no entries or wrong ones. Keys must have no escapes.
std::vector<std::pair<std::string_view, std::string_view>> table_entries(std::string_view table);

/// The text of one entry, if the table has it.
std::optional<std::string_view> table_entry(std::string_view key, std::string_view table);

/// The table with only these entries.
std::string table_of(const std::string& name, std::string_view table,
                     const std::set<std::string>& keys);

}  // namespace firstdrop
