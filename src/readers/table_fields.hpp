// The tables as documents; see readers/fields.hpp.
#pragma once

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "base/visible_text.hpp"
#include "readers/fields.hpp"

namespace firstdrop {

const Fields<Source>& source_fields();
const Fields<Liquid>& liquid_fields();
const Fields<Material>& material_fields();
const Fields<DesignDefaults>& design_defaults_fields();
const Fields<ReleaseClass>& release_class_fields();
const Fields<FindingKind>& finding_fields();

/// The table of forms, whose keys are words.
struct FormTable {
  std::map<PlantForm, FormDefaults> entries;
};
const Fields<FormTable>& forms_fields();

/// A table {"plants": 1, "entries": {…}}.
template <class T>
struct Table {
  std::map<std::string, T> entries;
};

/// Whether a table may have an entry of this key: letters, digits, hyphens and dots.
inline bool is_plain_key(std::string_view key) {
  return !key.empty() && std::all_of(key.begin(), key.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_' || c == '.';
  });
}

/// The keys of a table whose entries have these.
template <class T>
Fields<Table<T>> table_fields(const char* name, const Fields<T>& entry_fields) {
  const auto read = [&entry_fields](const json::Value& value, Table<T>& table,
                                    const Reading& reading) {
    for (const json::Value& member : value.members()) {
      if (!is_plain_key(member.key()))
        member.fault("the key " + firstdrop::quoted(member.key()),
                     "letters, digits, hyphens and dots");
      T entry;
      if constexpr (requires { entry.key; }) entry.key = member.key();
      entry_fields.read(member, entry, reading.as(Form::table_entry));
      table.entries.emplace(member.key(), std::move(entry));
    }
    if (value.is(json::Kind::object) && table.entries.empty() && !value.context().partial)
      value.refuse("at least one entry");
  };
  const auto describe = [&entry_fields](Key& key) {
    Key entry = field_detail::described("KEY", KeyForm::object, {}, Need::no);
    entry_fields.describe(entry);
    key.pattern = "^[A-Za-z0-9._-]+$";
    key.least = 1;
    key.keys = {std::move(entry)};
  };
  return {name,
          {version<Table<T>>(name, "It says which table the file is."), schema_remark<Table<T>>(),
           note_remark<Table<T>>(),
           field<Table<T>>("entries", KeyForm::map, {.help = "The entries by their keys."}, read,
                           nullptr, describe, Need::always)}};
}

/// All tables as documents, in the order in which they are read.
std::vector<Document> table_documents();

}  // namespace firstdrop
