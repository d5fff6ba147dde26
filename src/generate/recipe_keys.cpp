#include "generate/recipe_keys.hpp"

#include "campaign/documents.hpp"
#include "firstdrop/readers/tables_json.hpp"

namespace firstdrop::generate {
namespace {

void add(const std::vector<Key>& keys, const std::string& before,
         const std::vector<std::string>& materials, std::vector<CompletionKey>& all) {
  for (const Key& key : keys) {
    if (key.form == KeyForm::version || key.form == KeyForm::remark) continue;
    CompletionKey one{before + key.name, {}, {}};
    if (key.form == KeyForm::choice) one.words = key.words;
    if (key.table == "material") one.words = materials;
    if (key.form == KeyForm::reference) one.table = key.table + "s";
    all.push_back(one);
    // A plant's keys stand under names that a line of completions can't list.
    const bool is_open =
        key.form == KeyForm::object || (key.form == KeyForm::reference && key.table == "still");
    if (is_open) add(key.keys, one.key + '.', materials, all);
  }
}

}  // namespace

std::vector<CompletionKey> recipe_keys() {
  std::vector<std::string> materials;
  for (const auto& [key, material] : read_tables(embedded_table_texts()).materials)
    materials.push_back(key);
  std::vector<CompletionKey> all;
  add(documents().front().root.keys, "", materials, all);
  return all;
}

}  // namespace firstdrop::generate
