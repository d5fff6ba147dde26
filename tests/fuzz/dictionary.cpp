// Prints libFuzzer's dictionary: the keys, words and units of all documents, and the marks of JSON.
#include <cstdio>
#include <set>
#include <string>

#include "campaign/documents.hpp"
#include "readers/table_fields.hpp"

namespace {

/// Prints a text as the format has it: in quotes, with quotes and bytes beyond ASCII escaped.
void print(const std::string& text) {
  std::string written;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x20 || byte >= 0x7f) {
      char escape[5];
      std::snprintf(escape, sizeof escape, "\\x%02x", static_cast<unsigned>(byte));
      written += escape;
    } else {
      if (c == '"' || c == '\\') written += '\\';
      written += c;
    }
  }
  std::printf("\"%s\"\n", written.c_str());
}

}  // namespace

int main() {
  // Marks of JSON, odd numbers, blanks, and characters that must not reach a page or terminal.
  std::set<std::string> texts = {
      "{",          "}",       "[",       "]",      ",",          "null",   "true",   "false",
      "\\u001b",    "\\u0000", "\\ud800", "1e308",  "1e400",      "-0.0",   "1e-320", "<script>",
      "&amp;",      "\u00a0",  "\u202f",  "\ufeff", "\u001b[31m", "\u202e", "\u009b", "own.json",
      "2026-07-06", "1/2",     "1 1/2",   "1-1/2",  "½",          "1½",     "1,5",    "1,500",
      " of water",  " 9:30",   " am",     " p.m.",  "today"};
  auto all = firstdrop::documents();
  for (firstdrop::Document& table : firstdrop::table_documents()) all.push_back(std::move(table));
  for (const firstdrop::Document& document : all) {
    firstdrop::for_each_key(document.root.keys, [&](const std::string&, const firstdrop::Key& key) {
      texts.insert('"' + key.name + "\": ");
      for (const std::string& word : key.words) texts.insert('"' + word + '"');
      if (!key.example.empty()) texts.insert(key.example);
    });
  }
  for (const firstdrop::QuantityKind& kind : firstdrop::quantity_kinds()) {
    for (const std::string& unit : kind.units) texts.insert(' ' + unit);
    for (const std::string& unit : kind.aliases) texts.insert(' ' + unit);
  }
  for (const std::string& text : texts) print(text);
}
