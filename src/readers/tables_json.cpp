#include "firstdrop/readers/tables_json.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "readers/documents.hpp"
#include "readers/table_entries.hpp"
#include "readers/table_fields.hpp"

namespace firstdrop {

namespace {

using json::Context;
using json::Value;

template <class T>
void read_document(std::string_view text, const char* name, Context& context, const Tables& tables,
                   const Fields<T>& fields, T& into) {
  context.file = fmt::format("{}.json", name);
  if (const auto root = json::parse(text, context))
    fields.read(Value(*root, context), into, {tables});
}

/// Reads a table into `entries`, a member of `tables`.
template <class T, class Entries>
void read_table(std::string_view text, const char* name, Context& context, const Tables& tables,
                const Fields<T>& entry_fields, Entries& entries) {
  Table<T> table;
  read_document(text, name, context, tables, table_fields(name, entry_fields), table);
  for (auto& [key, entry] : table.entries) entries.emplace(key, std::move(entry));
}

// Reads a user's own file.
template <class T>
T read_own(std::string_view text, const std::string& file, const Tables& tables,
           const Fields<T>& fields) {
  Context context{file, &tables.sources};
  T own;
  own.key = "own";
  if (const auto root = json::parse(text, context))
    fields.read(Value(*root, context), own, {tables});
  context.finish();
  return own;
}

void read_rest(const TableTexts& texts, Context& context, Tables& tables) {
  if (!tables.sources.empty()) context.sources = &tables.sources;
  read_table(texts.liquids, "liquids", context, tables, liquid_fields(), tables.liquids);
  read_table(texts.materials, "materials", context, tables, material_fields(), tables.materials);
  read_document(texts.design_defaults, "design_defaults", context, tables, design_defaults_fields(),
                tables.design_defaults);
  read_table(texts.release_classes, "release_classes", context, tables, release_class_fields(),
             tables.release_classes);
  FormTable forms;
  read_document(texts.forms, "forms", context, tables, forms_fields(), forms);
  tables.forms = std::move(forms.entries);
  read_table(texts.plants, "plants", context, tables, plant_fields(), tables.plants);
  read_table(texts.stills, "stills", context, tables, still_fields(), tables.stills);
  read_table(texts.findings, "findings", context, tables, finding_fields(), tables.findings);
  context.finish();
}

}  // namespace

Tables read_tables(const TableTexts& texts) {
  Tables tables;
  Context context;
  context.shipped = true;
  read_table(texts.sources, "sources", context, tables, source_fields(), tables.sources);
  read_rest(texts, context, tables);
  return tables;
}

namespace {

/// `seen` of a source, from its entry in a table that is known to be valid.
std::string seen_of(std::string_view entry) {
  constexpr std::string_view key = "\"seen\": \"";
  const std::size_t at = entry.rfind(key);
  if (at == std::string_view::npos) return {};
  entry.remove_prefix(at + key.size());
  return std::string(entry.substr(0, entry.find('"')));
}

}  // namespace

Tables read_tables(const TableTexts& texts, const TablePart& part) {
  Tables tables;
  Context context;
  context.shipped = true;
  context.partial = true;
  for (const auto& [key, text] : table_entries(texts.sources)) {
    tables.sources.emplace(key, Source{std::string(key), "", "", seen_of(text)});
  }
  // A file of one's own may be like any plant.
  const bool has_file = part.all_plants || std::any_of(part.plants.begin(), part.plants.end(),
                                                       [](const std::string& name) {
                                                         return name.ends_with(".json");
                                                       });
  const std::string plants =
      has_file ? std::string(texts.plants) : table_of("plants", texts.plants, part.plants);
  const std::string stills = table_of("stills", texts.stills, part.stills);
  TableTexts some = texts;
  // A plant of the table names its liquids; a user's own plant may name any.
  const bool all_of_table =
      !part.plants.empty() &&
      std::all_of(part.plants.begin(), part.plants.end(), [&](const std::string& key) {
        return plants.find('"' + key + "\": {") != std::string::npos;
      });
  std::set<std::string> named;
  for (const auto& [key, text] : table_entries(texts.liquids)) {
    if (!all_of_table || plants.find('"' + std::string(key) + '"') != std::string::npos) {
      named.emplace(key);
    }
  }
  const std::string liquids = table_of("liquids", texts.liquids, named);
  some.liquids = liquids;
  some.plants = plants;
  some.stills = stills;
  read_rest(some, context, tables);
  return tables;
}

Still read_still(std::string_view text, const std::string& file, const Tables& tables) {
  return read_own(text, file, tables, still_fields());
}

Plant read_plant(std::string_view text, const std::string& file, const Tables& tables) {
  return read_own(text, file, tables, plant_fields());
}

}  // namespace firstdrop
