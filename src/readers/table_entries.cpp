#include "readers/table_entries.hpp"

#include "json/json_edit.hpp"

namespace firstdrop {
std::vector<std::pair<std::string_view, std::string_view>> table_entries(std::string_view table) {
  std::vector<std::pair<std::string_view, std::string_view>> entries;
  constexpr std::string_view mark = "\"entries\": {";
  std::size_t at = table.find(mark);
  if (at == std::string_view::npos) return entries;
  at += mark.size();
  while ((at = table.find_first_of("\"}", at)) != std::string_view::npos && table[at] == '"') {
    const std::string_view key = json::value_at(table, at);
    const std::size_t begin = table.find('{', at + key.size());
    if (begin == std::string_view::npos) break;
    const std::string_view entry = json::value_at(table, begin);
    entries.emplace_back(key.substr(1, key.size() - 2), entry);
    at = begin + entry.size();
  }
  return entries;
}

std::optional<std::string_view> table_entry(std::string_view key, std::string_view table) {
  for (const auto& [name, text] : table_entries(table)) {
    if (name == key) return text;
  }
  return std::nullopt;
}

std::string table_of(const std::string& name, std::string_view table,
                     const std::set<std::string>& keys) {
  std::string text = "{\"" + name + "\": 1, \"entries\": {";
  bool first = true;
  for (const auto& [key, entry] : table_entries(table)) {
    if (!keys.contains(std::string(key))) continue;
    text += std::string(first ? "" : ", ") + "\"" + std::string(key) + "\": ";
    text += entry;
    first = false;
  }
  return text + "}}";
}

}  // namespace firstdrop
