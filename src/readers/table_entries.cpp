#include "readers/table_entries.hpp"

namespace firstdrop {
namespace {

// The index after the string whose opening quote is at `at`.
std::size_t after_string(std::string_view text, std::size_t at) {
  for (++at; at < text.size() && text[at] != '"'; ++at) {
    if (text[at] == '\\') ++at;
  }
  return at + 1;
}

// The index after the object that opens at `at`.
std::size_t after_object(std::string_view text, std::size_t at) {
  int depth = 0;
  while (at < text.size()) {
    // Only quotes and braces matter, because braces within lists are balanced.
    at = text.find_first_of("\"{}", at);
    if (at == std::string_view::npos) return text.size();
    if (text[at] == '"') {
      at = after_string(text, at);
      continue;
    }
    depth += text[at++] == '{' ? 1 : -1;
    if (depth == 0) return at;
  }
  return text.size();
}

}  // namespace

std::vector<std::pair<std::string_view, std::string_view>> table_entries(std::string_view table) {
  std::vector<std::pair<std::string_view, std::string_view>> entries;
  constexpr std::string_view mark = "\"entries\": {";
  std::size_t at = table.find(mark);
  if (at == std::string_view::npos) return entries;
  at += mark.size();
  while ((at = table.find_first_of("\"}", at)) != std::string_view::npos && table[at] == '"') {
    const std::size_t key_end = after_string(table, at);
    const std::string_view key = table.substr(at + 1, key_end - at - 2);
    const std::size_t begin = table.find('{', key_end);
    if (begin == std::string_view::npos) break;
    const std::size_t end = after_object(table, begin);
    entries.emplace_back(key, table.substr(begin, end - begin));
    at = end;
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
