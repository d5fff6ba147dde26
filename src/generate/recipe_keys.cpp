#include "generate/recipe_keys.hpp"

#include "campaign/documents.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "readers/documents.hpp"

namespace firstdrop::generate {
namespace {

void add(const std::vector<Key>& keys, const std::string& before, const Tables& tables,
         std::vector<CompletionKey>& all) {
  for (const Key& key : keys) {
    if (key.form == KeyForm::version || key.form == KeyForm::remark) continue;
    CompletionKey one{before + key.name, {}, {}};
    if (key.form == KeyForm::choice) one.words = key.words;
    if (key.form == KeyForm::name) one.words = names_of_table(key.table, tables);
    if (key.form == KeyForm::reference) one.table = key.table + "s";
    all.push_back(one);
    // A plant's keys stand under names that a line of completions can't list.
    const bool is_open =
        key.form == KeyForm::object || (key.form == KeyForm::reference && key.table == "still");
    if (is_open) add(key.keys, one.key + '.', tables, all);
  }
}

}  // namespace

std::vector<CompletionKey> recipe_keys() {
  std::vector<CompletionKey> all;
  add(documents().front().root.keys, "", read_tables(embedded_table_texts()), all);
  return all;
}

}  // namespace firstdrop::generate
