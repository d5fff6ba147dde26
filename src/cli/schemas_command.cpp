#include <string>
#include <vector>

#include "campaign/schema.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/key_list.hpp"
#include "cli/output_format.hpp"
#include "cli/table_folder.hpp"

namespace firstdrop::cli {
namespace {

std::string list_page(const std::vector<Schema>& all) {
  std::vector<KeyAndAbout> list;
  for (const Schema& schema : all) {
    // The first sentence says what it is. How to read it is in the schema itself.
    const std::size_t end = schema.about.find(". ");
    list.emplace_back(schema.key, schema.about.substr(0, end == std::string::npos ? end : end + 1));
  }
  return key_list(list);
}

std::string result_of(const SchemasOptions& options, const TableFolder& folder) {
  FormatChoice choice{table_formats};
  if (options.key.empty())
    choice.leave({OutputFormat::text}, "without a KEY");
  else
    choice.leave({OutputFormat::json}, "with a KEY");
  output_format(options.output, choice);  // refuses any other ending
  const std::vector<Schema> all = firstdrop::schemas(folder.tables());
  if (options.key.empty()) return list_page(all);
  std::vector<KnownName> keys;
  for (const Schema& schema : all) {
    if (schema.key == options.key) return schema.text + "\n";
    keys.push_back({schema.key});
  }
  throw no_such_name(options.key, "schemas", keys);
}

}  // namespace

int schemas(const SchemasOptions& options, const TableFolder& folder) {
  write_result(result_of(options, folder), options.output);
  return done;
}

}  // namespace firstdrop::cli
